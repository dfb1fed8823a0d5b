"""The reader of data files: typed rows, or every fault with file, line and a remedy."""

from __future__ import annotations

import doctest
import subprocess
import sys
from pathlib import Path
from typing import Annotated, Any, ClassVar, Literal

import pytest

from interview.base import rows
from interview.base.conditions import Condition, Predicate
from interview.base.rows import Amount, FileError, Names, Row, Said, WrongKey, read, unknown_names


class Reach(Row):
    step: Amount
    reach: Amount


class Lever(Row):
    EXAMPLE: ClassVar[str] = "{lever: day_length, cost: free, say: …}"

    lever: str
    cost: Literal["free", "cheap", "buy"]
    say: Annotated[str, Names("quantity", inside=True)]
    of: tuple[Said, ...] = ()
    around: Reach | None = None
    bother: float = 0.0
    tries: int = 1
    choosy: bool = False
    relevant: Condition | None = None
    keeps: Predicate | None = None
    checks: tuple[Annotated[str, Names("check")], ...] = ()
    renewed: dict[Annotated[str, Names("quantity")], Said] = {}  # noqa: RUF012

    def __post_init__(self) -> None:
        if self.bother < 0:
            raise WrongKey("bother", f"{self.bother:g} is below zero; write 0 for no bother")


WHOLE = """\
- lever: day_length
  cost: free
  say: Light the tank
    for {value} a day.
  of: [12 hour, yes, 2, [sharp, tippable]]
  around: {step: 1 cm, reach: 30 cm}
  bother: 1
  relevant: lamp_timer is given
  keeps: at least 3 cm
  checks: [escape]
  renewed:
    uvb_lamp_age: 0 hour
"""


def _read(tmp_path: Path, text: str) -> tuple[Lever, ...]:
    path = tmp_path / "levers.yaml"
    path.write_text(text, encoding="utf-8")
    return read(path, tuple[Lever, ...])


def test_the_example_in_the_docstring() -> None:
    assert doctest.testmod(rows).failed == 0


def test_a_file_becomes_rows(tmp_path: Path) -> None:
    (lever,) = _read(tmp_path, WHOLE)
    assert lever.say == "Light the tank for {value} a day."
    assert [said.to("s") for said in lever.of] == [43200.0, True, 2.0, ("sharp", "tippable")]
    assert lever.around is not None
    assert lever.around.reach.to("m") == 0.3
    assert (lever.around.where.line, lever.where.line_of("renewed")) == (6, 11)
    assert lever.bother == 1.0
    assert lever.keeps is not None
    assert lever.keeps.about("water_depth") == Condition.read("water_depth at least 3 cm")
    assert (lever.where.path.name, lever.where.line) == ("levers.yaml", 1)
    assert lever == _read(tmp_path, "\n\n" + WHOLE)[0]  # where a row stands is no difference


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("cost: free", "costs: free", "2: day_length: unknown key “costs”; "
         "did you mean “cost”?"),
        ("  cost: free\n", "", "1: day_length has no cost; a whole one is "
         "{lever: day_length, cost: free, say: …}"),
        ("cost: free", "cost: fre", "2: day_length, cost: “fre” is none of free, cheap, buy; "
         "did you mean “free”?"),
        ("reach: 30 cm", "reach: far", "6: day_length, around, reach: “far” is no amount; "
         "write a number and its unit, as “30 cm”"),
        ("reach: 30 cm", "reech: 30 cm", "6: day_length, around: unknown key “reech”; "
         "did you mean “reach”?"),
        ("bother: 1", "bother: much", "7: day_length, bother: “much” is no number; "
         "write it as 0.25 or 1.5e+6"),
        ("bother: 1", "bother: yes", "7: day_length, bother: “yes” is no number; "
         "write it as 0.25 or 1.5e+6"),
        ("bother: 1", "bother: -1", "7: day_length, bother: -1 is below zero; "
         "write 0 for no bother"),
        ("bother: 1", "tries: 1.5", "7: day_length, tries: “1.5” is no whole number; "
         "write it as 3"),
        ("bother: 1", "choosy: 2", "7: day_length, choosy: “2” is neither yes nor no"),
        ("lamp_timer is given", "lamp_timer maybe", "8: day_length, relevant: "
         "can't read the condition “lamp_timer maybe”"),
        ("lamp_timer is given", "3", "8: day_length, relevant: "
         "a condition is a sentence, not “3”"),
        ("checks: [escape]", "checks: escape", "10: day_length, checks: “escape” must be a list, "
         "as [escape]"),
        ("checks: [escape]", "checks: [1]", "10: day_length, checks: “1” is no text; "
         "put it in quotation marks"),
        ("around: {step: 1 cm, reach: 30 cm}", "around: 30 cm", "6: day_length, around: “30 cm” "
         "must be a mapping, as {step: …, reach: …}"),
        ("0 hour", "{}", "12: day_length, renewed, uvb_lamp_age: “{}” is no answer; write it as "
         "typed at the question, as “30 cm”"),
        ("renewed:\n    uvb_lamp_age: 0 hour", "renewed: soon", "11: day_length, renewed: “soon” "
         "must be a mapping, as {name: …}"),
        ("lever: day_length\n", "where: here\n", "1: number 1: unknown key “where”; "
         "there are lever, cost, say, of,"),
        ("of: [", "cost: buy\n  of: [", "5: “cost” stands here a second time"),
        ("- lever: day_length", "- day_length:\n  lever: x", "1: x: unknown key “day_length”"),
    ],
)  # fmt: skip
def test_each_fault_has_file_line_and_remedy(
    tmp_path: Path, old: str, new: str, fault: str
) -> None:
    assert old in WHOLE
    with pytest.raises(FileError) as refused:
        _read(tmp_path, WHOLE.replace(old, new, 1))
    assert str(refused.value).startswith(f"levers.yaml, line {fault}")
    assert str(refused.value) == refused.value.faults[0]


