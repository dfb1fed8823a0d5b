"""A format is one file and one registration."""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path

import pytest
from report_tanks import DEMOS

from interview import assembly, cli
from interview.report.formats import register
from interview.report.formats.register import format_called, names, written_to_files

SHOUTED = '''
"""The page's headings, shouted."""

from interview.report.blocks import Heading
from interview.report.formats.interface import Format, Page


class Shouted(Format):
    suffix = ".shout"
    around = ("<<", "|", ">>")

    def dress(self, page: Page) -> str:
        blocks = page.blocks(whole=page.whole)
        return "\\n".join(b.text.upper() for b in blocks if isinstance(b, Heading)) + "\\n"


DRESS = Shouted()
'''
MUSK = DEMOS / "musk_turtle.yaml"


@pytest.fixture
def shouted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A format added from outside; the advice has tests of its own."""
    (tmp_path / "shouted_format.py").write_text(SHOUTED, encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr(register, "_MODULES", dict(register._MODULES))
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    register.register("shouted", "shouted_format")
    yield
    sys.modules.pop("shouted_format", None)


@pytest.mark.usefixtures("shouted")
def test_a_new_format_is_one_file_and_one_registration(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["audit", str(MUSK), "--format", "shouted"]) == 0
    shown = capsys.readouterr().out.splitlines()
    assert shown[0] == "STUDY WINDOW, MUSK TURTLE"
    assert shown == ["STUDY WINDOW, MUSK TURTLE"]
    assert cli.main(["audit", str(MUSK), "--format", "shouted", "--whole"]) == 0
    whole = capsys.readouterr().out.splitlines()
    assert "THE TANK IN NUMBERS" in whole and "SOURCES" in whole


@pytest.mark.usefixtures("shouted")
def test_several_tanks_stand_in_what_the_format_puts_around(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert cli.main(["audit", str(MUSK), str(MUSK), "--format", "shouted"]) == 0
    shown = capsys.readouterr().out
    assert shown.startswith("<<STUDY") and shown.endswith("\n>>") and "\n|STUDY" in shown


def test_an_unknown_format_is_refused_with_the_known_ones(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert cli.main(["audit", str(MUSK), "--format", "papyrus"]) == 2
    said = capsys.readouterr().err
    assert "papyrus" in said and all(name in said for name in names())


@pytest.mark.parametrize(
    "name", sorted({*names(), *(one.name for one in written_to_files().values())})
)
def test_every_format_says_what_its_files_end_in(name: str) -> None:
    assert format_called(name).suffix.startswith(".")


def test_the_format_that_the_developers_page_writes_out_works(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    page = (DEMOS.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    part = page.partition("**An output format**")[2].partition("\n**")[0]
    code = [line for line in part.splitlines() if not line or line.startswith("    ")]
    (tmp_path / "outlined.py").write_text(textwrap.dedent("\n".join(code)), encoding="utf-8")
    said = re.search(r'`register\("(\w+)", "interview\.report\.formats\.(\w+)"\)`', part)
    assert said and "`tankside audit SETUP --format outline`" in part
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr(register, "_MODULES", dict(register._MODULES))
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    register.register(said[1], "outlined")
    assert cli.main(["audit", str(MUSK), "--format", said[1]]) == 0
    assert capsys.readouterr().out.startswith("Study window, musk turtle\n")
