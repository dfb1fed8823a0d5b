"""How grave findings are: whose life or health is at stake first, then how much harm to expect."""

from __future__ import annotations

from typing import get_args

from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import checks_by_id
from interview.audit.checks.verdicts import Level
from interview.audit.grade_rules import HarmClass, rules

__all__ = ["gravity", "stake_of"]

_CLASSES: tuple[HarmClass, ...] = get_args(HarmClass)
"""From the life of people to upkeep."""


def stake_of(check: Check, level: Level) -> int:
    """What is at stake as its place among the classes of harm; 0, the life of people, is most."""
    return _CLASSES.index(check.harm["danger" if level == "danger" else "wrong"])


def gravity(finding: Finding) -> tuple[float, ...]:
    """A key by which findings are sorted, the gravest first.

    By the class of the harm, of the danger where there is one or a chance of one, then by the
    harm to expect, then by weight.
    """
    check = checks_by_id()[finding.check]
    level: Level = "danger" if finding.verdict == "danger" or finding.risk else "wrong"
    return stake_of(check, level), -_expected(check, finding), -finding.weight


def _expected(check: Check, finding: Finding) -> float:
    """Chance of a broken limit by what it costs, dangerously broken and otherwise."""
    if finding.chances is None:
        return 0.0
    stakes = check.stakes(finding.leaves)
    costs = {level: rules().harms[stake].cost for level, stake in stakes.items()}
    return finding.chances.danger * costs["danger"] + finding.chances.wrong * costs["wrong"]