def test_all_faults_of_a_file_are_told_at_once(tmp_path: Path) -> None:
    broken = WHOLE.replace("cost: free", "cots: free").replace("bother: 1", "bother: x")
    with pytest.raises(FileError) as refused:
        _read(tmp_path, broken + "- 3\n")
    assert [fault.partition(":")[0] for fault in refused.value.faults] == [
        "levers.yaml, line 2",
        "levers.yaml, line 1",
        "levers.yaml, line 7",
        "levers.yaml, line 1",
    ]


@pytest.mark.parametrize("text", ["", "lever: x", "3", "- [a]", "[1: 2: 3", "{a: {b: [}}"])
def test_what_is_no_list_of_rows_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(FileError, match=r"^levers\.yaml, line \d+: "):
        _read(tmp_path, text)


@pytest.mark.parametrize(
    ("said", "unit"),
    [("30 cmm", "m"), ("30 cm", "degC"), ("30 degC", "m"), ("5 L", "1"), ("3 [m]", "m"), ("", "m")],
)
def test_an_amount_in_a_wrong_unit_says_what_to_write(said: str, unit: str) -> None:
    with pytest.raises(ValueError, match=r"write (it|a number and its unit,) as “?\d+"):
        Amount(said).to(unit)


# SI Brochure, 9th edition: 1 h = 3600 s; exact inch and gallon of NIST Handbook 44, appendix C
@pytest.mark.parametrize(
    ("said", "unit", "value"),
    [("30 cm", "m", 0.3), ("1 inch", "m", 0.0254), ("2 hour", "s", 7200.0), ("-2 cm", "m", -0.02),
     ("1 gallon", "m**3", 0.003785411784), ("77 degF", "degC", 25.0), (3, "m", 3.0), ("4", "1", 4)],
)  # fmt: skip
def test_an_amount_in_core_units(said: Any, unit: str, value: float) -> None:
    assert Amount(said).to(unit) == pytest.approx(value, rel=1e-12)


def test_an_answer_is_turned_into_the_unit_of_its_question() -> None:
    assert Said("ceramic").to("choice") == "ceramic"
    assert Said(False).to("yes/no") is False
    assert Said(["sharp", "tippable"]).to("choice") == ("sharp", "tippable")
    with pytest.raises(ValueError, match="“ceramic” is no amount"):
        Said("ceramic").to("m")


def test_names_that_do_not_exist_are_found_by_one_walk(tmp_path: Path) -> None:
    levers = _read(tmp_path, WHOLE)
    assert list(unknown_names(levers, {})) == []
    assert list(
        unknown_names(
            levers,
            {"check": ["escapes"], "quantity": ["value", "uvb_lamp_aged"]},
        )
    ) == [
        "levers.yaml, line 8: day_length, relevant: no quantity is called “lamp_timer”",
        "levers.yaml, line 10: day_length, checks: no check is called “escape”; "
        "did you mean “escapes”?",
        "levers.yaml, line 11: day_length, renewed: no quantity is called “uvb_lamp_age”; "
        "did you mean “uvb_lamp_aged”?",
    ]


def test_kinds_are_learnt_by_one_thread_at_a_time() -> None:
    """Two threads that read a kind for the first time ended the program with a segmentation fault.

    The talk met it once in some hundred starts: it and what warms it up read the vocabulary.
    """
    program = Path(__file__).parent / "reads_at_once.py"
    done = subprocess.run(
        [sys.executable, str(program)], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (0, "2000\n"), done.stderr
