"""The output formats by name. A module is loaded when its format is asked for."""

from __future__ import annotations

import re
from importlib import import_module
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from interview.report.formats.interface import Format

__all__ = ["Written", "format_called", "names", "register", "written_to_files"]

_MODULES: dict[str, str] = {}
_FILES: dict[str, Written] = {}


class Written(NamedTuple):
    """A format that is written to a file: its name, what it writes, how such a file begins."""

    name: str
    about: str
    begins: re.Pattern[str]


def register(name: str, module: str, *, file: str = "", about: str = "", begins: str = "") -> None:
    """Offer a format: its name, and the module whose `DRESS` it is.

    With `file` it is one that is written to a file, by the option of that name; `about` is the
    option's help. A file that `begins` so (a regular expression) is ours and may be written over.
    """
    _MODULES[name] = module
    if file:
        _FILES[file] = Written(name, about, re.compile(begins or "(?!)"))


def names() -> tuple[str, ...]:
    """What can be asked for on the screen or in a pipe."""
    only_files = {one.name for one in _FILES.values()} - {"markdown"}
    return tuple(name for name in _MODULES if name not in only_files)


def written_to_files() -> dict[str, Written]:
    """The formats that are written to files, by the option that asks for one."""
    return dict(_FILES)


def format_called(name: str) -> Format:
    """The format of a name; KeyError for one that isn't registered."""
    dress: Format = import_module(_MODULES[name]).DRESS
    return dress


register("terminal", "interview.report.formats.terminal")
register("plain", "interview.report.formats.plain")
register(
    "markdown",
    "interview.report.formats.markdown",
    file="markdown",
    about="write Markdown to a file, its pictures beside it as SVG",
    begins=r"# .*\n\n\*\*.* Audited on \d{4}-\d\d-\d\d\.\*\*\n",
)
register("json", "interview.report.formats.json_form")
register(
    "handout",
    "interview.report.formats.handout",
    file="handout",
    about="write one sheet of paper, as an HTML file to print",
    begins=r"<!doctype html>\n<!-- Tankside handout -->\n",
)
register(
    "icalendar",
    "interview.report.formats.icalendar_form",
    file="ics",
    about="write the care calendar as an iCalendar file",
    begins=r"BEGIN:VCALENDAR\r?\n(?:.*\r?\n){0,3}PRODID:-//Tankside//",
)
