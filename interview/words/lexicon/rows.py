"""What the word files may hold; `questions --check` reads them by these rows.

A list or table that is added to a file gets its line here.
"""

from __future__ import annotations

import math
from typing import Annotated, ClassVar

from interview.base.rows import Names, Row
from interview.base.units import CORE_UNITS

__all__ = [
    *("Absent", "ChangeFile", "Dimension", "Fact", "PeopleFile", "PhraseFile", "Rate"),
    *("SaidFile", "SpanFile", "UnitFile", "WordFile"),
]

_Words = tuple[str, ...]
_Groups = dict[str, _Words]


class Dimension(Row, frozen=True, kw_only=True):
    """One kind of quantity, as far as words about it go."""

    EXAMPLE: ClassVar[str] = "{noun: a length, example: 45 cm, usual: [0.0002, 10]}"

    noun: str
    """With its article: "a length"."""
    example: str
    usual: tuple[float, float]
    """What a keeper can mean, in the core's unit: decides only what a mark in 1,000 is."""
    example_us: str = ""
    bare: tuple[float, float] | None = None
    """Numbers that need no unit here, because only one reading makes sense."""
    hedge: float = 0.10
    """Half the width of "about", as a share of the value."""
    hedge_fixed: float = 0.0
    """The same in the core's unit, where the zero of the scale means nothing."""
    signed: bool = False
    none_is_zero: bool = False
    """The words "none" and "nothing" mean 0."""

    @property
    def name(self) -> str:
        """What it is called."""
        return self.key

    @property
    def core_unit(self) -> str:
        """The unit of its readings."""
        return CORE_UNITS[self.key]


class Rate(Row, frozen=True, kw_only=True):
    """A unit made of one per another: `tops`, or units `of` a dimension, per some of another."""

    per: str
    each: _Words
    of: str = ""
    units: _Words = ()
    tops: _Groups | None = None


class UnitFile(Row, frozen=True, kw_only=True):
    """Units and their spellings."""

    spelled: dict[str, _Groups]
    """By dimension; the scales of a temperature and what says degrees stand apart."""
    degrees: _Words
    priced: _Words
    rates: dict[str, Rate]
    labels: dict[str, str]
    systems: _Groups
    smaller: dict[str, str]
    dimensions: dict[str, Dimension]
    offered: dict[str, tuple[_Words, ...]]
    said_in: dict[str, _Words]
    common: _Words
    in_fractions: _Words
    also_in_fractions: _Words


class _Numbers(Row, frozen=True, kw_only=True):
    ones: dict[str, int]
    decades: dict[str, int]
    tens: dict[str, int]
    scales: dict[str, int]
    parts: dict[str, int]


class _Rhythm(Row, frozen=True, kw_only=True):
    adverbs: dict[str, str]
    counts: dict[str, int]
    ordinals: dict[str, int]
    times: _Words
    times_of_the_day: _Words
    days_of_the_week: _Words


class _RhythmTold(Row, frozen=True, kw_only=True):
    short_days: _Words
    same: dict[str, str]
    dropped: _Words


class _Names(Row, frozen=True, kw_only=True):
    small: _Words
    filler: _Words
    up_or_down: _Words
    moved: _Words
    apart: _Words
    not_moved: _Words
    same: dict[str, str]


class _Rhythms(Row, frozen=True, kw_only=True):
    numbers: dict[str, float]
    often: dict[str, int]
    ordinals: dict[str, int]
    periods: _Groups
    """Patterns, by how many days they are."""
    adverbs: dict[str, float]
    every: _Words
    times: _Words
    in_every: _Words
    apart: _Words
    weekends: _Words
    """Patterns of what is two days together."""
    a_week: _Groups
    """Patterns, by how many times a week they are."""


class SpanFile(Row, frozen=True, kw_only=True):
    """Words by which amounts are told where the grammar of answers doesn't look for them."""

    translated: dict[str, str]
    also_units: _Groups
    heavy: dict[str, float]
    """kg."""
    whole: _Words
    counts: _Groups
    stood_for: _Words
    ranges: _Groups
    cents: _Words
    money: _Words
    side_labels: _Groups
    between_sides: _Groups
    edges: _Words
    squares: _Words
    usual: dict[str, tuple[float, float]]
    """m, by question."""
    fine: _Words
    amounts_in_words: dict[str, _Groups]
    """Patterns, by question and by what they say there."""
    fixings: _Words
    rhythms: _Rhythms


