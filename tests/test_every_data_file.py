"""Every data file that ships, broken in several ways in a copied tree: the check tells."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PARTS = ("interview", "questions", "transcripts_demo")


def _beside(key: str, indent: int) -> dict[str, tuple[str, str]]:
    """A key that isn't known, and one that stands twice, where `key` stands so far in."""
    space = " " * indent
    return {
        "unknown key": (rf"\n{space}({key}: )", rf"\n{space}xyzzy: 1\n{space}\1"),
        "a key twice": (rf"\n({space}{key}: .*)", r"\n\1\n\1"),
    }


# What is replaced by what, once, in each file of a group; groups hold no name twice, and no
# file that another of them rests on. A missing key is told at its row, an unknown name at the
# latest there, all else at its own line.
CARE = {
    "unknown key": (r"\n(\w+):\n  (\w)", r"\n\1:\n  xyzzy: 1\n  \2"),
    "text for a number": (r"value: [\d.e+-]+", "value: much"),
    "missing key": (r"\n  status: .*", ""),
    "wrong unit": (r"unit: [^\n,}]+", "unit: cmm"),
    "unknown name": (r"source: \w+", "source: a_friend"),
    "a key twice": (r"\n(  \w+: .*)", r"\n\1\n\1"),
}
FLOW = {
    "unknown key": (r"\{(\w+:)", r"{xyzzy: 1, \1"),
    "text for a number": (r"(value|low|high|spread|factor): [\d.e+-]+", r"\1: much"),
    "missing key": (r"\{([^{}]*), status: \w+", r"{\1"),
    "wrong unit": (r"unit: [^\n,}]+", "unit: cmm"),
    "unknown name": (r"source: \w+", "source: a_friend"),
    "a key twice": (r", status: (\w+)", r", status: \1, status: \1"),
}
PROFILES = {**FLOW, "unknown key": (r"\n(  \w+: )", r"\n  xyzzy: 1\n\1")}
SIZES = {
    "unknown key": FLOW["unknown key"],
    "text for a number": (r"wall: \d+", "wall: thick"),
    "missing key": (r", wall: \d+", ""),
    "wrong unit": (r"unit: in", "unit: inn"),
    "unknown name": (r"source: \w+", "source: a_friend"),
    "a key twice": (r", wall: (\d+)", r", wall: \1, wall: \1"),
}
MEDIA = {**CARE, "text for a number": (r"low: \d+", "low: little")}
VOCABULARY = {
    "unknown key": FLOW["unknown key"],
    "text for a number": (r"range: [^\n,}]+", "range: much"),
    "missing key": (r"\{unit: [^\n,}]+, ", "{"),
    "a key twice": (r"\{(unit: [^\n,}]+)", r"{\1, \1"),
}
QUESTIONS = {
    "unknown key": (r"\n    (type: )", r"\n    xyzzy: 1\n    \1"),
    "text for a number": (r"\n    label: .*", r"\n    label: 3"),
    "missing key": (r"\n    short: .*", ""),
    "wrong unit": (r"\n    type: (\w+)", r"\n    type: \1\n    unit: cmm"),
    "unknown name": (r"\n    relevant: \w+", r"\n    relevant: xyzzy"),
    "a key twice": (r"\n    (short: .*)", r"\n    \1\n    \1"),
}
CHECKS = {
    "unknown key": (r"\n    (claim: )", r"\n    xyzzy: 1\n    \1"),
    "text for a number": (r"\n    weight: \d", r"\n    weight: much"),
    "missing key": (r"\n    weight: \d", ""),
    "unknown name": (r"\n    measures: \w+", r"\n    measures: xyzzy"),
    "a key twice": (r"\n    (weight: .*)", r"\n    \1\n    \1"),
}
ROWS = {
    "unknown key": (r"\n- (\w+: .*)", r"\n- \1\n  xyzzy: 1"),
    "a key twice": (r"\n- (\w+: .*)", r"\n- \1\n  \1"),
}
TOP = {
    "unknown key": (r"\n(\w+:)", r"\nxyzzy: 1\n\1"),
    "a key twice": (r"\n(\w+):", r"\n\1: x\n\1:"),
}
LEVERS = {
    **_beside("cost", 4),
    "text for a number": (r"bother: [\d.]+", "bother: much"),
    "missing key": (r"\n    cost: \w+", ""),
    "wrong unit": (r"reach: 30 cm", "reach: 30 cmm"),
    "unknown name": (r"\n    relevant: \w+", r"\n    relevant: xyzzy"),
}
DEMO = {
    "unknown key": (r"\nanswers:", r"\nxyzzy: 1\nanswers:"),
    "text for a number": (r"\n  water_line_below_rim: .*", r"\n  water_line_below_rim: much"),
    "wrong unit": (r"\n  water_line_below_rim: .*", r"\n  water_line_below_rim: 11 cmm"),
    "unknown name": (r"\n  (stage: )", r"\n  xyzzy: 1\n  \1"),
    "a key twice": (r"\n  (stage: .*)", r"\n  \1\n  \1"),
}
COMPANY = {
    **_beside("severity", 4),
    "text for a number": (r"least: [\d.]+", "least: much"),
    "missing key": (r"\n    severity: \w+", ""),
    "unknown name": (r"source: \w+", "source: a_friend"),
}
MISHAPS = {
    **_beside("season", 4),
    "text for a number": (r"starts: \d+ hour", "starts: early"),
    "missing key": (r"\n    season: \w+", ""),
    "unknown name": (r"source: \w+", "source: a_friend"),
}
GROUPS = (
    {"interview/care/bibliography.yaml": {"a key twice": (r"\n(\w+):", r"\n\1: x\n\1:"),
                                          "unknown key": (r"\n(\w+): .*", r"\n\1: [x]")}},
    {"interview/vocabulary/*.yaml": VOCABULARY},
    {
        "interview/care/assumptions/*.yaml": CARE,
        "interview/care/doubts.yaml": FLOW,
        "interview/care/lamps.yaml": FLOW,
        "interview/care/media.yaml": MEDIA,
        "interview/care/company.yaml": COMPANY,
        "interview/care/tank_sizes.yaml": SIZES,
        "interview/care/mishaps.yaml": MISHAPS,
        "interview/audit/sampling/sobol_dimensions.yaml": {
            "unknown key": (r"\nnames:", r"\nxyzzy: 1\nnames:"),
            "text for a number": (r"\nnames:\n  - \w+", r"\nnames:\n  - 3"),
            "missing key": (r"\nof_animals:\n(  - .*\n)+", r"\n"),
            "a key twice": (r"\nof_animals:", r"\nof_animals: [x]\nof_animals:"),
        },
        "interview/graph/order/worth.yaml": {
            **_beside("harm", 2),
            "text for a number": (r"harm_at_counter: [\d.]+", "harm_at_counter: much"),
            "missing key": (r"\n  harm_at_counter: .*", ""),
        },
        "interview/graph/order/together.yaml": {
            **_beside("label", 2),
            "text for a number": (r"ask: \[\w+, ", "ask: [3, "),
            "missing key": (r"\n  hint: .*", ""),
        },
        "interview/graph/order/look_round.yaml": {
            **_beside("label", 2),
            "text for a number": (r"items:\n    - ", "items: 3\n    - "),
            "missing key": (r"\n  hint: .*", ""),
        },
        "interview/care/species/*.yaml": FLOW,
        "interview/care/species/profiles/*.yaml": PROFILES,
        "interview/words/lexicon/units.yaml": {
            **TOP, "text for a number": (r"usual: \[[\d.]+", "usual: [much"),
            "missing key": (r", example: 45 cm", ""),
        },
        "interview/words/lexicon/words.yaml": {
            **TOP, "text for a number": (r"one: 1\b", "one: much"),
            "missing key": (r"\nbreaths: .*", ""),
        },
        "interview/words/lexicon/spans.yaml": {
            **TOP, "text for a number": (r"tons: 1000", "tons: much"),
            "missing key": (r"\nfine: .*", ""),
        },
        "interview/words/lexicon/said.yaml": {**TOP, "missing key": (r"\n  heard: .*", "")},
        "interview/words/lexicon/people.yaml": {**TOP, "missing key": (r"\nbuy: .*", "")},
        "interview/words/lexicon/phrases.yaml": {
            **TOP, "missing key": (r"\n  - id: \w+\n    ", "\n  - "),
        },
        "interview/words/lexicon/changes.yaml": {**TOP, "missing key": (r"{id: \w+, ", "{")},
    },
    {
        "questions/*.yaml": QUESTIONS,
        "interview/care/company.yaml": {"unknown name": (r"species: \[\w+", "species: [testudo")},
        "interview/words/lexicon/spans.yaml": {"unknown name": (r"fine: \[wall", "fine: [wal")},
        "interview/words/lexicon/phrases.yaml": {"unknown name": (r"- id: region", "- id: regin")},
        "interview/words/lexicon/changes.yaml": {"unknown name": (r"id: stage", "id: stagge")},
        "interview/graph/order/worth.yaml": {"unknown name": (r"question: rcd", "question: rdc")},
        "interview/graph/order/together.yaml": {"unknown name": (r"\[rcd, ", "[rdc, ")},
        "interview/graph/order/look_round.yaml": {"unknown name": (r"ask: cords", "ask: cord")},
    },
    {"interview/care/limits/*.yaml": CARE},
    {
        "interview/audit/checks/*.yaml": CHECKS,
        "interview/audit/misfits.yaml": ROWS,
        "interview/audit/notes.yaml": ROWS,
        "interview/care/grades.yaml": {
            **TOP, "text for a number": (r"at_least: [\d.]+", "at_least: much"),
            "missing key": (r"\nwithout_findings: .*", ""),
        },
    },
    {
        "interview/advice/levers/levers.yaml": LEVERS,
        "interview/advice/search/budget.yaml": {
            "unknown key": (r"\n  (why: )", r"\n  xyzzy: 1\n  \1"),
            "text for a number": (r"value: \d+", "value: much"),
            "missing key": (r"\n  value: \d+", ""),
            "a key twice": (r"\n(  value: \d+)", r"\n\1\n\1"),
        },
        "interview/advice/purchase/usual.yaml": {
            "unknown key": (r"\nsettings:", r"\nxyzzy: 1\nsettings:"),
            "missing key": (r"\nno_wish: .*", ""),
            "a key twice": (r"\n(  stage: .*)", r"\n\1\n\1"),
        },
    },
    {
        "interview/report/asked/topics.yaml": {
            **_beside("asked", 2),
            "text for a number": (r"of_now: true", "of_now: much"),
            "missing key": (r"\n  example: .*", ""),
        },
    },
    {
        "interview/report/asked/topics.yaml": {"unknown name": (r"checks: \[\w+", "checks: [swim")},
        "interview/advice/purchase/usual.yaml": {
            "text for a number": (r"filter_count: 1", "filter_count: much"),
            "wrong unit": (r"heater_height: 5 cm", "heater_height: 5 cmm"),
            "unknown name": (r"\n  stage: ", r"\n  xyzzy: "),
        },
    },
    {"transcripts_demo/*.yaml": DEMO},
)  # fmt: skip
KINDS = ("unknown key", "text for a number", "missing key", "wrong unit", "unknown name",
         "a key twice")  # fmt: skip

