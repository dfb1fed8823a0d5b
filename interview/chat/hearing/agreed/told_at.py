"""The answer to the question that stands, out of a sentence that tells just that."""

from __future__ import annotations

from dataclasses import replace

from interview.chat.hearing.told.story import LEAST_WORDS_OF_FACT, read_story
from interview.chat.hearing.told.story_lines import not_used
from interview.chat.hearing.told.taken import Story
from interview.chat.hearing.turtles.known_turtles import told_of
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import WORD_TYPES
from interview.words.intents.which_turtle import turtles_in
from interview.words.lexicon.files import known_words
from interview.words.mentions.parts import read_parts
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

__all__ = ["told_at", "told_beside"]

_UNNEEDED = {
    ("uvb_lamp_kind", "power"): "A UVB lamp's watts aren't needed: its kind, strength and distance "
    "tell how much UVB there is."
}
"""By question and kind of amount, why what is often told there is not asked for."""
_HEATS = "mercury"
"""In the name of a lamp that is the heat lamp, too."""
_LEAST_WORDS_OF_CHOICE, _MOST_WORDS_OF_CHOICE = 2, 25


def told_at(interview: Interview, place: Place, line: str) -> tuple[str, str]:
    """The answer to a question that a sentence tells, where it tells just that; else nothing.

    With it what to say of the phrases that nothing was taken from.
    """
    question, words = interview.question(place), len(line.split())
    is_choice = question.type == "choice"
    least = _LEAST_WORDS_OF_CHOICE if is_choice else LEAST_WORDS_OF_FACT
    if words < least and place.id != "region" and not turtles_in(line):
        return "", ""
    try:
        interview.try_answer(place, line)
    except NotUnderstood as problem:
        if problem.meant and words < LEAST_WORDS_OF_FACT:  # a slip of the finger is asked about
            return "", ""
    except AnswerRefused:
        return "", ""
    else:
        return "", ""
    if is_choice and not known_words("in_context", "past").isdisjoint(plain_words(line).split()):
        return "", ""
    story, whose = told_of(interview, line, place)
    if story.heard or whose:  # a guess has to be confirmed
        return "", ""
    told = dict(story.answers)
    if place.id != "stage":
        told.pop(Place("stage"), "")  # whoever tells of a turtle has it
    if told.keys() == {place}:
        unused = not_used(story, LEAST_WORDS_OF_FACT)
        return told[place], _given_back(place, line, told[place], unused)
    if told or not is_choice or words > _MOST_WORDS_OF_CHOICE:
        return "", ""
    here = read_story(interview, f"the {question.short} is {line}")  # the question tells of what
    said = "" if place in here.heard else dict(here.answers).get(place, "")
    return said, _given_back(place, line, said, "")


def _given_back(place: Place, line: str, said: str, given_back: str) -> str:
    """What to say of phrases that nothing was taken from, lone amounts among them."""
    amounts = [part for part in read_parts(line) if part.unit and part.said not in said]
    lone = [part for part in amounts if said and part.said not in given_back]
    quoted = f"Not used: {', '.join(f'“{part.said}”' for part in lone)}." if lone else ""
    kinds = () if _HEATS in said else (part.kind for part in lone)
    why = (_UNNEEDED.get((place.id, kind), "") for kind in kinds)
    return " ".join(filter(None, (given_back, quoted, *dict.fromkeys(why))))


def _beside_an_amount(interview: Interview, place: Place, line: str, said: str) -> Story | None:
    """The same at a question for an amount: 25 cm, and the heater is 100 W."""
    story, whose = told_of(interview, line, place)
    told = {at: words for at, words in story.answers if at.id != "stage"}
    shared = place in told or any(said in words or words in said for words in told.values())
    if whose or story.heard or not told or shared:
        return None
    unused = tuple(phrase for phrase in story.unused if phrase != said)
    return replace(story, answers=((place, said), *told.items()), unused=unused)


def told_beside(interview: Interview, place: Place, line: str, said: str) -> Story | None:
    """What an amount tells that stands beside an answer: a foam block, 600 l/h.

    With it what the line answers there, `said` where that is known. None where it tells no more.
    """
    question = interview.question(place)
    if question.type not in WORD_TYPES:
        return _beside_an_amount(interview, place, line, said) if said else None
    if question.type != "choice" or len(line.split()) > _MOST_WORDS_OF_CHOICE:
        return None
    lead = f"{question.short}: "  # the question tells of what
    story = read_story(interview, f"{lead}{line}")
    told = dict(story.answers)
    beside = {
        at: words
        for at, words in told.items()
        if interview.question(at).type not in WORD_TYPES and at not in story.heard
    }
    if not beside or any(at.animal is not None for at in told):
        return None
    if here := said or told.get(place, ""):
        beside = {place: here, **beside}
    unused = (phrase for phrase in story.unused if phrase in line)
    heard = {at: clause.removeprefix(lead) for at, clause in story.heard.items()}
    return replace(story, answers=tuple(beside.items()), unused=tuple(unused), heard=heard)
