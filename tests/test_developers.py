"""DEVELOPERS.md to the letter: what it shows is put where it says, in a copy of the tree.

The quantity alone and the output format have tests of their own (test_vocabulary.py and
report/test_formats.py); here all that a new judgement needs is added, and the program is asked.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from interview.audit.checks.rows import CheckRow
from interview.care.facts import Fact
from interview.graph.question_rows import UNITS, QuestionRow

ROOT = Path(__file__).parent.parent
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NOT_COPIED = shutil.ignore_patterns("__pycache__")


def _section(title: str) -> str:
    """What the page says under a bold title, up to the next one."""
    return PAGE.split(f"**{title}**", 1)[1].split("\n**", 1)[0]


def _blocks(title: str) -> list[str]:
    """The indented blocks of a section."""
    found = re.findall(r"(?:^    .*\n|^\n(?=    ))+", _section(title), re.MULTILINE)
    return [textwrap.dedent(block).strip("\n") + "\n" for block in found]


def _inline(title: str, name: str) -> str:
    """A row that stands in the running text, as `name: {…}`, on one line."""
    (row,) = re.findall(rf"`({name}: \{{[^`]*\}})`", _section(title))
    return " ".join(str(row).split()) + "\n"


class Clone:
    """A copy of what the program is made of, and what it prints."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        for part in ("interview", "questions", "transcripts_demo"):
            shutil.copytree(ROOT / part, folder / part, ignore=NOT_COPIED)

    def append(self, file: str, text: str) -> None:
        """Add rows at the end of a file that is there already."""
        path = self.folder / file
        path.write_text(path.read_text(encoding="utf-8").rstrip() + "\n\n" + text, "utf-8")

    def replace(self, file: str, old: str, new: str) -> None:
        path = self.folder / file
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, (file, old)
        path.write_text(text.replace(old, new), encoding="utf-8")

    def append_code(self, file: str, name: str, code: str) -> None:
        """Add a function at the end of a module, and its name to `__all__`."""
        path = self.folder / file
        text = path.read_text(encoding="utf-8").rstrip()
        text = re.sub(r"__all__ = \[", f'__all__ = [\n    "{name}",', text, count=1)
        header, _, rest = text.partition("from interview.core.numeric import")
        path.write_text(
            f"{header}from interview.core.constants import GRAVITY\n"
            f"from interview.core.numeric import{rest}\n\n\n{code}",
            encoding="utf-8",
        )

    def run(self, *arguments: str) -> str:
        done = subprocess.run(
            [sys.executable, "-m", "interview", *arguments],
            cwd=self.folder,
            capture_output=True,
            encoding="utf-8",
            env={"PATH": "", "PYTHONPATH": str(self.folder), "LC_ALL": "C.UTF-8"},
            check=False,
        )
        assert done.returncode in (0, 1), done.stdout + done.stderr
        return done.stdout


@pytest.fixture(scope="module")
def clone(tmp_path_factory: pytest.TempPathFactory) -> Clone:
    """The copy with the page's quantity, question, limit, check and species."""
    clone = Clone(tmp_path_factory.mktemp("clone"))
    entry, function = _blocks("A quantity")
    (question,), (check,), (species,) = (
        _blocks(title) for title in ("A question", "A check", "A species")
    )
    clone.append("interview/vocabulary/structure.yaml", entry)
    clone.append("interview/vocabulary/structure.yaml", _inline("A question", "mat_under_tank"))
    clone.append_code("interview/core/structure/weight.py", "edge_load", function)
    clone.append("questions/04_stand_floor.yaml", textwrap.indent(question, "  "))
    clone.replace("interview/care/facts.py", "_UNITS = {", '_UNITS = {"N/m", ')
    clone.append("interview/care/limits/structure.yaml", _inline("A check", "edge_load_good"))
    clone.append("interview/audit/checks/structure.yaml", textwrap.indent(check, "  "))
    clone.append("interview/care/species/profiles/4_old_world_pond_turtles.yaml", species)
    return clone


def test_nothing_that_the_page_shows_has_a_fault(clone: Clone) -> None:
    assert "No faults" in clone.run("questions", "--check")


def test_the_audit_computes_judges_and_asks_what_was_added(clone: Clone) -> None:
    path = "transcripts_demo/musk_turtle.yaml"
    tree = json.loads(clone.run("audit", path, "--json"))
    found = {finding["check"]: finding for finding in tree["findings"]}
    assert tree["quantities"]["edge_load"]["unit"] == "N/m"
    assert found["edge"]["verdict"] in ("good", "wrong", "close")
    assert "N/m" in found["edge"]["say"]
    supposed = clone.run("audit", path, "--plain", "--suppose", "mat_under_tank=no")
    assert "stands on bare wood" in supposed
    assert "Does a soft mat lie between tank and stand?" in clone.run("questions")


