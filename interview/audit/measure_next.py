"""What to measure next: readings that would settle a finding, each tried before it is promised."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import checks_by_id
from interview.audit.checks.outcomes import chances_of, deciding_rule, levels_of
from interview.audit.checks.verdicts import LEVELS, judged
from interview.audit.sampling.normal import normal_quantile
from interview.audit.sampling.sensitivity import doubt_of
from interview.audit.sampling.sobol import sobol_points
from interview.audit.tank import Tank
from interview.care.facts import Doubt, Fact, assumptions, doubts
from interview.core.errors import CannotWorkOut
from interview.core.working import Working

__all__ = ["Tool", "best_tool", "part_of", "settled_by", "with_doubt"]

_PARTS = ((0.5, "Most"), (0.25, "A good part"), (0.0, "Some"))
_TRUTHS, _DRAWS = 24, 64
"""True values that are tried, and draws round the reading of each."""
_PROMISED = 0.5
"""Readings that settle a finding in fewer trials than this are not promised to."""
_BETTER = 0.8
"""A reading is worth taking again with a tool of at most this share of the doubt."""
_READ_OF = {"uvb_reading": "uv_index_at_reading", "filter_measured_flow": "actual_flow"}
"""What an instrument that was never used would show."""
_TAKEN_AT = {"uvb_reading": ("uvb_reading_height", "shell_height")}
"""Where a reading would be taken that was never taken."""


@dataclass(frozen=True)
class Tool:
    """What an answer is best measured with, and how far that may be off."""

    name: str
    called: str
    doubt: Fact


def part_of(share: float) -> str:
    """A share of the doubt in words: most only above a half."""
    return next(word for least, word in _PARTS if share > least or least == 0)


def best_tool(name: str) -> Tool | None:
    """The narrowest instrument for an answer; None for what nobody measures."""
    usual = doubts().get(name)
    if not isinstance(usual, Doubt):
        return None
    found = [Tool("", usual.called, usual)]
    found += [Tool(tool, row.called, usual.by(tool)) for tool, row in usual.instruments.items()]
    return min(found, key=lambda tool: _width(tool.doubt))


def _width(doubt: Fact) -> float:
    return doubt.spread + doubt.relative + (doubt.factor - 1)


def with_doubt(findings: Iterable[Finding], tank: Tank) -> tuple[Finding, ...]:
    """The findings, those in doubt with the readings it comes from and what would settle it."""
    trials = _Trials(tank)
    return tuple(_told(finding, tank, trials) for finding in findings)


def settled_by(name: str, findings: Iterable[Finding]) -> tuple[str, ...]:
    """The checks in doubt that a reading of this answer would most likely settle."""
    return tuple(finding.check for finding in findings if finding.settled_by == name)


def _told(finding: Finding, tank: Tank, trials: _Trials) -> Finding:
    if not _in_doubt(finding):
        return finding
    check = checks_by_id()[finding.check]
    doubt = doubt_of(check.measures, tank.only(finding.animal))
    if not doubt:
        return finding
    first = doubt[0].quantity
    said = f"{part_of(doubt[0].share)} of the doubt comes from “{tank.label_of(first)}”."
    better = next((s.quantity for s in doubt if trials.settles(s.quantity, finding)), "")
    if not better:
        return replace(finding, doubt=doubt, settle=f"{said} No better reading would settle it.")
    tool = best_tool(better)
    read = f" read with {tool.called}" if tool and tool.called else ""
    how = f"“{tank.label_of(better)}”{read} would most likely settle it."
    said = " ".join(part for part in (said, how, tank.hint_of(better)) if part)
    return replace(finding, doubt=doubt, settle=said, settled_by=better)


def _in_doubt(finding: Finding) -> bool:
    """Whether a better reading could tell more of it."""
    if not finding.applies or finding.chances is None or finding.verdict == "unmeasured":
        return False
    return finding.certainty == "open" or bool(finding.risk)


class _Trials:
    """Tries readings: true values from the sample, each read by the best tool, judged again."""

    def __init__(self, tank: Tank) -> None:
        self._tank = tank
        self._worlds: dict[str, tuple[Working, Working] | None] = {}

    def settles(self, name: str, finding: Finding) -> bool:
        """Whether a reading settles the finding in at least half of the trials."""
        if name not in self._worlds:
            self._worlds[name] = self._read(name)
        worlds = self._worlds[name]
        if worlds is None:
            return False
        check = checks_by_id()[finding.check]
        try:
            settled = list(self._settled(check, finding, *worlds))
        except CannotWorkOut:
            return False
        return float(np.mean(settled)) >= _PROMISED

    def _settled(
        self, check: Check, finding: Finding, read: Working, drawn: Working
    ) -> Iterator[bool]:
        """For each true value whether its reading leaves no more doubt than likely."""
        tank = self._tank.only(finding.animal)
        rule = deciding_rule(check, tank.lookup, tank.unit_of) or ""
        best = replace(self._tank, best=read).only(finding.animal).lookup
        draws = replace(self._tank, sample=drawn).only(finding.animal).sample_of
        at_best = np.broadcast_to(levels_of(check, best, tank.unit_of, rule), _TRUTHS)
        levels = np.broadcast_to(levels_of(check, draws, tank.unit_of, rule), _TRUTHS * _DRAWS)
        for level, row in zip(at_best, levels.reshape(_TRUTHS, _DRAWS), strict=True):
            found = judged(LEVELS[level], chances_of(row), check.stakes(finding.leaves))
            yield found.certainty != "open" and not found.risk

    def _read(self, name: str) -> tuple[Working, Working] | None:
        """The best values and the draws after each reading, side by side."""
        sample, tool = self._placed(name), best_tool(name)
        true = sample.known.get(name)
        if true is None and name in _READ_OF:
            true = sample.get(_READ_OF[name])
        if tool is None or not isinstance(true, np.ndarray) or len(true) < _TRUTHS * _DRAWS:
            return None
        rows = slice(None, _TRUTHS * (step := len(true) // _TRUTHS), step)
        low, high = sample.wiring.range_of(name)
        errors = normal_quantile(np.clip(sobol_points(2, _DRAWS, seed=3), 1e-9, 1 - 1e-9)).T
        if not self._better(name, tool, errors[0]):
            return None
        reading = np.clip(_off(true[rows], tool.doubt, errors[0][:_TRUTHS]), low, high)
        again = np.repeat(reading, _DRAWS, axis=0)
        round_it = np.clip(_off(again, tool.doubt, np.tile(errors[1], _TRUTHS)), low, high)
        drawn = {n: _tiled(value, len(true)) for n, value in sample.known.items()}
        read = {**self._tank.best.known, **self._place(name)}
        for model in _answered_by(name):
            value = sample.known.get(model)
            if isinstance(value, np.ndarray):
                read[model] = value[rows]
                drawn[model] = np.repeat(value[rows], _DRAWS, axis=0)
        read[name], drawn[name] = reading, round_it
        wiring = sample.wiring
        return wiring.working(read, draws=True), wiring.working(drawn, draws=True)

    def _better(self, name: str, tool: Tool, errors: NDArray[np.float64]) -> bool:
        """Whether the tool is clearly better than what the answer was got with."""
        best, now = self._tank.best.known.get(name), self._tank.sample.known.get(name)
        if best is None or now is None:
            return True
        centre = np.broadcast_to(np.asarray(best, dtype=float), (len(errors), *np.shape(best)))
        return _widest(_off(centre, tool.doubt, errors)) < _BETTER * _widest(now)

    def _place(self, name: str) -> dict[str, Any]:
        """Where the reading is taken, if nobody said so and that decides what it shows."""
        place, usual = _TAKEN_AT.get(name, ("", ""))
        value = self._tank.best.get(usual) if place not in self._tank.best.known else None
        return {} if value is None else {place: value}

    def _placed(self, name: str) -> Working:
        sample = self._tank.sample
        place = self._place(name)
        return sample.with_known({**sample.known, **place}) if place else sample


def _widest(draws: NDArray[np.float64]) -> float:
    """The widest spread of an answer, or of a row's; who it is unknown of is left out."""
    each = np.atleast_2d(np.asarray(draws, dtype=float).T)
    known = each[~np.isnan(each).all(axis=1)]
    return float(np.nanstd(known, axis=1).max()) if len(known) else 0.0


def _off(true: NDArray[np.float64], doubt: Fact, score: NDArray[np.float64]) -> Any:
    """Readings of true values that are so many sigmas off."""
    score = score.reshape(-1, *(1,) * (true.ndim - 1))
    if doubt.factor > 1:
        return true * doubt.factor**score
    return true + score * (doubt.spread + doubt.relative * np.abs(true))


def _tiled(value: Any, count: int) -> Any:
    """The first draws of a name, once for each true value; anything else as it is."""
    if isinstance(value, np.ndarray) and value.ndim and len(value) == count:
        return np.concatenate([value[:_DRAWS]] * _TRUTHS)
    return value


def _answered_by(name: str) -> Iterator[str]:
    """The doubts of the model that a reading replaces."""
    return (fact.name for fact in assumptions().values() if fact.settled_by == name)