# Reads one round of changes a line from standard input, makes them, lets a fresh child check,
# answers with what it printed and its exit code, and puts the files back. The code is loaded once
# for all children, and by a child itself where code is changed; no data file is read before.
DRIVER = """
import importlib, json, os, sys, pathlib, pkgutil, tempfile, traceback
import numpy, pint, yaml, msgspec, rapidfuzz
root = pathlib.Path(sys.argv[1])
sys.path.insert(0, str(root))
import interview
for module in pkgutil.walk_packages(interview.__path__, "interview."):
    if not module.name.endswith("__main__"):
        importlib.import_module(module.name)
for line in sys.stdin:
    changed = json.loads(line)
    whole = {name: (root / name).read_bytes() for name in changed}
    for name, text in changed.items():
        (root / name).write_text(text, encoding="utf-8")
    with tempfile.TemporaryFile() as said:
        child = os.fork()
        if not child:
            os.dup2(said.fileno(), 1)
            os.dup2(said.fileno(), 2)
            code, sys.stdin = 9, None
            if any(name.endswith(".py") for name in changed):
                for name in [name for name in sys.modules if name.split(".")[0] == "interview"]:
                    del sys.modules[name]
            try:
                from interview.cli import main
                code = main(["questions", "--check"])
                sys.stdout.flush()
            except BaseException:
                traceback.print_exc()
                sys.stderr.flush()
            finally:
                os._exit(code)
        code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        said.seek(0)
        print(json.dumps([code, said.read().decode()]), flush=True)
    for name, text in whole.items():
        (root / name).write_bytes(text)
"""


