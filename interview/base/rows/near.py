"""Asks back for the right spelling of a name in a data file."""

from __future__ import annotations

from collections.abc import Iterable

from interview.base.near_spelling import nearest

__all__ = ["did_you_mean"]


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """`; did you mean “unit”?` for the known name nearest to this one, or ""."""
    near = nearest(name, known, most=1)
    return f"; did you mean “{near[0]}”?" if near else ""
