"""A story told in the keeper's own words, read as answers: only what is sure.

Deterministic: the text is cut into words and amounts, and phrases listed in
`phrases.yaml` are looked for. What is denied, wished for, asked, doubted, told of others
or told twice differently is left alone, and everything left alone is handed back.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field, replace

from interview.words.amounts.spellings import Unit
from interview.words.choices.choice import Choice
from interview.words.forms.size import Sizes
from interview.words.intents.agreeing import (
    agreed,
    is_of_turtles,
    measured,
    not_taken_back,
    undisputed,
)
from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import things_of
from interview.words.mentions.attributes import OF_A_TURTLE, Found, facts_in
from interview.words.mentions.nearby.nearest import amounts_near, nearest_in
from interview.words.mentions.nearby.topics import topics_in
from interview.words.mentions.parts import Part, read_parts
from interview.words.mentions.room import room_ends
from interview.words.mentions.scope.cutting import sentences
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.shared_scale import with_shared_scale
from interview.words.mentions.tank_size import with_shared_unit, with_trade_names
from interview.words.mentions.turtles.kinds import strange_in, with_kinds
from interview.words.mentions.turtles.told import animals_in
from interview.words.text.dictation import with_marks
from interview.words.text.spelling import mended

__all__ = ["LONGEST", "Extracted", "Fact", "extract_facts", "is_filler"]

_NAMED = 4
"""Words in front of a turtle that say whose it is: our old spotted turtle."""
_THOUGHT_OF = ("tank_size", "stand")
_OF_THE_WHOLE = ("animal_count", "species", "stage")
_LISTED = ("and", ",")
LONGEST = 5000
"""Characters that are read; what comes after them is handed back unused."""


@dataclass(frozen=True)
class Fact:
    """One answer: the question, the turtle if it is about one, the words to hand on."""

    id: str
    animal: int | None
    said: str
    """What would be typed at the question."""
    quote: str
    """The part of the story it was taken from."""
    is_guess: bool = False
    """Whether the keeper only thinks so."""


@dataclass(frozen=True)
class Extracted:
    """What a story says for sure, and the phrases nothing was taken from."""

    facts: tuple[Fact, ...]
    unused: tuple[str, ...]
    strange: tuple[str, ...]
    """Kinds of turtle that are named and not known here."""
    told: tuple[Sentence, ...] = field(repr=False)
    found: tuple[Found, ...] = field(repr=False)
    """The facts, with the words they were taken from."""


def is_filler(word: str) -> bool:
    """Whether a word says nothing by itself and may go unmentioned."""
    return mended(word.casefold().replace("'", "").replace("’", "")) in known_words("fillers")


def extract_facts(
    text: str, *, region: str, species: Sequence[Choice], sizes: Sizes, planned: bool = False
) -> Extracted:
    """Read a story; `planned` where the tank is known to be planned still."""
    read, rest = with_marks(text[:LONGEST]), text[LONGEST:]
    parts = with_trade_names(with_shared_unit(with_shared_scale(read_parts(read))), sizes)
    told = sentences(read, parts)
    if region in ("", "elsewhere"):
        region = _spoken_in({part.unit for part in parts}) or region
    facts, marked = _facts(told, planned, sizes, region), with_kinds(told, species)
    if not planned and _is_planned(told, facts):
        planned, facts = True, _facts(told, True, sizes, region)
    found = [*facts, *animals_in(told, species, "plans_of_animals" if planned else "")]
    near = list(_nearest(marked, planned, found, sizes, region))
    known = {one.id for one in (*found, *near)}
    found = undisputed(found, near)
    plans = "plans" if planned else ""
    ends = (one for sentence in told for one in room_ends(sentence, sentence.wished(plans)))
    found += [one for one in ends if one.id not in known]
    found = agreed(measured(not_taken_back(told, found), sizes, region))
    found += _lived_in(told, planned, found)
    found += _thought_of(told, found, region, sizes) if planned else []
    said = tuple(
        Fact(one.id, one.animal, one.said, text[one.start : one.stop], one.is_guess)
        for one in found
    )
    unused = [*_unused(text, told, found), *([rest.strip()] if rest.strip() else [])]
    strange = {
        one.start: text[one.start : one.end]
        for one in strange_in(marked, species)
        if not _is_how_it_looks(one.said)
    }
    asked = any(fact.animal is not None or fact.id == "animal_count" for fact in said)
    unknown = tuple(strange.values()) if asked else ()
    return Extracted(said, tuple(unused), unknown, tuple(told), tuple(found))


def _is_how_it_looks(kind: str) -> bool:
    """Whether it names no kind, but a colour, a size or where it is from: a yellow turtle."""
    first, *rest = kind.split()
    return first in known_words("animals", "looks") and known_words("animals", "any").issuperset(
        rest
    )


def _spoken_in(units: Collection[Unit | None]) -> str:
    """The region by whose units a story is told where none is known: inches and °F alone."""
    imperial = not {"inch", "foot", "degF"}.isdisjoint(units)
    return "north_america" if imperial and {"cm", "m", "degC"}.isdisjoint(units) else ""


def _lived_in(told: Sequence[Sentence], planned: bool, found: Sequence[Found]) -> list[Found]:
    """A turtle that is told of lives in the tank, unless it is still to come."""
    known = {one.id for one in found}
    turtle = next(filter(is_of_turtles, found), None) or next(_turtles(told), None)
    named = {one.sentence.parts[0].start for one in found if is_of_turtles(one)}
    comes = any(
        s.speaks("arrivals", but="not_arriving")
        and (s.parts[0].start in named or any(_turtles([s])))
        for s in told
    )
    if planned or comes or turtle is None or "stage" in known or len(known) < 2:
        return []
    return [replace(turtle, id="stage", said="living", animal=None)]


def _thought_of(
    told: Sequence[Sentence], found: Sequence[Found], region: str, sizes: Sizes
) -> list[Found]:
    """What a planned tank may be like and stand on: thinking of a 40 breeder on my dresser."""
    known, none = {one.id for one in found}, frozenset[int]()
    thought: dict[str, Found] = {}
    for sentence in told:
        off = sentence.wished("plans_of_animals")
        near = nearest_in(sentence, off, none, sizes, region)
        for one in (*facts_in(sentence, off, sizes, region), *near):
            if one.id in _THOUGHT_OF and one.id not in known:
                thought.setdefault(one.id, replace(one, is_guess=True))
    return list(thought.values())


def _turtles(told: Sequence[Sentence]) -> Iterator[Found]:
    """Where turtles are named that somebody has: not wished for, denied, nor in another's name."""
    for sentence in told:
        off = sentence.wished()
        for at, word in enumerate(sentence.words):
            named = word in known_words("animals", "any") | known_words("animals", "kin")
            if not named or at in off or sentence.is_denied(at, at + 1):
                continue
            before = {*sentence.words[max(0, at - _NAMED) : at]}
            owned = known_words("animals", "one") | {"<number>"}
            is_named = at < _NAMED or not owned.isdisjoint(before)
            if is_named and sentence.word(at + 1) not in known_words("animals", "not_one"):
                yield Found(sentence, "stage", "living", at, at + 1)


