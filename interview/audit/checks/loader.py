"""The checks as data: what is measured, what it is held against, what to say and do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from interview.base.conditions import Condition, ConditionError
from interview.base.rows.lines import FileError, Lined, read_folder
from interview.base.templates import names_in
from interview.care.facts import STATUSES, assumptions, bibliography, limits
from interview.core.wiring import quantities

__all__ = ["SECTIONS", "Band", "Check", "all_checks", "names_judged", "read_checks"]

SECTIONS = (
    "space",
    "basking",
    "ultraviolet",
    "water",
    "filter",
    "feeding",
    "structure",
    "electricity",
    "hazards",
    "household",
)
_WHENS = ("danger_when", "wrong_when", "good_when", "close_when")
_KEYS = {
    *("check", "claim", "measures", "why", "weight", "hides_nothing", "relevant", "otherwise"),
    *("good", "close", "danger", "say", "do", "also", "sources", "passes", "fails"),
    *("known_limits", "status", "overrules_danger", "each_animal", *_WHENS),
}
_OUTCOMES = {
    *("good", "low", "high", "close", "close_low", "close_high", "wrong", "danger"),
    "unmeasured",
}
_NEEDED = ("claim", "measures", "why", "weight", "say", "passes", "fails", "known_limits")


@dataclass(frozen=True)
class Band:
    """Names of lower and upper bounds; every one must be kept."""

    low: tuple[str, ...] = ()
    high: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """All bounds."""
        return (*self.low, *self.high)


@dataclass(frozen=True)
class Check:
    """One check.

    `overrules_danger` names conditions that count before the danger band, on purpose.
    `hides_nothing` says that no average may hide it when it is wrong, `hides_nothing_when`
    that this is so where one of these conditions decides. `each_animal` says that every
    animal is judged apart, by limits of its own.
    """

    id: str
    section: str
    claim: str
    measures: str
    why: str
    weight: int
    where: Lined
    hides_nothing: bool = False
    hides_nothing_when: tuple[str, ...] = ()
    each_animal: bool = False
    relevant: Condition | None = None
    otherwise: str = ""
    whens: Mapping[str, Condition] = field(default_factory=dict)
    overrules_danger: tuple[str, ...] = ()
    good: Band | None = None
    close: Band | None = None
    danger: Band | None = None
    say: Mapping[str, str] = field(default_factory=dict)
    do: Mapping[str, str] = field(default_factory=dict)
    also: str = ""
    status: str = ""
    sources: tuple[str, ...] = ()
    passes: Mapping[str, Any] = field(default_factory=dict)
    fails: Mapping[str, Any] = field(default_factory=dict)
    known_limits: str = ""

    @property
    def bounds(self) -> tuple[str, ...]:
        """Names of every limit the check compares with."""
        bands = (self.good, self.close, self.danger)
        return tuple(dict.fromkeys(name for band in bands if band for name in band.names))

    @property
    def compared(self) -> tuple[tuple[str, str], ...]:
        """Each (name, name of its bound) the check compares, in bands and conditions."""
        pairs = [(self.measures, name) for name in self.bounds]
        for condition in self.whens.values():
            pairs += condition.compared
        return tuple(dict.fromkeys(pairs))

    @property
    def decides(self) -> frozenset[str]:
        """What the verdict looks at: not the words that are only said."""
        conditions = [self.relevant, *self.whens.values()]
        named = {name for condition in conditions if condition for name in condition.names}
        return frozenset(named | {self.measures, *self.bounds})

    @property
    def names(self) -> frozenset[str]:
        """Every name the check speaks of or compares."""
        conditions = [self.relevant, *self.whens.values()]
        found = {name for c in conditions if c for name in c.names}
        texts = (*self.say.values(), *self.do.values(), self.otherwise, self.also)
        found |= {name for text in texts for name in names_in(text)} - {"value", "low", "high"}
        return frozenset(found | {self.measures, *self.bounds})


def _line(text: object) -> str:
    return " ".join(str(text).split())


def _band(row: Lined, key: str, low: str, high: str) -> Band | None:
    said = row.get(key)
    if said is None:
        return None
    if not isinstance(said, dict) or not set(said) <= {low, high}:
        raise FileError(row, f"{row['check']}: {key} holds {low}: and {high}: lists")
    return Band(_names(said.get(low)), _names(said.get(high)))


def _names(said: Any) -> tuple[str, ...]:
    return (said,) if isinstance(said, str) else tuple(said or ())


def _check(row: Any, section: str, path: Path) -> Check:
    if not isinstance(row, Lined) or "check" not in row:
        raise FileError(path.name, "every check needs `check:` with its id")
    name = row["check"]
    if unknown := set(row) - _KEYS:
        raise FileError(row, f"{name}: unknown key {', '.join(sorted(unknown))}")
    for key in _NEEDED:
        if not row.get(key):
            raise FileError(row, f"{name} has no {key}")
    if row.get("status", "assumption") not in STATUSES:
        raise FileError(row, f"{name}: status “{row['status']}” is none of {', '.join(STATUSES)}")
    if unknown := set(row.get("sources", ())) - set(bibliography()):
        raise FileError(row, f"{name}: source {', '.join(sorted(unknown))} is not known")
    if unknown := {*row["say"], *row.get("do", ())} - _OUTCOMES:
        raise FileError(row, f"{name}: {', '.join(sorted(unknown))} is no outcome to speak of")
    hiding = () if row.get("hides_nothing") is True else _names(row.get("hides_nothing"))
    if unknown := {*_names(row.get("overrules_danger")), *hiding} - (set(_WHENS) & set(row)):
        raise FileError(row, f"{name}: {', '.join(sorted(unknown))} is no condition here")
    check = _built(row, name, section)
    for fault in (*_order_of_bands(check), *_bounds_at_load(check)):
        raise FileError(row, fault)
    return check


def _built(row: Lined, name: str, section: str) -> Check:
    try:
        return Check(
            id=name,
            section=section,
            where=row,
            measures=row["measures"],
            weight=int(row["weight"]),
            hides_nothing=row.get("hides_nothing") is True,
            hides_nothing_when=()
            if row.get("hides_nothing") is True
            else _names(row.get("hides_nothing")),
            each_animal=bool(row.get("each_animal", False)),
            relevant=Condition.read(row["relevant"]) if "relevant" in row else None,
            whens={k: Condition.read(row[k], row["measures"]) for k in _WHENS if k in row},
            overrules_danger=_names(row.get("overrules_danger")),
            good=_band(row, "good", "at_least", "at_most"),
            close=_band(row, "close", "at_least", "at_most"),
            danger=_band(row, "danger", "below", "above"),
            say={str(k): _line(v) for k, v in row["say"].items()},
            do={str(k): _line(v) for k, v in row.get("do", {}).items()},
            status=row.get("status", ""),
            sources=tuple(row.get("sources", ())),
            passes=row["passes"],
            fails=row["fails"],
            **{
                key: _line(row.get(key, ""))
                for key in ("claim", "why", "otherwise", "also", "known_limits")
            },
        )
    except ConditionError as problem:
        raise FileError(row, f"{name}: {problem}") from problem


def _order_of_bands(check: Check) -> Iterator[str]:
    """Limits that stand upside down: danger low < close low < good low < good high < …."""
    bands = (check.danger, check.close, check.good)
    rising = [band.low for band in bands if band] + [band.high for band in bands[::-1] if band]
    facts = limits()
    before: list[tuple[str, float]] = []
    for names in rising:
        here = [(name, facts[name].value or 0.0) for name in names if name in facts]
        for name, value in here:
            for lower, floor in before:
                if floor > value:
                    yield f"{check.id}: the band is upside down, {lower} is above {name}"
        before += here


def _bounds_at_load(check: Check) -> Iterator[str]:
    """Bounds nobody knows, or in another unit than the quantity they bound."""
    units = quantities().units
    known = {**units, **{name: fact.unit for name, fact in limits().items()}}
    for name, bound in check.compared:
        if not bound:
            yield f"{check.id} compares {name} with a bare number; give it a name in care/limits"
        elif bound not in known:
            yield f"{check.id} holds {name} against {bound}, which nobody knows"
        elif name in units and known[bound] != units[name]:
            yield f"{check.id} holds {name} [{units[name]}] against {bound} in [{known[bound]}]"


def read_checks(folder: Path) -> tuple[Check, ...]:
    """Every check of a folder's files; FileError names file and line of the first fault."""
    found: dict[str, Check] = {}
    for path, rows in read_folder(folder):
        section = rows.get("section")
        if section not in SECTIONS:
            raise FileError(path.name, f"section “{section}” is none of {', '.join(SECTIONS)}")
        for row in rows["checks"]:
            check = _check(row, section, path)
            if check.id in found:
                raise FileError(row, f"{check.id} is given twice")
            found[check.id] = check
    return tuple(sorted(found.values(), key=lambda c: SECTIONS.index(c.section)))


