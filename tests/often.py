"""How often a property is tried: a number for the usual run, many times it for the long one."""

from __future__ import annotations

from hypothesis import settings

__all__ = ["often"]

_USUAL = 100  # hypothesis's own number of examples


def often(examples: int) -> int:
    """As many examples, scaled by the profile that was chosen."""
    return examples * settings.default.max_examples // _USUAL