class Tree:
    """A copy of what ships, checked by a process of its own."""

    def __init__(self, root: Path) -> None:
        self.root = root
        for part in PARTS:
            unwanted = shutil.ignore_patterns("__pycache__")
            shutil.copytree(ROOT / part, root / part, ignore=unwanted)
        self._driver = subprocess.Popen(
            [sys.executable, "-c", DRIVER, str(root)],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=root,
        )  # fmt: skip

    def check(self, changed: dict[str, str]) -> tuple[int, str]:
        assert self._driver.stdin and self._driver.stdout
        self._driver.stdin.write(json.dumps(changed) + "\n")
        self._driver.stdin.flush()
        code, said = json.loads(self._driver.stdout.readline())
        return code, said

    def close(self) -> None:
        assert self._driver.stdin and self._driver.stdout
        self._driver.stdin.close()
        self._driver.wait(60)
        self._driver.stdout.close()


@pytest.fixture(scope="module")
def tree(tmp_path_factory: pytest.TempPathFactory) -> Tree:
    made = Tree(tmp_path_factory.mktemp("shipped"))
    yield made  # type: ignore[misc]
    made.close()


def _files(pattern: str) -> list[str]:
    return [path.relative_to(ROOT).as_posix() for path in sorted(ROOT.glob(pattern))]


