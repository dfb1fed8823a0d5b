"""A story instead of an answer: what it says for sure becomes answers, once confirmed."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Container, Iterable
from dataclasses import replace
from typing import TypeAlias
from weakref import WeakKeyDictionary

from interview.chat.hearing.in_context import below_rim
from interview.chat.hearing.told.guessed import guesses
from interview.chat.hearing.told.labelled import labelled_in
from interview.chat.hearing.told.second_hearing import doubted, second_hearing
from interview.chat.hearing.told.taken import Story, labels_of_several
from interview.chat.hearing.told.turtles_heard import is_of_turtles, turtles
from interview.graph.answers import understand
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.staleness import same
from interview.words.amounts.reading import Reading
from interview.words.intents.story import Extracted, extract_facts
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

__all__ = [
    *("LEAST_WORDS_OF_STORY", "keep", "label_of"),
    *("lines_of", "not_used", "read_story"),
]

_SCALE = re.compile(r"\d\s*(?:°|deg(?:ree)?s?)?\s*[cf]\b|celsius|fahrenheit|centigrade", re.I)
_CALLED = ("she", "he")
_LEAST_WORDS_OF_GUESS, LEAST_WORDS_OF_STORY = 8, 25
"""Of less nothing is guessed, and nothing is doubted of what phrases took: no more tells of it."""
_LEAST_OTHER_WORDS = 4
"""“not sure” over and over is no story (assumption)."""
_WATER_LINE = "water_line_below_rim"


_Known: TypeAlias = tuple[str, tuple[tuple[Place, str], ...]]
_last: WeakKeyDictionary[Interview, tuple[_Known, Story]] = WeakKeyDictionary()
"""What an interview was told last, with its answers then."""


def read_story(interview: Interview, text: str) -> Story:
    """Take what is sure from a few sentences; nothing is recorded yet.

    At a prompt a line is asked for an answer, for a story and for a single fact: it is read once.
    """
    known = text, tuple((place, answer.said) for place, answer in interview.answers.items())
    if _last.get(interview) is None or _last[interview][0] != known:
        _last[interview] = known, _read(interview, text)
    return _last[interview][1]


def _read(interview: Interview, text: str) -> Story:
    lists, region = interview.lists, interview.region
    order = list(interview.questionnaire.by_id)

    def read() -> Extracted:
        species, sizes = lists.options["species"], lists.sizes["tank_size"]
        planned = interview.known().get("stage") == "planning"
        return extract_facts(text, region=region, species=species, sizes=sizes, planned=planned)

    told = read()
    here = next((fact.said for fact in told.facts if fact.id == "region"), "")
    if here:
        region = str(understand(interview.questionnaire.by_id["region"], here, lists, "").value)
        told = read()
    answers: list[tuple[Place, str]] = []
    unused, left = list(told.unused), set[Place]()
    for fact in sorted(told.facts, key=lambda f: (order.index(f.id), f.animal or 0)):
        said = fact.said
        if fact.id == _WATER_LINE and _is_of_depth(said):
            said = below_rim(interview, said, _height(interview, told, region))
        try:
            understand(interview.questionnaire.by_id[fact.id], said, lists, region)
        except NotUnderstood:
            left.add(Place(fact.id, fact.animal))
        else:
            answers.append((Place(fact.id, fact.animal), said))
    told, quotes = _without(told, left)  # a depth of which no rim is known yet may be guessed
    unused += quotes
    known = {place.id for place, _ in answers} | {fact.id for fact in told.facts}
    naming, labelled = _naming(interview, known), Counter[str]()
    for name, said in labelled_in(interview, text, region):
        if name not in known and not interview.questionnaire.by_id[name].repeat:
            answers.append((Place(name), said))
            naming |= _naming(interview, [name])
            labelled.update(plain_words(said).split())
    unused = [
        phrase
        for phrase in unused
        if not _served(phrase, naming, labelled) or _is_denied(phrase, text)
    ]
    heard: dict[Place, str] = {}
    words_told = len(words := text.split())
    various = len({*words}) >= _LEAST_OTHER_WORDS
    if various and words_told >= _LEAST_WORDS_OF_GUESS:
        hearing = second_hearing(interview, text, region)
        whole = words_told >= LEAST_WORDS_OF_STORY
        sure = [row for row in answers if whole and row[1] not in _CALLED]  # “she” is a guess
        found = turtles(interview, hearing.heard, answers, region)
        found = found if whole else found._replace(believed=True)
        doubts = doubted(interview, hearing, sure, found, region)
        if not found.believed:
            doubts |= {place for place, _ in answers if is_of_turtles(place)}
        answers = [row for row in answers if row[0] not in doubts]
        told, quotes = _without(told, doubts)
        unused += quotes
        for guess in guesses(interview, told, answers, hearing, found, doubts, whole=whole):
            answers.append((guess.place, guess.said))
            words = text[guess.clause.start : guess.clause.stop].split()
            heard[guess.place] = clause = " ".join(words).strip(" ,")
            word = text[guess.start : guess.stop]
            unused = [
                one
                for one in unused
                if word not in one or (one not in clause and clause not in one)
            ]
    answers.sort(key=lambda row: (order.index(row[0].id), row[0].animal or 0))
    is_told = here or Place("region") in interview.answers or _SCALE.search(text)
    thought = {Place(fact.id, fact.animal) for fact in told.facts if fact.is_guess}
    guessed = [
        place
        for place, said in answers
        if said in _CALLED or place in thought or (not is_told and _is_warmth(interview, place))
    ]
    shown = tuple(answers), tuple(unused), region, frozenset(guessed), told.strange
    return Story(*shown, heard)


def _without(told: Extracted, doubts: Container[Place]) -> tuple[Extracted, list[str]]:
    """What phrases took without what is doubted, and the words of that."""
    rows = [(Place(fact.id, fact.animal) in doubts, fact) for fact in told.facts]
    found = (one for one, (off, _) in zip(told.found, rows, strict=True) if not off)
    facts = tuple(fact for off, fact in rows if not off)
    quotes = dict.fromkeys(fact.quote for off, fact in rows if off)
    return replace(told, facts=facts, found=tuple(found)), [*quotes]


def _naming(interview: Interview, told: Iterable[str]) -> set[str]:
    """The words that name questions: left over beside their answers they tell nothing more."""
    found: set[str] = set()
    for question in map(interview.questionnaire.by_id.__getitem__, told):
        around = question.around
        for name in (question.short, *question.trade_names, *around.sides, *around.nouns):
            found.update(plain_words(name).split())
    return found


def _served(phrase: str, naming: Container[str], labelled: Counter[str]) -> bool:
    """Whether a phrase tells no more than the answers; a labelled answer serves one phrase."""
    telling = Counter(word for word in plain_words(phrase).split() if word not in naming)
    if not telling <= labelled:
        return False
    labelled -= telling
    return True


def _is_denied(phrase: str, text: str) -> bool:
    denied = rf"\b(?:no|not|without)\s+{re.escape(phrase)}"
    return re.search(denied, text, re.IGNORECASE) is not None


def _is_warmth(interview: Interview, place: Place) -> bool:
    return interview.questionnaire.by_id[place.id].type == "temperature"


def not_used(story: Story, least: int = 1) -> str:
    """The sentence that gives back the phrases nothing was taken from; "" where there are none.

    Args:
        story: what was taken
        least: words of a phrase that is worth it
    """
    told = (phrase for phrase in story.unused if len(phrase.split()) >= least)
    phrases = "; ".join(f"“{phrase}”" for phrase in told)
    strange = " or ".join(f"“{kind}”" for kind in dict.fromkeys(story.strange))
    no_facts = f"I have no facts about {strange}, so I'll ask the kind. " if strange else ""
    return f"{no_facts}{phrases and f'Not used: {phrases}.'}".rstrip()


def _is_of_depth(said: str) -> bool:
    return said.endswith(" deep")


def _height(interview: Interview, told: Extracted, region: str) -> float:
    """Height of the tank a story tells of [m], else of the one known, else 0."""
    question = interview.questionnaire.giver["tank_height"]
    said = next((fact.said for fact in told.facts if fact.id == question.id), "")
    try:
        sides = understand(question, said, interview.lists, region).value if said else None
    except NotUnderstood:
        sides = None
    height = sides[-1] if isinstance(sides, tuple) else None
    known = float(interview.known().get("tank_height", 0.0))
    return height.best if isinstance(height, Reading) else known


def lines_of(interview: Interview, story: Story) -> list[tuple[str, str]]:
    """A name and what was taken, for every answer of a story."""
    return [
        (
            label_of(interview, story, place),
            _taken(interview, story, place, said) + _in_place_of(interview, story, place, said),
        )
        for place, said in story.answers
    ]


def _in_place_of(interview: Interview, story: Story, place: Place, said: str) -> str:
    """What stands there and would be replaced."""
    held = interview.answers.get(place)
    if held is None:
        return ""
    value = understand(interview.question(place), said, interview.lists, story.region).value
    return "" if same(held.value, value) else f", in place of {held.said}"


def label_of(interview: Interview, story: Story, place: Place) -> str:
    """The name of a line, with the turtle's number where there are several."""
    several = interview.animal_count > 1 or any(p.animal for p, _ in story.answers)
    turtle = f"Turtle {place.animal + 1}: " if several and place.animal is not None else ""
    return turtle + interview.question(place).short