@cache
def all_checks() -> tuple[Check, ...]:
    """The audit's checks in the order of the sections."""
    return read_checks(Path(__file__).parent)


def names_judged(checks: Iterable[Check]) -> frozenset[str]:
    """Every name some check speaks of."""
    return frozenset().union(*(check.names for check in checks))


def faults(
    checks: Iterable[Check], units: Mapping[str, str], also: Iterable[str] = ()
) -> Iterator[str]:
    """Bounds nobody knows or in another unit than what they bound; names nobody gives.

    Args:
        checks: the checks
        units: unit of every answer and quantity
        also: names of limits that are used elsewhere
    """
    known = {**units, **{name: fact.unit for name, fact in limits().items()}}
    used: set[str] = set(also)
    for check in checks:
        yield from (str(FileError(check.where, f)) for f in _faults_of(check, known))
        used |= check.names
    for name in sorted(set(limits()) - used):
        yield f"the limit {name} is used by no check and no misfit"
    for name, fact in assumptions().items():
        if fact.unit != units.get(name):
            taken = f"formulas take it in [{units[name]}]" if name in units else "nothing takes it"
            yield str(FileError(fact.where, f"{name} is assumed in [{fact.unit}], but {taken}"))


def _faults_of(check: Check, known: Mapping[str, str]) -> Iterator[str]:
    for name in sorted(check.names - set(known)):
        yield f"{check.id} speaks of {name}, which nobody knows"
    for name, bound in check.compared:
        unit = known.get(name)
        if known.get(bound, unit) != unit:
            yield f"{check.id} holds {name} [{unit}] against {bound} in [{known[bound]}]"
    if check.good is None and not check.whens:
        yield f"{check.id} has neither a band nor a condition"