def _broken(name: str, old: str, new: str) -> tuple[str, int]:
    """The file's text with the first match replaced, and the line of the first difference."""
    text = (ROOT / name).read_text(encoding="utf-8")
    broken = re.sub(old, new, text, count=1)
    same = next(n for n, (a, b) in enumerate(zip(text, broken + " ", strict=False)) if a != b)
    return broken, 1 + broken[:same].count("\n")


def test_what_ships_has_no_faults(tree: Tree) -> None:
    assert tree.check({}) == (0, "No faults.\n")


def test_every_file_is_broken_here() -> None:
    shipped = {
        path.relative_to(ROOT).as_posix()
        for part in PARTS
        for path in (ROOT / part).rglob("*.yaml")
    }
    assert shipped == {name for group in GROUPS for pattern in group for name in _files(pattern)}


CASES = [
    pytest.param(kind, group, id=f"{kind}: {next(iter(group))}")
    for group in GROUPS
    for kind in KINDS
    if any(kind in breaks for breaks in group.values())
]


@pytest.mark.parametrize(("kind", "group"), CASES)
def test_a_broken_file_is_told_with_its_line(
    tree: Tree, kind: str, group: dict[str, dict[str, tuple[str, str]]]
) -> None:
    changed: dict[str, str] = {}
    lines: dict[str, int] = {}
    for pattern, breaks in group.items():
        for name in _files(pattern) if kind in breaks else ():
            if re.search(breaks[kind][0], (ROOT / name).read_text(encoding="utf-8")):
                changed[name], lines[name] = _broken(name, *breaks[kind])
    assert changed
    code, said = tree.check(changed)
    assert code == 2, said
    assert "Traceback" not in said and "our fault" not in said
    for name, line in lines.items():
        short = f"|{Path(name).name}" if name.startswith("transcripts_demo") else ""
        told = [int(n) for n in re.findall(rf"(?m)^(?:{name}{short}), line (\d+): ", said)]
        row = 12 if kind == "missing key" else 3 if kind == "unknown name" else 1
        row = 14 if name.endswith("usual.yaml") else row  # told at the block
        near = {*range(line - row, line + 3), *(range(9) if kind == "missing key" else ())}
        assert set(told) & near, (name, line, told, said)