def _facts(told: Sequence[Sentence], planned: bool, sizes: Sizes, region: str) -> list[Found]:
    """What phrases tell; of a tank that is planned plans are no mere wishes."""
    plans = "plans" if planned else ""
    return [one for s in told for one in facts_in(s, s.wished(plans), sizes, region)]


def _is_planned(told: Sequence[Sentence], facts: Sequence[Found]) -> bool:
    """Whether the tank is still planned."""
    said = {fact.said for fact in facts if fact.id == "stage"}
    return said == {"planning"} and any(sentence.wished() for sentence in told)


def _nearest(
    told: Sequence[Sentence], planned: bool, found: Sequence[Found], sizes: Sizes, region: str
) -> Iterator[Found]:
    """Of what no phrase told, what the nearest topic tells; of a turtle if there is only one.

    And each amount that a phrase told in another sentence, perhaps as another.
    """
    known = {one.id: one.sentence.parts for one in found}
    animals = {one.animal for one in found if one.animal is not None}
    count = next((one.said for one in found if one.id == "animal_count"), "")
    alone = animals == {0} or (not animals and count == "1")
    for sentence in told:
        taken = frozenset(
            at
            for at, part in enumerate(sentence.parts)
            if part.said and any(_took(one, part) for one in found)
        )
        off = sentence.wished("plans" if planned else "")
        for one in nearest_in(sentence, off, taken, sizes, region):
            if one.id in OF_A_TURTLE:
                one = replace(one, animal=0)
            there = known.get(one.id)
            is_other = there is None or (one.id in amounts_near() and one.start not in _span(there))
            if is_other and (one.animal is None or alone):
                yield one


def _span(parts: Sequence[Part]) -> range:
    """Where in the text a sentence stands."""
    return range(parts[0].start, parts[-1].end)


def _took(found: Found, part: Part) -> bool:
    """Whether a fact was made of an amount."""
    return found.start <= part.start < found.stop and part.said in found.said


def _unused(text: str, told: Sequence[Sentence], found: Sequence[Found]) -> Iterator[str]:
    """Runs of words that no fact was taken from, without the fillers at their ends."""
    covered = {at for one in found for at in range(one.start, one.stop)}
    covered.difference_update(_walked_over(told, found))
    for sentence in told:
        named = _named(sentence, found)
        run: list[Part] = []
        for part in sentence.parts:
            if part.start in covered or text[part.start : part.end] == ",":
                yield from _phrase(text, run, named)
                run = []
            else:
                run.append(part)
        yield from _phrase(text, run, named)


def _walked_over(told: Sequence[Sentence], found: Sequence[Found]) -> Iterator[int]:
    """Where amounts stand between turtles and the end of what is told of them, and nobody took.

    How many there are, and of which kind, is taken from the whole of it, but never from those.
    """
    whole = [one for one in found if one.id in _OF_THE_WHOLE]
    own = {at for one in found if one not in whole for at in range(one.start, one.stop)}
    within = {at for one in whole for at in range(one.start, one.stop)} - own
    for sentence in told:
        follows = False
        for part in reversed(sentence.parts):
            is_over = bool(part.said) and (part.kind != "number" or follows)
            is_over = is_over and part.start in within
            if is_over:
                yield from range(part.start, part.end)
            follows = is_over or (follows and part.text in _LISTED)


def _named(sentence: Sentence, found: Sequence[Found]) -> frozenset[int]:
    """Where it says plainly what facts of it are about: "filter", when its kind was taken.

    Other words for it may tell more, as "T8" does of a UVB lamp.
    """
    parts, words = sentence.parts, sentence.words
    here = range(parts[0].start, parts[-1].end)
    about = {thing for one in found if one.start in here for thing in things_of(one.id)}
    return frozenset(
        parts[at].start
        for topic in topics_in(sentence)
        for at in range(topic.first, topic.end)
        if topic.name in about and words[at] in topic.name.split("_")
    )


def _phrase(text: str, run: Sequence[Part], named: frozenset[int]) -> Iterator[str]:
    def says(part: Part) -> bool:
        return part.kind != "mark" and not is_filler(part.text)

    telling = [at for at, part in enumerate(run) if says(part)]
    if any(run[at].start not in named for at in telling):
        yield text[run[telling[0]].start : run[telling[-1]].end]
