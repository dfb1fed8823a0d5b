"""What a page is made of; the formats dress each kind of block."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from interview.report.pictures.picture import Picture

__all__ = ["Block", "Drawing", "Heading", "Items", "Labelled", "Paragraph", "Table"]


@dataclass(frozen=True)
class _Citing:
    """What every block has: the bibliography's keys that its words name."""

    sources: tuple[str, ...] = field(default=(), kw_only=True)


@dataclass(frozen=True)
class Heading(_Citing):
    """A heading of a level from 1 to 3."""

    level: int
    text: str


@dataclass(frozen=True)
class Paragraph(_Citing):
    """Running text; `strong` for what must not be missed."""

    text: str
    strong: bool = False


@dataclass(frozen=True)
class Items(_Citing):
    """A list; each item is a bold lead and sentences after it.

    `nested` puts each further sentence on a line of its own; numbers run from `start`.
    """

    rows: tuple[tuple[str, tuple[str, ...]], ...]
    numbered: bool = False
    nested: bool = False
    start: int = 1


@dataclass(frozen=True)
class Labelled(_Citing):
    """A label with one thing or a few things to say; each is a bold lead, or none, and its words.

    Numbers run from `start`; without it they are not numbered. With "" for a label it goes on from
    the block before.
    """

    label: str
    rows: tuple[tuple[str, str], ...]
    start: int | None = None


@dataclass(frozen=True)
class Table(_Citing):
    """Columns and rows of text."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Drawing(_Citing):
    """Lines of a fixed-pitch picture, and the same in words.

    Where there is a `picture`, a dress may draw it anew: as wide as its screen, or as SVG.
    """

    lines: tuple[str, ...]
    words: str
    picture: Picture | None = None


Block: TypeAlias = Heading | Paragraph | Items | Labelled | Table | Drawing
