"""The answers in words, numbers as sentences, what hangs under what, and the order of the page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from kept import for_each_audit
from report_tanks import DEMOS, audit_at
from rich.console import Console

from interview import assembly, setups
from interview.audit.audit import Audit
from interview.audit.figures import Figures
from interview.report.blocks import Block, Drawing, Heading, Items, Paragraph, Table
from interview.report.fitting import wrapped
from interview.report.formats.plain import block_lines
from interview.report.formats.terminal import block_view
from interview.report.page.whole import page_of


@for_each_audit
def _page(audit: Audit) -> tuple[Block, ...]:
    return tuple(page_of(audit))


def _answers(audit: Audit) -> dict[str, str]:
    """Those with an error from their table, those in words from the sentence under it."""
    blocks = _page(audit)
    table = next(b for b in blocks if isinstance(b, Table) and b.columns[0] == "Question")
    words = next(b for b in blocks if isinstance(b, Paragraph) and b.text.startswith("Besides: "))
    told = words.text.removeprefix("Besides: ").rstrip(".").split("; ")
    found = {question: answer for question, answer, _ in table.rows}
    return found | {q: a for q, _, a in (part.partition(": ") for part in told)}


def test_a_choice_typed_as_a_number_is_shown_in_words(tmp_path: Path) -> None:
    text = (DEMOS / "musk_turtle.yaml").read_text(encoding="utf-8")
    text = re.sub(r"(?m)^  stand: .*$", "  stand: '2'", text)
    text = re.sub(r"(?m)^  rcd: .*$", "  rcd: not sure", text)
    path = tmp_path / "coded.yaml"
    path.write_text(text, encoding="utf-8")
    answers = _answers(audit_at(path))
    assert answers["Stand"] == "furniture"
    assert answers["RCD"] == "no (assumed: not sure)"


def test_what_nobody_said_is_shown_with_its_assumption(demos: dict[str, Audit]) -> None:
    for audit in demos.values():
        assert not {"not sure", "not asked"} & {*_answers(audit).values()}
    musk = _answers(demos["musk_turtle"])
    assert musk["Wall material"] == "glass (assumed: not asked)"
    assert musk["Tank size outside"] == "100 x 40 x 40 cm"


def test_ranges_name_their_unit_once(demos: dict[str, Audit]) -> None:
    for audit in demos.values():
        tables = [b for b in _page(audit) if isinstance(b, Table)]
        rows = {row[0]: row for b in tables if b.columns[0] == "What" for row in b.rows}
        low = rows["Water volume"][2].partition(" to ")[0]
        assert low.replace(".", "").isdigit()


@pytest.mark.parametrize("whole", [True, False])
def test_the_tank_is_drawn_once_on_the_first_page(demos: dict[str, Audit], whole: bool) -> None:
    for audit in demos.values():
        blocks = _page(audit) if whole else tuple(page_of(audit, whole=False))
        assert sum(isinstance(b, Drawing) for b in blocks) <= 1
        heads = [n for n, b in enumerate(blocks) if isinstance(b, Heading)]
        ends = heads[1] if whole else len(blocks)
        assert not [n for n, b in enumerate(blocks) if isinstance(b, Drawing) and n > ends]


# ---- dress

_PLAN: tuple[Block, ...] = (
    Items(
        tuple((f"Plug the tank into a {'very ' * 20}safe socket.", ()) for _ in range(12)),
        numbered=True,
    ),
)


@pytest.mark.parametrize("width", [60, 80, 120])
def test_a_long_step_hangs_under_its_first_word(width: int) -> None:
    console = Console(width=width, color_system=None, force_terminal=False)
    with console.capture() as capture:
        console.print(block_view(_PLAN, width=width))
    lines = capture.get().splitlines()
    assert max(map(len, lines)) <= width
    first = [n for n, line in enumerate(lines) if "." in line[:6]]
    assert len(first) == 12 and len(lines) > 12
    for n, line in enumerate(lines):
        if n not in first:
            start = lines[max(m for m in first if m < n)].index("P")
            assert line[:start].isspace() and line[start] != " "


def test_a_long_step_hangs_in_plain_lines_too() -> None:
    for line in block_lines(_PLAN):
        assert re.match(r" {5}|  \d+\. P", line), line


def test_a_row_read_aloud_is_a_sentence() -> None:
    table = Table(
        ("What", "Value", "Likely range"),
        (("Water volume", "32.3 gal", "30 to 34 gal"), ("UV index", "0", "–")),
    )
    assert list(block_lines([table])) == [
        "  Water volume 32.3 gal, likely 30 to 34 gal.",
        "  UV index 0.",
    ]
    turned = Table(("What", "Before", "Now"), (("Heat loss", "50 W", "60 W"),))
    assert list(block_lines([turned])) == ["  Heat loss: 50 W before, 60 W now."]
    due = Table(("When", "What"), (("every day", "Look at the animal."),))
    assert list(block_lines([due])) == ["  Every day: Look at the animal."]


def test_a_fraction_of_an_inch_is_never_parted() -> None:
    for width in range(8, 40):
        for line in wrapped("Hang the lamp 10 1/4 in over the platform, no lower.", width):
            assert not line.endswith(("10", "1/4"))


def test_a_figure_is_worked_out_when_somebody_looks_at_it() -> None:
    """All of them took a third of an audit, and a grade needs few."""
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(DEMOS / "musk_turtle.yaml", interview.questionnaire))
    tank = assembly.tank_of(interview, drawn=True)
    figures = Figures(interview.given(), tank)
    assert "warm_up_time" in figures and len(figures) == len(list(figures)) > 150
    assert "species" not in figures
    assert not tank.best._done and not tank.sample._done
    volume = figures["water_volume"]
    assert volume.low < volume.value < volume.high and figures["water_volume"] is volume
    assert "water_volume" in tank.sample._done and "warm_up_time" not in tank.sample._done
    assert figures["tank_length"].how == "measured" and figures.get("no_such_name") is None
