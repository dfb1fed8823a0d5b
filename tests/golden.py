"""Stored texts that the program must still produce, and how to store them anew."""

from __future__ import annotations

import datetime
import io
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, Self

import pytest
from kept import for_a_file
from rich.console import Console

from interview import assembly, setups
from interview.advice.forecast.day import days_of
from interview.advice.forecast.mishaps import mishaps_of
from interview.advice.forecast.year import year_of
from interview.advice.shopping import to_buy
from interview.chat import history
from interview.chat.faces.face import Asked
from interview.chat.faces.line_face import PlainFace
from interview.chat.faces.scripted_face import ScriptedFace
from interview.chat.rechecks import rechecking
from interview.chat.rechecks.rechecking import recheck
from interview.chat.together.counter import CounterTalk
from interview.chat.together.guided_talk import GuidedTalk
from interview.graph.interview import Interview
from interview.report.blocks import Table
from interview.report.forecast.day_page import day_blocks
from interview.report.forecast.mishap_page import mishap_blocks
from interview.report.forecast.said import bands_of
from interview.report.forecast.year_page import year_blocks
from interview.report.formats.markdown import markdown
from interview.report.formats.terminal import block_view
from interview.report.page.figures import numbers
from interview.report.page.sections import judged_as
from interview.report.page.whole import page_of

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

DEMOS = Path(__file__).parent.parent / "transcripts_demo"
SETUPS = sorted(DEMOS.glob("*.yaml"))
DAY = datetime.date(2026, 3, 1)


class _Listening(ScriptedFace):
    """A scripted keeper whose lines are written down."""

    lines: list[str]

    def hear(self, asked: Asked) -> str:
        line = super().hear(asked)
        self.lines.append(line)
        return line


@for_a_file
def talk_through(path: Path) -> tuple[Interview, str, tuple[str, ...]]:
    """Hold a setup's whole conversation: the interview, all that was shown, what was typed."""
    interview = assembly.new_interview()
    shown = io.StringIO()
    keeper = _Listening(PlainFace(io.StringIO(), shown), setups.read(path, interview.questionnaire))
    keeper.lines = []
    GuidedTalk(interview, keeper, save=lambda: None).run()
    return interview, shown.getvalue(), tuple(keeper.lines)


def conversation(path: Path) -> str:
    """The scripted conversation, in plain lines; the page it ends in is stored beside it."""
    return talk_through(path)[1]


@for_a_file
def _audited(path: Path) -> tuple[Audit, Advice]:
    """The audit and advice of a setup file, on a day that stays the same."""
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    audit = assembly.audit_of(interview, setup.title)
    return audit, assembly.advice_of(audit, DAY)


def first_page_text(path: Path) -> str:
    """The first page as a terminal of 80 columns shows it, without colour."""
    audit, advice = _audited(path)
    console = Console(width=80, color_system=None, force_terminal=False)
    with console.capture() as shown:
        blocks = page_of(audit, DAY.isoformat(), advice=advice, whole=False)
        console.print(block_view(blocks, width=80), width=80)
    return "".join(f"{line.rstrip()}\n" for line in shown.get().splitlines())


def in_lines(path: Path) -> str:
    """All that was found and advised, a line each: what changes is told from what stays."""
    audit, advice = _audited(path)
    return "".join(f"{line}\n" for line in (*_found(audit), *_advised(audit, advice)))


def _found(audit: Audit) -> Iterator[str]:
    yield audit.grades.headline
    yield from (f"section {section}: {grade}" for section, grade in audit.grades.sections)
    for finding in audit.findings:
        verdict = judged_as(finding.verdict, finding.certainty) if finding.applies else "idle"
        yield f"check {finding.check}: {verdict}. {finding.say} {finding.do}".rstrip()
    for row in next(b for b in numbers(audit) if isinstance(b, Table)).rows:
        yield f"number {' | '.join(row)}"
    yield from (f"next {name}" for name in audit.measure_next)
    yield from (f"note {note.id}" for note in audit.notes)


def _advised(audit: Audit, advice: Advice) -> Iterator[str]:
    for plan in advice.plans:
        yield f"plan {plan.name}: {plan.grades.overall}"
        yield from (f"  {change.say}" for change in plan.changes if change.say)
        yield from (f"  left {left.finding.check}" for left in plan.rest)
    yield from (f"buy {item.text}" for item in to_buy(audit, advice.plans))
    if advice.specification:
        rows = advice.specification.rows
        yield from (f"planned {row.what}: {row.specification}" for row in rows)
    yield from (f"due {duty.when}: {duty.what}" for duty in advice.duties)


