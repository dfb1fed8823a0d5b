"""One of several animals of a tank, as a finding names it."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Animal"]


@dataclass(frozen=True)
class Animal:
    """One of several animals: its row, counted from 0, and what tells it from the others."""

    row: int
    species: str
    name: str
    carapace_length: float | None
