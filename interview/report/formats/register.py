"""The output formats by name. A module is loaded when its format is asked for."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from interview.report.formats.interface import Format

__all__ = ["format_called", "names", "register"]

_MODULES: dict[str, str] = {}


def register(name: str, module: str) -> None:
    """Offer a format: its name, and the module whose `DRESS` it is."""
    _MODULES[name] = module


def names() -> tuple[str, ...]:
    """What can be asked for."""
    return tuple(_MODULES)


def format_called(name: str) -> Format:
    """The format of a name; KeyError for one that isn't registered."""
    dress: Format = import_module(_MODULES[name]).DRESS
    return dress


register("terminal", "interview.report.formats.terminal")
register("plain", "interview.report.formats.plain")
register("markdown", "interview.report.formats.markdown")
register("json", "interview.report.formats.json_form")
