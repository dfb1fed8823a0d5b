"""From the chances of each level to a verdict and how certain it is, by what is at stake."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from interview.audit.grade_rules import HarmClass, HarmRule, rules

__all__ = ["LEVELS", "Certainty", "Chances", "Judged", "Level", "Risk", "certain", "judged"]

Level: TypeAlias = Literal["good", "close", "wrong", "danger"]
LEVELS: tuple[Level, ...] = ("good", "close", "wrong", "danger")
"""From best to worst."""
Certainty: TypeAlias = Literal["sure", "likely", "open"]
Risk: TypeAlias = Literal["", "possible", "likely"]
"""How much a danger that is not the verdict counts."""
_ROUNDING = 1e-9
"""Chances are sums of shares."""


@dataclass(frozen=True)
class Chances:
    """Shares of the draws at each level; they add up to one."""

    good: float = 0.0
    close: float = 0.0
    wrong: float = 0.0
    danger: float = 0.0

    @property
    def broken(self) -> float:
        """The chance that the limit is broken, dangerously or not."""
        return self.wrong + self.danger


@dataclass(frozen=True)
class Judged:
    """A verdict with its chance, how certain it is, and what chance of danger is left in it.

    `chance` is that of the limit being kept for good and close, of it being broken for wrong,
    of danger for danger. `certainty` follows from the chance that the true value gives the
    same verdict, or a worse one where it is not good. `warning` is the chance of danger where
    `risk` says that it counts.
    """

    verdict: Level
    chance: float
    certainty: Certainty
    risk: Risk = ""
    warning: float = 0.0


def judged(at_best: Level, chances: Chances, harm: Mapping[Level, HarmClass]) -> Judged:
    """The verdict on a check.

    Args:
        at_best: the level of the best values
        chances: the level of every draw
        harm: what is at stake where it is dangerous, and where it is wrong
    """
    verdict = _verdict(at_best, chances, harm)
    same, chance = {
        "good": (chances.good, chances.good),
        "close": (1 - chances.good, chances.good),
        "wrong": (chances.broken, chances.broken),
        "danger": (chances.danger, chances.danger),
    }[verdict]
    risk = "" if verdict == "danger" else _risk(chances.danger, harm)
    warning = chances.danger if risk else 0.0
    return Judged(verdict, chance, certain(same), risk, warning)


def certain(chance: float) -> Certainty:
    """How certain something of this chance is."""
    levels = rules().certainty
    if chance >= levels["sure"].at_least - _ROUNDING:
        return "sure"
    return "likely" if chance >= levels["likely"].at_least - _ROUNDING else "open"


def _verdict(at_best: Level, chances: Chances, harm: Mapping[Level, HarmClass]) -> Level:
    if chances.danger >= _at_stake("danger", harm).stop_from:
        return "danger"
    if at_best in ("wrong", "danger") or certain(chances.broken) != "open":
        return "wrong"
    stake = _at_stake("wrong", harm)
    kept = at_best == "good" or chances.good >= stake.good_from
    bears = chances.broken <= stake.good_with_broken and not _risk(chances.danger, harm)
    return "good" if kept and bears else "close"


def _risk(danger: float, harm: Mapping[Level, HarmClass]) -> Risk:
    """What a chance of danger calls for below a STOP."""
    stake = _at_stake("danger", harm)
    if danger >= stake.settle_from:
        return "likely"
    return "possible" if danger >= stake.watch_from else ""


def _at_stake(level: Level, harm: Mapping[Level, HarmClass]) -> HarmRule:
    return rules().harms[harm[level]]