CODE = {
    "no source": ("core/heat/air.py", r"\n    Source: wagner_pruss_1993.*", "", "no Source line"),
    "other unit": ("core/heat/air.py", r"air saturated over liquid water \[Pa\]", "of air",
                   "saturation_pressure: the docstring's first sentence must end in its unit"),
}  # fmt: skip


@pytest.mark.parametrize("kind", CODE)
def test_a_poor_data_sheet_is_a_fault_with_its_place(tree: Tree, kind: str) -> None:
    """A function of the core is as much a contributor's as a row: nothing of it is “our fault”."""
    file, old, new, wrong = CODE[kind]
    text, _ = _broken(f"interview/{file}", old, new)
    code, said = tree.check({f"interview/{file}": text})
    assert code == 2
    assert re.fullmatch(rf"interview/{file}, line \d+: .*{re.escape(wrong)}.*\n1 fault\.\n", said)


def test_a_limit_of_another_kind_is_a_fault(tree: Tree) -> None:
    text, _ = _broken("questions/02_animals.yaml", '"from 1 to 30"', '"from 1 cm to 30 cm"')
    code, said = tree.check({"questions/02_animals.yaml": text})
    assert code == 2 and "animal_count [1] against a number in [cm]" in said
    assert said.startswith("questions/02_animals.yaml, line ")


DEAD = {
    "interview/words/lexicon/phrases.yaml": (
        (r"(id: water_line_below_rim, .*)\{length\}", r"\1{lenght}",
         "lenght is no kind of amount; did you mean “length”?"),
        (r"(id: joist_span, .*)\{length\}", r"\1{mass}",
         "{mass} is a mass, and joist_span takes [m]; write {length}"),
        (r"@the\b", "@thee", "@thee is no list of words; did you mean “the”?"),
        (r"topics: \[water, tank\]", "topics: [water, tannk]",
         "no thing is called “tannk”; did you mean “tank”?"),
    ),
    "interview/core/heat/air.py": (
        (r"Source: wagner_pruss_1993", "Source: wagner_prus_1993",
         "saturation_pressure, Source: “wagner_prus_1993” is not in the bibliography; did you"),
        (r"\[standard\]", "[standart]", "[standart] is no status; there are published, law"),
    ),
    "interview/audit/checks/household.yaml": (
        (r"species is any of emydura_subglobosa", "species is none of emydura_subglobosa",
         "invasive_law is good for every species but 2, so for each that is added"),
    ),
    "interview/audit/checks/space.yaml": (
        (r"\n      close: ", r"\n      guessed: ",
         "can be close, and `say` has no words for it: write `close`"),
    ),
    "interview/audit/checks/hazards.yaml": (
        (r"\n    do:(\n      .*)+", "", "is said, and `do` doesn't say what to do then"),
    ),
    "interview/care/species/profiles/6_softshells.yaml": (
        (r"swimming: \{value: very_strong", "swimming: {value: weak_to_moderate",
         "apalone_spinifera swims weak_to_moderate, and surface_rests leaves it out: add it"),
    ),
}  # fmt: skip


def test_what_is_read_and_never_serves_is_told_with_its_line(tree: Tree) -> None:
    """A phrase that nothing fits, a verdict without words, a rule that a new kind slips through."""
    changed = {}
    for name, breaks in DEAD.items():
        text = (ROOT / name).read_text(encoding="utf-8")
        for old, new, _ in breaks:
            text, count = re.subn(old, new, text, count=1)
            assert count == 1, (name, old)
        changed[name] = text
    code, said = tree.check(changed)
    assert code == 2
    told = {wrong: re.search(rf"(?m)^[\w/.]+, line \d+: .*{re.escape(wrong)}", said)
            for breaks in DEAD.values() for _, _, wrong in breaks}  # fmt: skip
    assert {wrong for wrong, found in told.items() if not found} == set(), said


def test_a_kind_misspelt_where_kinds_are_held_against_profiles_is_told_as_one(tree: Tree) -> None:
    name = "questions/03_tank.yaml"
    text = (ROOT / name).read_text(encoding="utf-8")
    code, said = tree.check({name: text.replace("sternotherus_odoratus", "sternotherus_odoratuss")})
    assert code == 2
    assert "surface_rests compares species with “sternotherus_odoratuss”" in said