def _taken(interview: Interview, story: Story, place: Place, said: str) -> str:
    """The words, and what a choice among them was read as; of a guess what it is from."""
    if place in story.guessed and _is_warmth(interview, place) and place not in story.heard:
        return f"{said} (the scale is my guess)"
    question = interview.question(place)
    value = understand(question, said, interview.lists, story.region).value
    chosen = next((o for o in interview.lists.options_of(question) if o.name == value), None)
    if place in story.heard:
        is_quoted = isinstance(value, Reading) and said in story.heard[place]
        clause = "" if is_quoted else f", from “{story.heard[place]}”"
        return f"{chosen.label if chosen else said} (my guess{clause})"
    if isinstance(value, tuple) and ", ".join(map(str, value)).replace("_", " ") == said:
        return labels_of_several(interview, place, value) or said  # names alone may tell too little
    guess = " (my guess)" if place in story.guessed else ""
    if chosen is None or plain_words(chosen.label) == plain_words(said):
        return f"{said}{guess}"
    return f"{said} → {chosen.label}{guess}"


def keep(interview: Interview, story: Story) -> list[str]:
    """Record a story's answers; returns a sentence for each that can't be."""
    refused = []
    for place, said in story.answers:
        if (place.animal or 0) >= max(1, interview.animal_count):
            continue  # the number of turtles was mended since
        try:
            interview.record(place, said)
        except (NotUnderstood, AnswerRefused) as problem:
            refused.append(str(problem))
    return refused
