"""What is worked out while the keeper reads: the very same audit, and never a lost answer."""

from __future__ import annotations

import subprocess
import sys
import threading
from typing import Any

import pytest
from fakes import demo, talk

from interview import assembly
from interview.chat.pace.ahead import Ahead
from interview.chat.pace.upkeep import Answers, Upkeep
from interview.graph.interview import Place


class _Counted:
    """Stands for `assembly.audit_of`: counts, and waits until it is let go."""

    def __init__(self) -> None:
        self.made: list[tuple[str, int]] = []
        self.go = threading.Event()
        self.go.set()
        self._real = assembly.audit_of

    def __call__(self, interview: Any, title: str) -> Any:
        self.made.append((interview.given()["heat_lamp_height"].said, threading.get_ident()))
        assert self.go.wait(30)
        return self._real(interview, title)


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> _Counted:
    counted = _Counted()
    monkeypatch.setattr(assembly, "audit_of", counted)
    return counted


def test_the_audit_that_was_begun_is_taken(counted: _Counted) -> None:
    interview, ahead = demo("musk_turtle"), Ahead()
    ahead.begin(interview)
    ahead.begin(interview)
    audit = ahead.audit(interview, "A title")
    assert audit.title == "A title"
    assert ahead.audit(interview, "Another").findings == audit.findings
    assert len(counted.made) == 1
    assert counted.made[0][1] != threading.get_ident()


def test_another_answer_is_never_judged_by_an_old_audit(counted: _Counted) -> None:
    """The answer changes while the old ones are still judged."""
    interview, ahead = demo("musk_turtle"), Ahead()
    counted.go.clear()
    ahead.begin(interview)
    interview.record(Place("heat_lamp_height"), "40 cm")
    counted.go.set()
    audit = ahead.audit(interview, "")
    assert audit.figures["heat_lamp_height"].value == pytest.approx(0.40)
    assert [said for said, _ in counted.made][-1] == "40 cm"
    assert len(counted.made) == 2


def test_what_goes_wrong_in_the_background_comes_up_in_the_open(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    def fails(interview: Any, title: str) -> Any:
        raise ZeroDivisionError

    monkeypatch.setattr(assembly, "audit_of", fails)
    interview, ahead = demo("musk_turtle"), Ahead()
    ahead.begin(interview)
    with pytest.raises(ZeroDivisionError):
        ahead.audit(interview, "")
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("live", [True, False])
def test_it_is_begun_at_the_review_where_somebody_reads(
    live: bool, counted: _Counted, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[Any] = []
    begin = Ahead.begin
    monkeypatch.setattr(
        Ahead, "begin", lambda self, interview: begun.append(1) or begin(self, interview)
    )
    held = talk(
        ["what if the lamp is 5 cm higher", "what if the lamp is 6 cm higher", "stop"],
        demo("musk_turtle"),
        live=live,
    )
    assert held.left is not None
    assert len(held.face.compared) == 2
    assert len(begun) == live
    assert len(counted.made) == 1  # one audit of the tank as it is serves both


def test_answers_judged_as_they_come_give_the_findings_of_a_fresh_look() -> None:
    """Of several turtles: a shell, a reading, a word and one that doesn't fit, each changed."""
    interview, ahead = demo("painted_turtles_classroom"), Ahead()
    for place, said in (
        (Place("room_temperature_high"), "33 °C"),
        (Place("carapace_length", 1), "18 cm"),
        (Place("cover_water"), "glass"),
        (Place("basking_temperature"), "20 °C"),
    ):
        interview.record(place, said)
        ahead._upkeep.begin(Answers(interview.given(), interview.system))
        judged = ahead.judged(interview)
    fresh = assembly.judged_of(interview)
    assert judged.findings == fresh.findings and judged.grades == fresh.grades
    assert judged.tank.sample.known.keys() == fresh.tank.sample.known.keys()


def test_what_goes_wrong_while_answers_come_comes_up_in_the_open(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    def fails(*_: Any, **__: Any) -> Any:
        raise ZeroDivisionError

    interview, upkeep = demo("musk_turtle"), Upkeep()
    monkeypatch.setattr(assembly, "tank_of", fails)
    upkeep.begin(Answers(interview.given(), interview.system))
    assert upkeep.ended() is None
    assert capfd.readouterr() == ("", "")


def test_nothing_is_left_to_load_at_the_end() -> None:
    """After what is loaded in the background only a format is; no data file is read any more."""
    program = """
import sys
from contextlib import nullcontext
from interview import assembly, setups
from interview.base.places import demo_folder
made = assembly.new_interview()
setups.fill(made, setups.read(demo_folder() / "musk_turtle.yaml", made.questionnaire))
assembly.warm()
assembly.warm_for_audit()
before = {*sys.modules}
from interview.base.rows import lines
lines._parsed = None
from interview.report.formats.plain import block_lines
from interview.report.page.coming import Coming
audit = assembly.audit_of(made, "")
next(assembly.advice_in_steps(audit, awaited=True))
list(block_lines(Coming(audit, iter(()))._page(nullcontext)))
new = {name for name in {*sys.modules} - before if name.startswith("interview.")}
print(sorted({".".join(name.split(".")[:2]) for name in new}))
"""
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout == "['interview.report']\n"