def test_a_sister_is_known_by_name_and_lives_like_her_sister(clone: Clone) -> None:
    text = (clone.folder / "transcripts_demo/river_cooter_adult.yaml").read_text(encoding="utf-8")
    assert text.count("species: river cooter") == 1
    setups = {}
    for name in ("Sicilian pond turtle", "European pond turtle"):
        path = clone.folder / f"{name.split()[0]}.yaml"
        moved = re.sub(r"\n  region: .*", "\n  region: australia", text)
        assert moved.count("region: australia") == 1
        path.write_text(moved.replace("species: river cooter", f"species: {name}"), "utf-8")
        tree = json.loads(clone.run("audit", str(path), "--json"))
        setups[name] = tree["quantities"]
        (law,) = (one for one in tree["findings"] if one["check"] == "invasive_law")
        assert law["verdict"] == "close", "no kind is free of the law by not being named"
    new, sister = setups.values()
    assert new["target_water_temperature"] == sister["target_water_temperature"]
    assert new["shell_height"]["value"] == pytest.approx(sister["shell_height"]["value"])


def test_a_sister_that_no_rule_of_company_names_stands_as_her_sister(clone: Clone) -> None:
    two = "from interview.core.animal.company import company_severity as c; print("
    two += "*(c((k, k), ('male', 'male'), [0.13, 0.13]) for k in ('emys_trinacris',"
    two += " 'emys_orbicularis', 'pelusios_castaneus')))"
    done = subprocess.run(
        [sys.executable, "-c", two], cwd=clone.folder, capture_output=True, text=True, check=True
    )
    new, sister, named_for_herself = done.stdout.split()
    assert new == sister == "3.0" and named_for_herself != "3.0"


def test_a_format_with_a_file_of_its_own_is_written_and_written_over(
    clone: Clone, tmp_path: Path
) -> None:
    (outline,) = _blocks("An output format")
    begun = outline.replace('return "".join(', 'return "Outline of a tank\\n" + "".join(')
    (clone.folder / "interview/report/formats/outline.py").write_text(
        f'"""Headings."""\n\n{begun}', encoding="utf-8"
    )
    file = _section("A format that is written to a file")
    registered = " ".join(re.findall(r"`(register\([^`]*\))`", file)[0].split())
    clone.append("interview/report/formats/register.py", registered + "\n")
    out = tmp_path / "out.txt"
    for _ in range(2):
        clone.run("audit", "transcripts_demo/mud_turtle_settled.yaml", "--outline", str(out))
        assert out.read_text("utf-8").startswith("Outline of a tank\n")


FILE_NAMED = re.compile(
    r"(?<![\w/])((?:interview|questions|tests|transcripts_demo|\.ci|\.github)/[\w./]*\w/?)(?![\w*{])"
)
BARE_NAME = re.compile(r"`(?:[a-z_]+/)*([a-z_]+\.(?:py|yaml|md))`")
PAGES = ("DEVELOPERS.md", "tests/README.md", "tests/RESULTS.md")


@pytest.mark.parametrize("page", PAGES)
def test_every_file_that_a_page_names_is_there(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    named = set(FILE_NAMED.findall(text))
    assert len(named) > (25 if page == "DEVELOPERS.md" else 5)
    assert {name for name in named if not (ROOT / name.rstrip(".")).exists()} == set()
    parts = ("interview", "questions", "tests", "transcripts_demo")
    there = {path.name for part in parts for path in (ROOT / part).rglob("*.*")}
    there |= {path.name for path in ROOT.glob("*.*")}
    assert set(BARE_NAME.findall(text)) - there - {"outline.py"} == set()


TABLES: dict[str, type] = {
    "key of a check": CheckRow,
    "key of a question": QuestionRow,
    "key of a limit or assumption": Fact,
}


@pytest.mark.parametrize("title", TABLES)
def test_the_tables_hold_every_key_of_their_rows(title: str) -> None:
    table = PAGE.split(f"| {title} |", 1)[1].split("\n\n", 1)[0]
    cells = re.findall(r"^\| (`[^|]*) \|", table, re.MULTILINE)
    keys = [key for cell in cells for key in re.findall(r"`(\w+)`", cell)]
    assert sorted(keys) == sorted({*TABLES[title].__struct_fields__} - {"where", "key"})


def test_the_types_of_questions_are_all_named() -> None:
    (types,) = re.findall(r"^\| `type` \| (.*) \|$", PAGE, re.MULTILINE)
    assert re.split(r", | or ", types) == list(UNITS)