class WordFile(Row, frozen=True, kw_only=True):
    """The words that are known, whatever is asked."""

    groups: dict[str, str]
    numbers: _Numbers
    hedges_before: _Groups
    hedges_after: _Groups
    instruments: dict[str, _Words]
    read_with: _Groups
    values: _Groups
    labels: _Groups
    parts_of_ten: dict[str, tuple[int, int]]
    told: _Groups
    rhythm: _Rhythm
    rhythm_told: _RhythmTold
    yes: _Words
    no: _Words
    unsure: _Words
    unsure_edges: _Groups
    tools: _Groups
    absence: _Groups
    choosing: _Groups
    none: _Words
    vague: _Words
    at_counter: _Groups
    in_context: _Groups
    measured_from: _Words
    tank_words: _Words
    side_labels: _Groups
    sides: _Groups
    trade_forms: _Groups
    trade_names: _Groups
    short_for: dict[str, str]
    spelled_nearly: _Words
    ordinary: _Words
    things: _Groups
    topics: _Groups
    places: _Words
    up_to_a_place: _Words
    lamp_of_any: _Groups
    times_of_meals: _Groups
    of_one_kind: _Groups
    seasons_apart: dict[str, str]
    animate: _Words
    pronouns: _Words
    being: _Groups
    before: _Groups
    linking: _Words
    fillers: _Words
    states: _Words
    wishes: _Words
    others: _Words
    somebody: _Words
    asides_with_if: _Words
    wondered: _Words
    wished_ahead: _Words
    gone: _Words
    handed_over: _Words
    taken_up_by: _Words
    givers: _Words
    giver_owns: _Words
    got: _Words
    plans: _Words
    plans_of_animals: _Words
    arrivals: _Words
    not_arriving: _Words
    warmth: _Groups
    named_together: _Words
    dismissed: _Words
    revive: _Words
    asks: _Words
    tells_first: _Words
    mended_by: _Words
    denials: _Words
    doubts: _Words
    breaths: _Words
    abbreviations: _Words
    animals: _Groups
    competing: _Groups
    changes: _Groups
    names: _Names
    electric: _Groups
    accidents: _Groups
    asked_instead: _Groups
    glossary: dict[str, str]
    asides: _Groups


class Absent(Row, frozen=True, kw_only=True):
    """What words deny, and the facts that tells."""

    EXAMPLE: ClassVar[str] = "{words: heater|heaters, facts: {heater_mount: none}}"

    words: str
    facts: dict[Annotated[str, Names("question")], str]
    unless: _Words = ()


class Fact(Row, frozen=True, kw_only=True):
    """What phrases tell: the question, what would be typed there, the thing it is about."""

    EXAMPLE: ClassVar[str] = "{id: day_length, of: light, phrases: ['{hours} a day']}"

    id: Annotated[str, Names("question")]
    phrases: _Words
    of: Annotated[str, Names("thing")] = ""
    says: str = ""
    unless: _Words = ()
    together_with: _Words = ()
    not_after: _Words = ()
    pick: _Words = ()
    end: str = ""
    even_wished: bool = False
    alone: bool = False
    adds: str = ""
    """What is typed behind the amount: deep, a unit that goes without saying."""
    sole: bool = False
    """Whether no other amount of its kind may stand in the sentence."""


class Near(Fact, frozen=True, kw_only=True):
    """What an amount tells by the topic that is named nearest, where no phrase takes it."""

    EXAMPLE: ClassVar[str] = "{id: heater_power, topics: [heater], phrases: ['{power}']}"

    topics: tuple[Annotated[str, Names("thing")], ...]
    """Things or topics of words.yaml; the answer is about the first of its first row."""
    cues: _Words = ()
    """Words of which one stands between the topic and the amount, or right behind it."""
    units: _Words = ()
    """Units it is told in."""
    least: float = -math.inf
    most: float = math.inf
    """In the core's unit; what is beyond is of something else. They judge nothing."""


class PhraseFile(Row, frozen=True, kw_only=True):
    """Phrases and the facts they tell."""

    words: dict[str, str]
    slots: _Groups
    absent: tuple[Absent, ...]
    denied_after: _Words
    facts: tuple[Fact, ...]
    near: tuple[Near, ...]


class ChangeFile(Row, frozen=True, kw_only=True):
    """What becomes of answers: told outright, moved by an amount, one added to those there."""

    words: dict[str, str]
    now: dict[str, str]
    told: tuple[Near, ...]
    moved: tuple[Near, ...]
    added: tuple[Near, ...]


class PeopleFile(Row, frozen=True, kw_only=True):
    """What a kind listener notices."""

    at_once: _Words
    soon: _Words
    signs_at_once: _Groups
    signs_soon: _Groups
    distress: _Words
    newcomer: _Words
    buy: _Words
    at_risk: _Words
    of_things_too: _Words
    of_animals: _Words
    regions: _Groups
    clauses: _Groups
    home: _Groups


class Emergencies(Row, frozen=True, kw_only=True):
    """What is said of what can't wait."""

    electric: str
    person: str
    flood: str
    lost: str
    in_water: str


class OfIllness(Row, frozen=True, kw_only=True):
    """What is said of an ill animal, and to somebody who fears for one."""

    at_once: str
    soon: str
    unseen: str
    ill: str
    heard: str


class OfBeginning(Row, frozen=True, kw_only=True):
    """What is said to somebody who begins."""

    distress: str
    newcomer: str
    stage: str
    buy: str


class SaidFile(Row, frozen=True, kw_only=True):
    """What is said to a person rather than to an answer."""

    emergencies: Emergencies
    illness: OfIllness
    beginning: OfBeginning
