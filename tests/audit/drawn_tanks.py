"""Tanks drawn round sound and faulty ones: what is so, what was read of it, what the audit says.

A true tank differs from the one it is drawn round by some times the doubt of each reading, and
its lamps, shells and flows by the doubts of the model. The keeper reads it with the errors of
the instruments. The audit knows the readings alone. Many tanks go through the core at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache, cached_property
from typing import Any, Protocol

import numpy as np
import yaml
from kept import for_a_file
from numpy.typing import NDArray
from typed_tanks import DEMOS, TESTS, changed, interview_in

from interview import assembly
from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.checks.outcomes import RULE_VERDICTS, levels_of, rules_of
from interview.audit.checks.verdicts import LEVELS, Chances, judged
from interview.audit.grades import Grades, grade_all
from interview.audit.sampling.normal import normal_quantile
from interview.audit.sampling.sample import Spread, scores_of, spreads
from interview.audit.sampling.sobol import directions, sobol_points
from interview.audit.sampling.sobol_dimensions import dimensions_of
from interview.care.facts import assumptions, doubts, limits
from interview.core.wiring import quantities
from interview.core.working import Working

__all__ = ["DrawnTank", "Given", "drawn_round", "grounds", "grounds_apart"]

AROUND = 3.0
"""How far true tanks lie round the one typed, in sigmas of its readings."""
PROBES = ("room_temperature_low", "room_temperature_high", "basking_room_temperature",
          "water_temperature", "tap_temperature", "basking_temperature")  # fmt: skip
"""What a keeper who names a probe reads with it."""
Given = Mapping[str, Any]


class Random(Protocol):
    """What draws errors."""

    def standard_normal(self, count: int) -> Any: ...


_Floats = NDArray[np.float64]


@dataclass(frozen=True)
class DrawnTank:
    """One tank: by check the level at the readings, the chances, and the level that is so."""

    ground: str
    at_best: Mapping[str, int]
    chances: Mapping[str, Chances]
    truth: Mapping[str, int]
    joint: float
    """The share of the draws in which anything is dangerous."""
    leaves: frozenset[str] = frozenset()
    """The checks whose danger an animal can leave, by what was read."""

    @property
    def dangerous(self) -> bool:
        """Whether anything is truly dangerous."""
        return max(self.truth.values()) == LEVELS.index("danger")

    @cached_property
    def findings(self) -> list[Finding]:
        """What the audit says, without its words; several tests ask for it."""
        checks = [check.id for check in all_checks() if check.id in self.truth]
        return [_found(c, self.at_best[c], self.chances[c], c in self.leaves) for c in checks]

    @cached_property
    def grades(self) -> Grades:
        """The grades of these findings; several tests ask for them too."""
        return grade_all(self.findings)


@for_a_file
def _found(name: str, level: int, chances: Chances, leaves: bool) -> Finding:
    """What the audit says of a check; the same of many tanks."""
    check, best = _checks()[name], LEVELS[level]
    found = judged(best, chances, check.stakes(leaves))
    return Finding(
        check.id, check.section, found.verdict, check.measures, "", "", "",
        chance=found.chance, certainty=found.certainty, chances=chances,
        warning=found.warning, risk=found.risk, weight=check.weight,
        hides_nothing=check.hides_nothing, inside=best == "good", leaves=leaves,
    )  # fmt: skip


@cache
def _checks() -> Mapping[str, Check]:
    return {check.id: check for check in all_checks()}


def grounds() -> Iterator[tuple[str, Given]]:
    """The typed tanks: demos, those of the tests, each slip, each good tank."""
    for path in [*sorted(DEMOS.glob("*.yaml")), *sorted((TESTS / "tanks").glob("*.yaml"))]:
        yield path.stem, interview_in(path).given()
    base = interview_in(TESTS / "tanks" / "base.yaml")
    for row in _rows("setups_bad.yaml"):
        if not row.get("misfits"):
            yield row["slip"], changed(base, row["change"]).given()
    for row in _rows("setups_good.yaml"):
        like = interview_in(TESTS / "tanks" / f"{row['like']}.yaml")
        yield row["tank"], changed(like, row["change"]).given()


def grounds_apart() -> Iterator[tuple[str, Given]]:
    """Tanks on which no threshold was chosen."""
    for path in sorted((TESTS / "audit" / "kept_apart").glob("*.yaml")):
        yield path.stem, interview_in(path).given()
    for name in ("audit/sound_tanks.yaml", "audit/fault_tanks.yaml", "advice/tanks.yaml"):
        for row in _rows(name):
            like = interview_in(TESTS / "tanks" / f"{row['like']}.yaml")
            yield row["tank"], changed(like, row["change"]).given()


def _rows(name: str) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = yaml.load(
        (TESTS / name).read_text(encoding="utf-8"), Loader=yaml.BaseLoader
    )
    return rows


def _with_probes(given: Given) -> Given:
    """The same readings, by a keeper who says that they were taken with a probe."""
    return {
        name: replace(item, value=replace(item.value, instrument="probe"))
        if name in PROBES and hasattr(item.value, "instrument")
        else item
        for name, item in given.items()
    }


def drawn_round(
    name: str, given: Given, tanks: int, draws: int, dice: Callable[[str], Random]
) -> list[DrawnTank]:
    """Tanks drawn round a typed one, with dice for each name, so that a new one moves no other."""
    worlds = _Worlds(given, tanks, draws, dice)
    animals = len(given["species"].value) if "species" in given else 1
    found: dict[str, tuple[Any, Any, Any]] = {}
    leaves: dict[str, Any] = {}
    with np.errstate(all="ignore"):
        for check in all_checks():
            told = _levels(check, worlds.told, tanks * (1 + draws), animals)
            true = _levels(check, worlds.true, tanks, animals)
            if told is not None and true is not None:
                found[check.id] = told[:tanks], told[tanks:].reshape(tanks, draws), true
                leaves[check.id] = _way_out(check, worlds.told, tanks * (1 + draws))[:tanks]
    return [_one(name, found, leaves, row) for row in range(tanks)]


def _one(
    name: str,
    found: Mapping[str, tuple[Any, Any, Any]],
    leaves: Mapping[str, Any],
    row: int,
) -> DrawnTank:
    shares = {
        check: np.bincount(drawn[row], minlength=4) / drawn.shape[1]
        for check, (_, drawn, _) in found.items()
    }
    dangerous = [drawn[row] == LEVELS.index("danger") for _, drawn, _ in found.values()]
    return DrawnTank(
        name,
        {check: int(read[row]) for check, (read, _, _) in found.items()},
        {check: _chances(*share.tolist()) for check, share in shares.items()},
        {check: int(true[row]) for check, (_, _, true) in found.items()},
        float(np.any(dangerous, axis=0).mean()),
        frozenset(check for check, each in leaves.items() if each[row]),
    )


@for_a_file
def _chances(*shares: float) -> Chances:
    """The same object for the same shares: they are those of many checks and tanks."""
    return Chances(*shares)


def _levels(check: Check, working: Working, count: int, animals: int) -> Any:
    """The level in each tank or draw, of the animal that fares worst; None where not judged."""
    rows = range(animals) if check.each_animal and animals > 1 else (None,)
    each = [_level(check, working if r is None else working.of_animal(r), count) for r in rows]
    return None if any(found is None for found in each) else np.max(each, axis=0)


def _way_out(check: Check, working: Working, count: int) -> Any:
    """Whether an animal can leave what is dangerous, in each tank or draw."""
    holds = check.way_out.over(_look(working), _unit_of) if check.way_out else False
    return np.broadcast_to(holds, count)


def _look(working: Working) -> Callable[[str], Any]:
    facts = limits()
    return lambda name: facts[name].value if name in facts else working.get(name)


def _level(check: Check, working: Working, count: int) -> Any:
    look = _look(working)
    if check.relevant and not check.relevant.holds(look, _unit_of):
        return None
    rules = rules_of(check, look, _unit_of)
    decided = check.good is None or "good" in rules
    if not (decided or any(np.all(held) for name, held in rules.items() if name != "close")):
        return None
    if not rules and not check.whens:
        return None
    assert set(rules) <= set(RULE_VERDICTS)
    levels = np.asarray(levels_of(check, look, _unit_of, ""))
    levels = levels[..., 0] if levels.ndim > 1 else levels  # an answer of the one animal
    return np.broadcast_to(levels, count).astype(np.int8)


@cache
def _units() -> Mapping[str, str]:
    return assembly.known_names()


def _unit_of(name: str) -> str:
    return _units().get(name, "1")


class _Worlds:
    """The true tanks; and what is told of them: each reading, then the audit's draws round it."""

    def __init__(self, given: Given, tanks: int, draws: int, dice: Callable[[str], Random]) -> None:
        self._count, self._draws, self._dice = tanks, draws, dice
        table = dict(spreads(given, assumptions(), doubts()))
        probed = dict(spreads(_with_probes(given), assumptions(), doubts()))
        # What nobody told is no reading: the audit takes its middle, as it does a model's doubt.
        told = {name for name, item in given.items() if item.how != "assumed"}
        for name in set(PROBES) & told:
            table[name] = self._half_with(table[name], probed[name])
        unsure = ((name, n) for name, value in table.items() for n, _ in enumerate(_parts(value)))
        self._dimensions = dimensions_of(unsure, len(directions()))
        worlds: tuple[dict[str, Any], dict[str, Any]] = ({}, {})
        for name, value in table.items():
            for world, known in zip(worlds, self._known(name, value, name in told), strict=True):
                world[name] = known
        if "uvb_reading" in given:
            self._read_the_lamp(table["uvb_reading"], *worlds)
        wiring = quantities()
        self.true, self.told = (wiring.working(world, draws=True) for world in worlds)

    def _half_with(self, usual: Spread, probe: Spread) -> Spread:
        """The doubt of each tank's reading: every second keeper has a probe and says so."""
        odd = np.arange(self._count) % 2 == 1
        return replace(
            usual,
            below=np.where(odd, probe.below, usual.below),  # type: ignore[arg-type]
            above=np.where(odd, probe.above, usual.above),  # type: ignore[arg-type]
        )

    def _known(self, name: str, value: Any, told: bool) -> tuple[Any, Any]:
        """What is so; what is read, and what the audit draws."""
        parts = _parts(value)
        if not parts:
            return value, value
        one = self._reading if told else self._model
        each = [one(name, number, part) for number, part in enumerate(parts)]
        if not isinstance(value, tuple):
            return each[0]
        true, known = (np.stack(columns, axis=-1) for columns in zip(*each, strict=True))
        return true, known

    def _model(self, name: str, number: int, spread: Spread) -> tuple[_Floats, _Floats]:
        """A doubt of the model: the audit knows its middle only."""
        error = self._dice(f"{name} {number}").standard_normal(self._count)
        true = _at(name, spread, spread.best, error)
        scores = np.tile(self._scores(name, number), self._count)
        drawn = _at(name, spread, spread.best, scores)
        return true, np.concatenate([np.full(self._count, spread.best), drawn])

    def _reading(self, name: str, number: int, spread: Spread) -> tuple[_Floats, _Floats]:
        """A reading of a true value somewhere round the one that was typed."""
        dice = self._dice(f"{name} {number}")
        true = _at(name, spread, spread.best, AROUND * dice.standard_normal(self._count))
        read = _at(name, spread, true, dice.standard_normal(self._count))
        drawn = _at(name, spread, read[:, None], self._scores(name, number)[None, :])
        return true, np.concatenate([read, drawn.reshape(-1)])

    def _scores(self, name: str, number: int) -> _Floats:
        """As the audit draws them: each name by a dimension of its own."""
        return scores_of(self._dimensions[name, number], self._draws)

    def _read_the_lamp(self, spread: Spread, true: Any, told: Any) -> None:
        """A UV meter reads what the lamp truly gives, which the truth knows without a meter."""
        del true["uvb_reading"]
        gives = quantities().working(true, draws=True).get("uv_index_at_reading")
        there = np.broadcast_to(np.asarray(gives, dtype=float), self._count)
        error = self._dice("uvb_reading").standard_normal(self._count)
        read = _at("uvb_reading", spread, there, error)
        drawn_by = normal_quantile(sobol_points(1, self._draws, seed=21))[:, 0]
        around = _at("uvb_reading", spread, read[:, None], drawn_by[None, :])
        told["uvb_reading"] = np.concatenate([read, around.reshape(-1)])


def _parts(value: Any) -> tuple[Spread, ...]:
    """The numbers of an answer, or of a row of animals; () for words."""
    rows = value if isinstance(value, tuple) else (value,)
    return tuple(row for row in rows if isinstance(row, Spread))


def _at(name: str, spread: Spread, centre: Any, score: Any) -> _Floats:
    """Values so many sigmas from a centre, with the width of the spread."""
    if spread.factor != 1:
        value = centre * spread.factor**score
    else:
        below, above = (np.reshape(s, (-1, 1)) if np.ndim(centre) == 2 else s
                        for s in (spread.below, spread.above))  # fmt: skip
        value = centre + score * np.where(np.asarray(score) < 0, below, above)
    low, high = quantities().range_of(name)
    return np.asarray(np.clip(value, max(low, spread.low), min(high, spread.high)))
