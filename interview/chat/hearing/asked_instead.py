"""A question typed in place of an answer: what is a carapace, do you count the tail."""

from __future__ import annotations

import re
from collections.abc import Iterator

from interview.chat.hearing.references import matches
from interview.chat.hearing.replies import YES, says, word_of
from interview.chat.hearing.turtles.called import meant_by
from interview.graph.interview import Interview, Place
from interview.words.amounts.numbers import read_number
from interview.words.choices.absence import is_unsure, wonders
from interview.words.intents.of_whom import names_an_animal
from interview.words.intents.people import heard_in
from interview.words.intents.which_turtle import turtles_in
from interview.words.lexicon.files import known_words, words
from interview.words.lexicon.rules import any_named, is_said, said_as
from interview.words.text.tokens import plain_words, tokenise

__all__ = [
    *("asks", "asks_of_life", "asks_of_more", "beside_life"),
    *("meaning_at", "meaning_in", "names_another", "opens", "reply_to", "says_mended"),
    *("says_much_changed", "steps_back", "supposes"),
]

_MOST_WORDS = 14
"""A longer line is a story that opens with a question."""
_MOST_BACK, _MOST_LEFT = 9, 3
"""Questions that are gone back, and words that say how many: a longer line is a story."""
_CLAUSE_ENDS = re.compile(r"[.,;:!?](?!\d)|\bbut\b", re.IGNORECASE)
_YOURS = "Whichever you like: I number them in the order you tell me of them."
_NOT_HERE = "That I can't tell you here; the audit says what your tank needs."


def asks(line: str) -> bool:
    """Whether a short line asks something."""
    within = 1 < len(plain_words(line).split()) <= _MOST_WORDS
    return within and (opens(line) or line.rstrip().endswith("?") or wonders(line))


def opens(line: str) -> bool:
    """Whether a line begins as a question does; else its mark may only doubt an answer."""
    first, _, _ = plain_words(line).partition(" ")
    return first in known_words("asked_instead", "opens")


def asks_of_life(line: str) -> bool:
    """Whether a line asks if a turtle lives, or how it fares: will he be okay, is she in pain."""
    return any(map(_is_of_life, _CLAUSE_ENDS.split(line))) or _is_of_health(line)


def beside_life(line: str) -> str:
    """What a line says beside that; "" where all of its clauses together ask it."""
    clauses = [clause.strip() for clause in _CLAUSE_ENDS.split(line)]
    rest = [clause for clause in clauses if not _is_of_life(clause)]
    return ", ".join(filter(None, rest if len(rest) < len(clauses) else ()))


def _is_of_life(clause: str) -> bool:
    spoken = plain_words(clause)
    is_asked = is_said(spoken, "asked_instead", "of_life")
    return (is_asked and not names_another(clause)) or _is_of_health(clause)


def names_another(text: str) -> bool:
    """Whether a line names a thing of the tank, its wiring, or a life that is no turtle's."""
    spoken = f" {plain_words(text)} "
    others = any_named("things"), said_as("asked_instead", "of_other_life")
    return any(other.search(spoken) for other in others)


def _is_of_health(text: str) -> bool:
    """Whether it is asked, or a worry, how an animal fares, and no thing is named before it."""
    spoken = said_as("asked_instead", "of_it").sub("normal ", f" {plain_words(text)} ")
    thing = any_named("things").search(spoken)
    is_of_one = names_an_animal(spoken[: thing.start()] if thing else spoken)

    def told(name: str) -> bool:
        return is_of_one and said_as("asked_instead", name).search(spoken) is not None

    if asks(text) and told("of_health"):
        return True
    wonders = asks(text) or is_unsure(spoken.strip().partition(" if ")[0])
    other = thing or said_as("asked_instead", "of_other_life").search(spoken)
    return told("of_worry") or (wonders and not other and heard_in(text).wonders)


def asks_of_more(interview: Interview, place: Place, why: str) -> bool:
    """Whether the words behind “why” ask of something else than the question that stands."""
    spoken, question = plain_words(why).split(), interview.question(place)
    if not known_words("asked_instead", "of_the_question").isdisjoint(spoken):
        return False
    own = {*plain_words(question.label).split(), *known_words("asked_instead", "asked_with")}
    return not own.issuperset(spoken)


