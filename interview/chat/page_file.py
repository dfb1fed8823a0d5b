"""The file a page, handout or calendar is written to: what may be written over, what never is."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from interview.base.files.reading import FileRefused, read_small, shown
from interview.base.files.writing import write_whole
from interview.report.formats.register import format_called, written_to_files
from interview.setups import SetupError

if TYPE_CHECKING:
    from interview.report.formats.interface import Page

__all__ = ["may_be_replaced", "write_dressed", "write_page"]

_SETUP = re.compile(r"""^["']?format["']?\s*:\s*["']?tankside/\d""", re.MULTILINE)
_PICTURE = re.compile(r"<!-- Tankside picture -->\n<svg ")


def may_be_replaced(target: Path) -> bool:
    """Whether a file can be written without asking: it isn't there, or an earlier one of ours.

    Raises SetupError for a setup, which is never written over, and for a folder.
    """
    try:
        if not target.exists() or (not target.is_file() and not target.is_dir()):
            return True  # nothing is lost: a new file, or a stream such as /dev/stdout
    except OSError as problem:
        raise _unwritable(target, problem) from problem
    if target.is_dir():
        raise SetupError(f"{shown(target)} can't be written: it is a folder.")
    try:
        text = read_small(target)
    except FileRefused:
        return False
    if _SETUP.search(text):
        raise SetupError(f"{shown(target)} is a setup, and I overwrite nothing that holds answers.")
    ours = (_PICTURE, *(written.begins for written in written_to_files().values()))
    return text == "" or any(begins.match(text) for begins in ours)


def write_dressed(page: Page, form: str, target: Path) -> None:
    """Write one page in a format; beside a Markdown file its pictures. Raises SetupError."""
    if form == "markdown" and (target.is_file() or not target.exists()):
        page = replace(page, beside=target.stem)
        pictures = {target.with_name(name): picture for name, picture in page.pictures()}
        for path in pictures:
            if not may_be_replaced(path):
                raise SetupError(
                    f"{path} exists and is no picture of Tankside's, but one of that name "
                    "belongs beside the page. Move it, or name the page otherwise."
                )
        for path, picture in pictures.items():
            write_page(picture.svg(), path)
    write_page(format_called(form).alone(page), target)


def write_page(text: str, target: Path) -> None:
    """Write a page whole; only its owner may read it. Raises SetupError."""
    try:
        if target.exists() and not target.is_file():
            target.write_text(text, encoding="utf-8")
        else:
            write_whole(target, text)
    except OSError as problem:
        raise _unwritable(target, problem) from problem


def _unwritable(target: Path, problem: OSError) -> SetupError:
    return SetupError(f"{shown(target)} can't be written: {problem.strerror}.")
