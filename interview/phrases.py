"""Fills the names in a sentence with values as this keeper sees them."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from interview import units

__all__ = ["fill", "in_words", "names_in"]

_NAME = re.compile(r"\{(\w+)\}")


def names_in(text: str) -> tuple[str, ...]:
    """The names a sentence holds in braces."""
    return tuple(_NAME.findall(text))


def fill(
    text: str,
    lookup: Callable[[str], Any],
    unit_of: Callable[[str], str],
    system: str,
    stands_for: Mapping[str, str] | None = None,
) -> str | None:
    """The sentence with every `{name}` shown in the keeper's units; None if one is unknown.

    `stands_for` tells whose unit a short name such as `{value}` takes.
    """
    shown: dict[str, str] = {}
    for name in names_in(text):
        value = lookup(name)
        if value is None:
            return None
        meant = (stands_for or {}).get(name, name)
        shown[name] = in_words(value, unit_of(meant), system, meant)
    return _NAME.sub(lambda found: shown[found[1]], text)


def in_words(value: Any, unit: str, system: str, name: str = "") -> str:
    """One value in words: numbers with unit, yes/no, choices with spaces for underscores."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value.replace("_", " ")
    if isinstance(value, tuple | list):
        return ", ".join(in_words(item, unit, system, name) for item in value) or "none"
    if getattr(value, "ndim", 0):
        return ", ".join(in_words(item, unit, system, name) for item in value.ravel())
    return units.to_show(float(value), unit, system, kind=_kind(name, unit))


def _kind(name: str, unit: str) -> str | None:
    """What a number is where its unit alone does not tell how people speak of it."""
    if name == "evaporation_rate":
        return "water"
    if unit != "1":
        return None
    if name == "feeds_per_week":
        return "per_week"
    if name.endswith("_count"):
        return "count"
    if "share" in name or name in ("uvb_transmission", "uvb_lamp_output", "feed_protein"):
        return "share"
    return None
