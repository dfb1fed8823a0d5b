"""The vocabulary: its faults with file and line; a name in it needs no Python elsewhere."""

from __future__ import annotations

import importlib
import json
import re
import shutil
import sys
import textwrap
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from kept import anew

from interview import assembly, cli, setups
from interview.base.rows import FileError
from interview.core import wiring
from interview.core.structure import floor
from interview.report.before_and_after import comparison_blocks
from interview.report.blocks import Table
from interview.supposing import suppose
from interview.vocabulary import vocabulary as book
from interview.vocabulary.entries import Entry
from interview.vocabulary.faults import faults
from interview.vocabulary.vocabulary import load, vocabulary

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "transcripts_demo" / "musk_turtle.yaml"


# ---- what is wrong is told


def _loaded(folder: Path, *texts: str) -> dict[str, Entry]:
    for number, text in enumerate(texts):
        (folder / f"{number}.yaml").write_text(text, encoding="utf-8")
    return load(folder)


@pytest.mark.parametrize(
    ("texts", "wrong"),
    [
        (["ph: {range: 3 to 12}"], r"0\.yaml, line 1: ph has no unit"),
        (["ph: {unit: m, range: 3 and 12}"], r"0\.yaml, line 1: .*“3 and 12” is no range"),
        (["ph: {unit: m, range: 12 to 3}"], r"“12 to 3” is no range; write it as 0\.02 to 3"),
        (["ph: {unit: m, rang: 3 to 12}"], r"ph: unknown key “rang”; did you mean “range”"),
        (["ph: {unit: m, shown: shares}"], r"“shares”"),
        (
            ["a: {unit: m}", "b: {unit: m}\na: {unit: m}"],
            r"1\.yaml, line 2: a stands in .* already",
        ),
    ],
)
def test_a_fault_is_told_with_file_and_line(tmp_path: Path, texts: list[str], wrong: str) -> None:
    with pytest.raises(FileError, match=wrong):
        _loaded(tmp_path, *texts)


def test_names_in_an_entry_and_unused_entries_are_checked(tmp_path: Path) -> None:
    entries = _loaded(
        tmp_path,
        """
depth: {unit: m, picture: {at: water, say: "{dept} of water"}}
reading: {unit: m, void_after: [lam]}
heat: {unit: W, kept_from: readin}
""",
    )
    found = "\n".join(faults(entries, (), {"depth", "reading"}))
    assert "line 2: depth, picture, say: no quantity is called “dept”" in found
    assert "line 3: reading, void_after: no quantity is called “lam”" in found
    assert "did you mean “reading”" in found
    assert "line 4: heat is asked, assumed, computed and taken by nothing: " in found
    assert "or delete the entry" in found


@pytest.mark.parametrize(
    ("changed", "wrong"),
    [
        (None, "wall_thickness stands in no file of the vocabulary; write it there, as {unit: m"),
        (Entry(unit="kg"), r"wall_thickness is asked in [m], and the vocabulary has [kg]"),
        (
            Entry(unit="m", range="0.0005 to 0.05"),
            "wall_thickness may be answered beyond 0.05 m, where its range in the vocabulary ends",
        ),
    ],
)
def test_questions_are_held_against_the_vocabulary(changed: Entry | None, wrong: str) -> None:
    entries = {name: entry for name, entry in vocabulary().items() if name != "wall_thickness"}
    if changed:
        entries["wall_thickness"] = changed
    found = list(faults(entries, assembly.questionnaire(), {*vocabulary()}))
    assert len(found) == 1 and wrong in found[0]
    assert found[0].startswith("questions/03_tank.yaml, line ")


# ---- a new name


HEADER = """from interview.core.constants import GRAVITY
from interview.core.numeric import Num

"""


def _blocks_of_the_page() -> list[str]:
    """The indented blocks under “A quantity” in DEVELOPERS.md: the entry, then the function."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = page.split("**A quantity**", 1)[1].split("**Doubt in the model**", 1)[0]
    blocks = re.findall(r"(?:^    .*\n|^\n(?=    ))+", section, re.MULTILINE)
    return [textwrap.dedent(block).strip() + "\n" for block in blocks]


CACHES: tuple[Callable[..., Any], ...] = (
    *(book.vocabulary, book.in_table, book.in_picture, book.riding, book.kept_from),
    *(book.void_after, wiring.quantities, wiring.laws),
)


@pytest.fixture
def one_name_more(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The entry and the function that DEVELOPERS.md shows, added as it says."""
    entry, function = _blocks_of_the_page()
    folder = tmp_path / "vocabulary"
    shutil.copytree(Path(book.__file__).parent, folder)
    (folder / "more.yaml").write_text(entry, encoding="utf-8")
    monkeypatch.setattr(book, "_HERE", folder)
    path = tmp_path / "of_the_page.py"
    path.write_text(HEADER + function, encoding="utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))
    edge_load = importlib.import_module("of_the_page").edge_load
    monkeypatch.setattr(assembly, "audit_of", anew)  # none that was made without it
    monkeypatch.setattr(floor, "edge_load", edge_load, raising=False)
    monkeypatch.setattr(floor, "QUANTITIES", [*floor.QUANTITIES, "edge_load"])
    _forget()
    yield
    monkeypatch.undo()
    sys.modules.pop("of_the_page", None)
    _forget()


def _forget() -> None:
    for cached in CACHES:
        cached.cache_clear()  # type: ignore[attr-defined]


def _said(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert cli.main([*words]) in (0, 1)
    return capsys.readouterr().out


@pytest.mark.usefixtures("one_name_more")
def test_a_new_quantity_reaches_figures_what_if_reckon_and_explain(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """One entry and one function: nothing else in Python knows the name."""
    assert [text for text in assembly.faults() if "edge_load" in text] == []

    page = _said(capsys, "audit", str(DEMO), "--format", "markdown")
    assert "Load on the long edge" in page
    assert "edge carries " in page

    found = json.loads(_said(capsys, "audit", str(DEMO), "--json"))["quantities"]["edge_load"]
    assert found["unit"] == "N/m" and found["how"] == "computed"
    assert found["low"] < found["value"] < found["high"]

    fuller = json.loads(
        _said(capsys, "audit", str(DEMO), "--json", "--suppose", "water_line_below_rim=2cm")
    )
    assert fuller["quantities"]["edge_load"]["value"] > found["value"]

    sum_ = _said(capsys, "reckon", "edge_load", "filled_mass=200", "tank_length=1", "--json")
    assert json.loads(sum_)["value"] == pytest.approx(1961.33)
    assert "weight over length" in _said(capsys, "explain", str(DEMO), "edge_load")


@pytest.mark.usefixtures("one_name_more")
def test_a_new_quantity_stands_in_what_if() -> None:
    """Before and after, as a keeper who asks what if is shown them."""
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(DEMO, assembly.questionnaire()))
    before = assembly.audit_of(interview, "today")
    after = suppose(before, interview.given(), {"water_line_below_rim": 0.02})
    tables = [b for b in comparison_blocks(before, after) if isinstance(b, Table)]
    (row,) = [row for table in tables for row in table.rows if row[0] == "Load on the long edge"]
    assert row[1] != row[2]
