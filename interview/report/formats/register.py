"""The output formats by name. A module is loaded when its format is asked for."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from interview.report.formats.interface import Format

__all__ = ["format_called", "names", "register", "written_to_files"]

_MODULES: dict[str, str] = {}
_FILES: dict[str, str] = {}


def register(name: str, module: str, *, file: str = "") -> None:
    """Offer a format: its name, and the module whose `DRESS` it is.

    With `file` it is one that is written to a file, by the option of that name.
    """
    _MODULES[name] = module
    if file:
        _FILES[file] = name


def names() -> tuple[str, ...]:
    """What can be asked for on the screen or in a pipe."""
    return tuple(name for name in _MODULES if name not in _FILES.values() or name == "markdown")


def written_to_files() -> dict[str, str]:
    """The formats that are written to files, by the option that asks for one."""
    return dict(_FILES)


def format_called(name: str) -> Format:
    """The format of a name; KeyError for one that isn't registered."""
    dress: Format = import_module(_MODULES[name]).DRESS
    return dress


register("terminal", "interview.report.formats.terminal")
register("plain", "interview.report.formats.plain")
register("markdown", "interview.report.formats.markdown", file="markdown")
register("json", "interview.report.formats.json_form")
register("handout", "interview.report.formats.handout", file="handout")
register("icalendar", "interview.report.formats.icalendar_form", file="ics")
