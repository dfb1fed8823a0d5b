"""Tank sizes by their trade names: a name stands for outside measures, never for a volume."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar, Literal

from interview.base.rows import FileError, Names, Row, WrongKey, read
from interview.care.sources import Status, bibliography

__all__ = ["TradeSize", "known_sizes", "trade_sizes"]

_FILE = Path(__file__).with_suffix(".yaml")
_METRES = {"in": 0.0254, "cm": 0.01}


@dataclass(frozen=True)
class TradeSize:
    """A tank the trade sells under a name: outside measures and usual pane thickness [m]."""

    name: str
    length: float
    width: float
    height: float
    wall_thickness: float
    status: str
    source: str
    spoken: tuple[str, ...]


class _Size(Row, frozen=True, kw_only=True):
    """Outside measures in the group's unit; the pane in mm."""

    EXAMPLE: ClassVar[str] = "{name: 40 breeder, size: [36, 18, 16], wall: 6, status: practice}"

    name: str | int
    size: tuple[float, float, float]
    wall: float
    status: Status

    def __post_init__(self) -> None:
        if min(*self.size, self.wall) <= 0:
            raise WrongKey("size", "no side and no pane can be 0 or less")


class _Group(Row, frozen=True, kw_only=True):
    unit: Literal["in", "cm"]
    source: Annotated[str, Names("source")]
    said: tuple[str, ...]
    sizes: tuple[_Size, ...]


class _File(Row, frozen=True, kw_only=True):
    gallons: _Group
    litres: _Group
    forms: dict[str, tuple[str, ...]]


@cache
def known_sizes() -> tuple[TradeSize, ...]:
    """All trade sizes, in the file's order."""
    file = read(_FILE, _File)
    return tuple(
        _size(row, group, file.forms)
        for group in (file.gallons, file.litres)
        for row in group.sizes
    )


@cache
def trade_sizes() -> Mapping[str, tuple[float, float, float]]:
    """Spoken name in lower case → outside length, width, height [m]."""
    return {
        spoken: (size.length, size.width, size.height)
        for size in known_sizes()
        for spoken in size.spoken
    }


def _size(row: _Size, group: _Group, forms: Mapping[str, tuple[str, ...]]) -> TradeSize:
    number, _, form = str(row.name).partition(" ")
    if form and form not in forms:
        raise FileError(row.where, f"{row.name}: “{form}” is none of {', '.join(forms)}")
    if group.source not in bibliography():
        raise FileError(group.where, f"source “{group.source}” is not in the bibliography")
    numbers = list(_numbers(group, number))
    spoken = _with_form(number, numbers, forms[form]) if form else numbers
    metres = _METRES[group.unit]
    length, width, height = (round(side * metres, 6) for side in row.size)
    return TradeSize(
        name=f"{number} {form}" if form else numbers[0],
        length=length,
        width=width,
        height=height,
        wall_thickness=row.wall / 1000,
        status=row.status,
        source=group.source,
        spoken=tuple(dict.fromkeys(_with_tank(spoken))),
    )


def _numbers(group: _Group, number: str) -> Iterator[str]:
    return (said.replace("{n}", number) for said in group.said)


def _with_form(number: str, numbers: list[str], words: tuple[str, ...]) -> Iterator[str]:
    for word in words:
        if len(word) == 1:
            yield number + word
        else:
            yield from (f"{said} {word}" for said in (number, *numbers))


def _with_tank(names: Iterator[str] | list[str]) -> Iterator[str]:
    for name in names:
        yield from (name, f"{name} tank")
