"""A story instead of an answer: what it says for sure becomes answers, once confirmed."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Container, Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple, TypeAlias
from weakref import WeakKeyDictionary

from interview.chat.hearing.in_context import below_rim
from interview.chat.hearing.told.guessed import guesses
from interview.chat.hearing.told.labelled import labelled_in
from interview.chat.hearing.told.second_hearing import BELIEVED, chances_of, second_hearing
from interview.chat.hearing.told.story_lines import is_warmth
from interview.chat.hearing.told.taken import Story
from interview.chat.hearing.told.turtles_heard import is_of_turtles, turtles
from interview.graph.answers import understand
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.amounts.reading import Reading
from interview.words.intents.story import Extracted, extract_facts
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

__all__ = ["LEAST_WORDS_OF_FACT", "LEAST_WORDS_OF_STORY", "keep", "read_story"]

_SCALE = re.compile(r"\d\s*(?:°|deg(?:ree)?s?)?\s*[cf]\b|celsius|fahrenheit|centigrade", re.I)
_CALLED = ("she", "he")
_LEAST_WORDS_OF_GUESS, LEAST_WORDS_OF_STORY = 8, 25
"""Of less nothing is guessed, and nothing is doubted of what phrases took: no more tells of it."""
_SURE = 0.9
"""Chance under which what phrases took is shown as a guess (assumption)."""
LEAST_WORDS_OF_FACT = 4
"""Of a line that tells one thing beside what is asked, or mends it; of less it is an answer."""
_LEAST_OTHER_WORDS = 4
"""“not sure” over and over is no story (assumption)."""
_WATER_LINE = "water_line_below_rim"


_Known: TypeAlias = tuple[tuple[Place, str], ...]
_last: WeakKeyDictionary[Interview, tuple[_Known, dict[str, Story]]] = WeakKeyDictionary()
"""What an interview was told since its answers were these."""
_MOST_KEPT = 8
"""Stories: a line, and parts of it."""


def read_story(interview: Interview, text: str) -> Story:
    """Take what is sure from a few sentences; nothing is recorded yet.

    At a prompt a line is asked for an answer, for a story and for a single fact: it is read once.
    """
    known = tuple((place, answer.said) for place, answer in interview.answers.items())
    if _last.get(interview) is None or _last[interview][0] != known:
        _last[interview] = known, {}
    read = _last[interview][1]
    if text not in read:
        if len(read) >= _MOST_KEPT:
            read.clear()
        read[text] = _read(interview, text)
    return read[text]


def _read(interview: Interview, text: str) -> Story:
    order = _order(interview)
    taken = _by_phrases(interview, text)
    heard: dict[Place, str] = {}
    words = text.split()
    if len(words) >= _LEAST_WORDS_OF_GUESS and len({*words}) >= _LEAST_OTHER_WORDS:
        taken, heard = _as_a_whole(interview, text, taken)
    answers = sorted(taken.answers, key=lambda row: (order[row[0].id], row[0].animal or 0))
    is_told = taken.is_placed or Place("region") in interview.answers or _SCALE.search(text)
    thought = {Place(fact.id, fact.animal) for fact in taken.told.facts if fact.is_guess}
    guessed = [
        place
        for place, said in answers
        if said in _CALLED or place in thought or (not is_told and is_warmth(interview, place))
    ]
    shown = tuple(answers), taken.unused, taken.region, frozenset(guessed), taken.told.strange
    return Story(*shown, heard)


def _order(interview: Interview) -> dict[str, int]:
    """When each question is asked."""
    return {name: at for at, name in enumerate(interview.questionnaire.by_id)}


class _Taken(NamedTuple):
    """What phrases took."""

    told: Extracted
    answers: Sequence[tuple[Place, str]]
    unused: tuple[str, ...]
    region: str
    is_placed: bool
    """Whether the story itself tells the region."""


def _by_phrases(interview: Interview, text: str) -> _Taken:
    order, by_id = _order(interview), interview.questionnaire.by_id
    lists = interview.lists
    told, region, is_placed = _extracted(interview, text)
    answers: list[tuple[Place, str]] = []
    unused, left = list(told.unused), set[Place]()
    for fact in sorted(told.facts, key=lambda f: (order[f.id], f.animal or 0)):
        said = fact.said
        if fact.id == _WATER_LINE and _is_of_depth(said):
            said = below_rim(interview, said, _height(interview, told, region))
        try:
            understand(by_id[fact.id], said, lists, region)
        except NotUnderstood:
            left.add(Place(fact.id, fact.animal))
        else:
            answers.append((Place(fact.id, fact.animal), said))
    told, quotes = _without(told, left)  # a depth of which no rim is known yet may be guessed
    unused += quotes
    known = {place.id for place, _ in answers} | {fact.id for fact in told.facts}
    naming, labelled = _naming(interview, known), Counter[str]()
    for name, said in labelled_in(interview, text, region):
        if name not in known and not by_id[name].repeat:
            answers.append((Place(name), said))
            naming |= _naming(interview, [name])
            labelled.update(plain_words(said).split())
    left_over = (
        phrase
        for phrase in unused
        if not _served(phrase, naming, labelled) or _is_denied(phrase, text)
    )
    return _Taken(told, answers, tuple(left_over), region, is_placed)


def _extracted(interview: Interview, text: str) -> tuple[Extracted, str, bool]:
    """What phrases find, the region, and whether it is told here: then all is read by it."""
    lists, region = interview.lists, interview.region

    def read() -> Extracted:
        species, sizes = lists.options["species"], lists.sizes["tank_size"]
        planned = interview.known().get("stage") == "planning"
        return extract_facts(text, region=region, species=species, sizes=sizes, planned=planned)

    told = read()
    here = next((fact.said for fact in told.facts if fact.id == "region"), "")
    if here:
        region = str(understand(interview.questionnaire.by_id["region"], here, lists, "").value)
        told = read()
    return told, region, bool(here)


def _as_a_whole(interview: Interview, text: str, taken: _Taken) -> tuple[_Taken, dict[Place, str]]:
    """What stays of that where the whole is heard, with guesses; and the words of each guess."""
    told, answers, region = taken.told, taken.answers, taken.region
    hearing = second_hearing(interview, text, region)
    whole = len(text.split()) >= LEAST_WORDS_OF_STORY
    sure = [row for row in answers if whole and row[1] not in _CALLED]  # “she” is a guess
    found = turtles(interview, hearing.heard, answers, region)
    found = found if whole else found._replace(believed=True)
    chances = chances_of(interview, hearing, sure, found, region)
    doubts = {place for place, chance in chances.items() if chance < BELIEVED}
    if not found.believed:
        doubts |= {place for place, _ in answers if is_of_turtles(place)}
    answers = [row for row in answers if row[0] not in doubts]
    told, quotes = _without(told, doubts)
    unused = [*taken.unused, *quotes]
    heard = {
        place: " ".join(fact.quote.split())
        for fact in told.facts
        if chances.get(place := Place(fact.id, fact.animal), 1.0) < _SURE
    }
    for guess in guesses(interview, told, answers, hearing, found, doubts, whole=whole):
        answers.append((guess.place, guess.said))
        words = text[guess.clause.start : guess.clause.stop].split()
        heard[guess.place] = clause = " ".join(words).strip(" ,")
        word = text[guess.start : guess.stop]
        unused = [
            one for one in unused if word not in one or (one not in clause and clause not in one)
        ]
    return taken._replace(told=told, answers=answers, unused=tuple(unused)), heard


def _without(told: Extracted, doubts: Container[Place]) -> tuple[Extracted, list[str]]:
    """What phrases took without what is doubted, and the words of that."""
    rows = [(Place(fact.id, fact.animal) in doubts, fact) for fact in told.facts]
    found = (one for one, (off, _) in zip(told.found, rows, strict=True) if not off)
    facts = tuple(fact for off, fact in rows if not off)
    quotes = dict.fromkeys(fact.quote.strip(" ,;") for off, fact in rows if off)
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
