"""Reads the checks from their files."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from interview.audit.checks.check import Band, Check
from interview.audit.checks.faults import faults_at_load
from interview.audit.checks.rows import SECTIONS, CheckFile, CheckRow, names_of
from interview.audit.immediate_action import ImmediateAction
from interview.base.rows import FileError, read_folder

__all__ = ["all_checks", "checks_by_id", "read_checks"]


def read_checks(folder: Path) -> tuple[Check, ...]:
    """Every check of a folder's files; FileError names file and line of what is wrong."""
    found: dict[str, Check] = {}
    for _, file in read_folder(folder, CheckFile):
        for row in file.checks:
            if row.check in found:
                raise FileError(row.where, f"{row.check} is given twice")
            found[row.check] = check = _check(row, file.section)
            for fault in faults_at_load(check):
                raise FileError(row.where, fault)
    return tuple(sorted(found.values(), key=lambda c: SECTIONS.index(c.section)))


@cache
def all_checks() -> tuple[Check, ...]:
    """The audit's checks in the order of the sections."""
    return read_checks(Path(__file__).parent)


@cache
def checks_by_id() -> Mapping[str, Check]:
    """The audit's checks by their names."""
    return {check.id: check for check in all_checks()}


def _check(row: CheckRow, section: str) -> Check:
    return Check(
        id=row.check,
        section=section,
        claim=row.claim,
        measures=row.measures,
        why=row.why,
        weight=row.weight,
        harm=row.harms,
        where=row.where,
        hides_nothing=row.hides_nothing is True,
        hides_nothing_when=tuple(row.conditions("hides_nothing")),
        each_animal=row.each_animal,
        can_wait=row.can_wait,
        relevant=row.relevant,
        otherwise=row.otherwise,
        whens=row.whens,
        overrules_danger=tuple(row.conditions("overrules_danger")),
        way_out=row.way_out.holds if row.way_out else None,
        harm_with_way_out=row.way_out.harm if row.way_out else "refuge",
        good=_band(row.good.at_least, row.good.at_most) if row.good else None,
        close=_band(row.close.at_least, row.close.at_most) if row.close else None,
        danger=_band(row.danger.below, row.danger.above) if row.danger else None,
        say={str(outcome): text for outcome, text in row.say.items()},
        do={str(outcome): text for outcome, text in row.do.items()},
        now={
            str(outcome): ImmediateAction(say=said) if isinstance(said, str) else said
            for outcome, said in row.now.items()
        },
        superseded_by=row.superseded_by,
        takes={str(outcome): things for outcome, things in row.takes.items()},
        also=row.also,
        status=row.status or "",
        sources=row.sources,
        passes=row.passes,
        fails=row.fails,
        known_limits=row.known_limits,
        called=row.called,
        fault=row.fault,
        lacking=row.lacking,
        asked_of=row.asked_of,
    )


def _band(low: str | tuple[str, ...], high: str | tuple[str, ...]) -> Band:
    return Band(names_of(low), names_of(high))
