"""Asks back for the right spelling of a name in a data file."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

__all__ = ["did_you_mean"]


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """`; did you mean “unit”?` for the known name nearest to this one, or ""."""
    near = difflib.get_close_matches(name, list(known), n=1)
    return f"; did you mean “{near[0]}”?" if near else ""
