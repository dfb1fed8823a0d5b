"""What the word files may hold; `questions --check` reads them by these rows.

A list or table that is added to a file gets its line here.
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, ClassVar

from interview.base.rows import Names, Row, read

__all__ = ["NO_QUESTION", "read_phrases", "read_units", "read_words"]

NO_QUESTION = "-"
"""Id of a phrase that is known and tells nothing."""
_Words = tuple[str, ...]
_Groups = dict[str, _Words]
_HERE = Path(__file__).parent


class _Dimension(Row, frozen=True, kw_only=True):
    EXAMPLE: ClassVar[str] = "{noun: a length, example: 45 cm, usual: [0.0002, 10]}"

    noun: str
    example: str
    usual: tuple[float, float]
    example_us: str = ""
    bare: tuple[float, float] | None = None
    hedge: float | None = None
    hedge_fixed: float | None = None
    signed: str = ""
    none_is_zero: str = ""


class _UnitFile(Row, frozen=True, kw_only=True):
    length: _Groups
    volume: _Groups
    duration: _Groups
    mass: _Groups
    area: _Groups
    power: _Groups
    voltage: _Groups
    current: _Groups
    share: _Groups
    angle: _Groups
    rating: _Groups
    count: _Groups
    pressure: _Groups
    energy: _Groups
    force: _Groups
    density: _Groups
    irradiance: _Groups
    loss: _Groups
    heat_capacity: _Groups
    price: _Groups
    labels: dict[str, str]
    us_units: _Words
    imperial_units: _Words
    units_of_any_system: _Words
    smaller: dict[str, str]
    dimensions: dict[str, _Dimension]
    offered: dict[str, tuple[_Words, ...]]
    said_in: dict[str, _Words]
    common: _Words
    in_fractions: _Words
    also_in_fractions: _Words


class _Numbers(Row, frozen=True, kw_only=True):
    ones: dict[str, int]
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


class _Names(Row, frozen=True, kw_only=True):
    small: _Words
    filler: _Words
    up_or_down: _Words
    moved: _Words
    apart: _Words
    not_moved: _Words
    same: dict[str, str]


class _WordFile(Row, frozen=True, kw_only=True):
    numbers: _Numbers
    hedges_before: _Groups
    hedges_after: _Groups
    instruments: dict[str, _Words]
    hedges_told_before: _Words
    hedges_told_after: _Words
    rhythm: _Rhythm
    yes: _Words
    no: _Words
    unsure: _Words
    none: _Words
    vague: _Words
    measured_from: _Words
    tank_words: _Words
    short_for: dict[str, str]
    spelled_nearly: _Words
    ordinary: _Words
    things: _Groups
    before: _Groups
    linking: _Words
    fillers: _Words
    states: _Words
    wishes: _Words
    givers: _Words
    got: _Words
    plans: _Words
    arrivals: _Words
    warmth: _Groups
    dismissed: _Words
    revive: _Words
    asks: _Words
    mended_by: _Words
    denials: _Words
    doubts: _Words
    breaths: _Words
    animals: _Groups
    competing: _Groups
    changes: _Groups
    spoken_of: tuple[_Groups, ...]
    names: _Names


class _Absent(Row, frozen=True, kw_only=True):
    EXAMPLE: ClassVar[str] = "{words: heater|heaters, facts: {heater_mount: none}}"

    words: str
    facts: dict[Annotated[str, Names("question")], str]
    unless: _Words = ()


class _Fact(Row, frozen=True, kw_only=True):
    EXAMPLE: ClassVar[str] = "{id: day_length, of: light, phrases: ['{hours} a day']}"

    id: Annotated[str, Names("question")]
    phrases: _Words
    of: str = ""
    says: str = ""
    unless: _Words = ()
    together_with: _Words = ()
    not_after: _Words = ()
    pick: _Words = ()
    end: str = ""
    even_wished: bool = False
    alone: bool = False
    deep: bool = False
    sole: bool = False


class _PhraseFile(Row, frozen=True, kw_only=True):
    words: dict[str, str]
    absent: tuple[_Absent, ...]
    denied_after: _Words
    facts: tuple[_Fact, ...]


def read_units(folder: Path = _HERE) -> None:
    """Refuse what is written wrong in units.yaml: FileError."""
    read(folder / "units.yaml", _UnitFile, verbatim=True)


def read_words(folder: Path = _HERE) -> None:
    """Refuse what is written wrong in words.yaml: FileError."""
    read(folder / "words.yaml", _WordFile, verbatim=True)


def read_phrases(folder: Path = _HERE) -> tuple[Row, ...]:
    """The rows of phrases.yaml, which name questions; FileError for what is written wrong."""
    phrases = read(folder / "phrases.yaml", _PhraseFile, verbatim=True)
    return (*phrases.absent, *phrases.facts)