def reply_to(interview: Interview, place: Place, line: str) -> str:
    """What a word means, else what the question that stands is after, in its own words."""
    spoken, question = plain_words(line), interview.question(place)
    later = "puts it off: I need it in the end" if question.required else "leaves it open"
    if is_said(spoken, "asked_instead", "must"):
        return f"No: “not sure” goes on without it, and “skip” {later}. {question.hint}"
    if is_said(spoken, "asked_instead", "worth"):
        return f"{question.help} “not sure” goes on without it, and “skip” {later}."
    if which := _which_turtle(interview, place, line):
        return which
    if said_as("asked_instead", "how").search(f" {spoken} "):
        return f"{interview.question(place).hint} “not sure” goes on without it."
    name = _asked_meaning_of(line)
    if is_said(name, "asked_instead", "itself") or wonders(line):
        return f"{question.help} {question.hint}"
    said = next((f"{meaning} " for meaning, _ in _meanings(name)), "")
    if not said and (named := matches(interview, name, ahead=True) if name else []):
        question = interview.question(named[0])
        said = f"{question.short}: {question.label} "
    elif not said and not name:
        said = f"{_NOT_HERE} "
    return f"{said}Here I ask: {interview.question(place).label} {interview.question(place).hint}"


def meaning_in(line: str) -> str:
    """What a word means, where a line asks that and nothing else; "" where it tells or asks more.

    “What is wrong with the basking, he gasps?” asks nothing of a word.
    """
    meanings = _meanings(_asked_meaning_of(line))
    little = known_words("asked_instead", "beside_meaning")
    return next((meaning for meaning, rest in meanings if little.issuperset(rest.split())), "")


def meaning_at(interview: Interview, place: Place | None, line: str) -> str:
    """What a word means; where no question stands, also what an answer is: an intake guard."""
    return meaning_in(line) or ("" if place else _meaning_of_answer(interview, line))


def _meaning_of_answer(interview: Interview, line: str) -> str:
    """What the one question is after that a line asks the meaning of."""
    name = _asked_meaning_of(line)
    of_one = {"a", "an", "mean", "meant"}.intersection(plain_words(line).split())
    found = matches(interview, name, ahead=True) if name and of_one else []
    if len(found) != 1:
        return ""
    question = interview.question(found[0])
    return f"{question.short}: {question.help} {question.hint.partition(' Type ')[0]}"


def _meanings(name: str) -> Iterator[tuple[str, str]]:
    """What each word of our glossary in a name means, and the name without it."""
    for word, meaning in words().glossary.items():
        if f" {word} " in f" {name} ":
            yield meaning, f" {name} ".replace(f" {word} ", " ")


def _asked_meaning_of(line: str) -> str:
    """What a line asks the meaning of; "" where it asks something else."""
    spoken = plain_words(line)
    meant = said_as("asked_instead", "meaning").match(f" {spoken} ", 1)
    return spoken[meant.end() - 1 :].strip() if meant else ""


def _which_turtle(interview: Interview, place: Place, line: str) -> str:
    """Which turtle a question is about, where that is what a line asks; "" where it isn't."""
    asked = says(line, "which_turtle")
    if not asked or place.animal is None:
        return ""
    many = interview.animal_count
    turtle = meant_by(interview, line, place.animal) if turtles_in(line) else place.animal
    if turtle is None:
        return f"I count {many} turtle{'' if many == 1 else 's'}."
    kind = interview.answers.get(Place("species", turtle))
    if kind is None or kind.value is None:
        return _YOURS
    looks = [kind.said]
    for name in ("carapace_length", "sex"):
        if (answer := interview.answers.get(Place(name, turtle))) and answer.value is not None:
            looks.append(answer.said)
    return f"Turtle {turtle + 1} is the one you told as {', '.join(looks)}."


def supposes(line: str) -> bool:
    """Whether it is asked what may be done, or what would come of it, and not what is."""
    clauses = (f" {plain_words(clause)} " for clause in _CLAUSE_ENDS.split(line))
    return any(said_as("asked_instead", "supposes").match(clause, 1) for clause in clauses)


def says_mended(line: str) -> bool:
    """Whether a line says that an earlier answer was a mistake."""
    return not known_words("asked_instead", "mends").isdisjoint(plain_words(line).split())


def says_much_changed(line: str) -> bool:
    """Whether a line says that something changed, and not what."""
    return word_of(line) in YES or says(line, "much_changed")


def steps_back(line: str) -> int:
    """How many questions a line wants to go back; 0 where it wants something else."""
    spoken = plain_words(line).split()
    left = [word for word in spoken if word not in known_words("asked_instead", "back_words")]
    if "back" not in spoken or len(left) > _MOST_LEFT:
        return 0
    number = read_number(tokenise(" ".join(left))) if left else None
    if number is None or number.end != len(left) or number.value != int(number.value):
        return 0 if left else 1
    return int(number.value) if 1 <= number.value <= _MOST_BACK else 0