def typed(path: Path) -> tuple[str, ...]:
    """Every line the keeper of a setup types, the one that asks for the audit last."""
    return talk_through(path)[2]


def counter_conversation(path: Path) -> str:
    """The same setup talked through in the counter manner."""
    interview, shown = assembly.new_interview(), io.StringIO()
    setup = setups.read(path, interview.questionnaire)
    clerk = ScriptedFace(PlainFace(io.StringIO(), shown), setup, counter=True)
    CounterTalk(interview, clerk, lambda: None, "counter").run()
    return shown.getvalue()


class _Typist(PlainFace):
    """Plain lines, and what is typed to them."""

    def __init__(self, lines: tuple[str, ...], out: io.StringIO) -> None:
        super().__init__(io.StringIO(), out)
        self._typed = iter(lines)

    def hear(self, asked: Asked) -> str:
        line = next(self._typed, None)
        if line is None:
            raise EOFError
        self.heard(line)
        return line or asked.keeps


def recheck_conversation(path: Path, lines: tuple[str, ...]) -> str:
    """The recheck of a copy, in this folder, of a setup: what was shown and what was typed."""
    copy, shown = Path(path.name), io.StringIO()
    copy.write_bytes(path.read_bytes())
    recheck(_Typist(lines, shown), copy)
    return shown.getvalue()


@cache
def audit_page(path: Path) -> str:
    """The whole audit and advice of a setup file as Markdown, on a day that stays the same."""
    audit, advice = _audited(path)
    return markdown(audit, DAY.isoformat(), advice)


@contextmanager
def _on(day: datetime.date, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The clock of the recheck stands at noon of a day."""
    noon = datetime.datetime.combine(day, datetime.time(12))

    class Then(datetime.datetime):
        @classmethod
        def now(cls, tz: datetime.tzinfo | None = None) -> Self:
            return cls.fromtimestamp(noon.timestamp(), tz)

    with monkeypatch.context() as patched:
        clock = SimpleNamespace(**{**vars(datetime), "datetime": Then})
        patched.setattr(rechecking, "datetime", clock)
        patched.setattr(history, "datetime", clock)
        patched.setattr(assembly, "advice_of", lambda audit: _advice_of(audit, day))
        yield


_advice_of = assembly.advice_of


def recheck_over_time(
    path: Path,
    sittings: Sequence[tuple[datetime.date, tuple[str, ...]]],
    monkeypatch: pytest.MonkeyPatch,
) -> str:
    """Several rechecks of a copy, in this folder, of a setup first written on `DAY`."""
    copy, shown = Path(path.name), io.StringIO()
    copy.write_bytes(path.read_bytes())
    written = DAY
    for day, lines in sittings:
        noon = datetime.datetime.combine(written, datetime.time(12)).timestamp()
        os.utime(copy, (noon, noon))
        shown.write(f"\n==== {day.isoformat()}\n\n")
        with _on(day, monkeypatch):
            recheck(_Typist(lines, shown), copy)
        written = day
    return shown.getvalue()


def assert_stored(stored: Path, text: str) -> None:
    """The stored file holds exactly this text; with UPDATE_GOLDEN=1 it is written first."""
    if os.environ.get("UPDATE_GOLDEN") == "1":
        stored.write_text(text, encoding="utf-8")
    store = f"UPDATE_GOLDEN=1 pytest {os.environ['PYTEST_CURRENT_TEST'].partition('::')[0]}"
    if not stored.exists():
        pytest.fail(f"{stored.name} is not stored yet: {store}")
    expected = stored.read_text(encoding="utf-8")
    changed = f"{stored.name} has changed. If the change is meant: {store}"
    assert text.splitlines() == expected.splitlines(), changed
    assert text == expected


def through_time(path: Path) -> str:
    """Day, year and mishaps of a setup file as an 80-column screen shows them."""
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    tank, out = assembly.tank_of(interview, drawn=True), io.StringIO()
    days, lacking = days_of(tank)
    ways = (tank.label_of, tank.system)
    blocks = (
        *day_blocks(setup.title, days, lacking, bands_of(tank), *ways),
        *year_blocks(setup.title, year_of(tank), bands_of(tank)["water"], *ways),
        *mishap_blocks(setup.title, mishaps_of(tank), lacking, *ways),
    )
    Console(file=out, width=80, color_system=None).print(block_view(blocks, width=80))
    return "".join(f"{line.rstrip()}\n" for line in out.getvalue().splitlines())
