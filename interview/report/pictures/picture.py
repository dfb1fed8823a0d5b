"""What any picture of a page can do."""

from __future__ import annotations

from typing import Protocol

__all__ = ["Picture"]


class Picture(Protocol):
    """A picture: in words, in characters and as SVG."""

    @property
    def name(self) -> str:
        """The stem of a file that holds it, as “tank”."""
        ...

    @property
    def title(self) -> str:
        """A heading."""
        ...

    @property
    def words(self) -> str:
        """What it shows, in a sentence or two."""
        ...

    def lines(self, width: int, *, plain_letters: bool = False) -> tuple[str, ...]:
        """The picture in characters, no line longer than `width`; () where that is too narrow.

        With `plain_letters` it is all ASCII.
        """
        ...

    def svg(self) -> str:
        """The picture as one SVG file that needs no other."""
        ...
