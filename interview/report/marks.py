"""Findings as a picture marks them."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Mark"]


@dataclass(frozen=True)
class Mark:
    """One finding on a picture: the number of the step that mends it, and how it is called.

    `measures` is the quantity the check looks at, which tells where in the tank it belongs.
    """

    number: int
    check: str
    word: str
    verdict: str
    measures: str
