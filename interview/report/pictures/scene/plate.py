"""A scene with what is written at it: the one thing that every renderer of the tank draws."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from interview.report.pictures.scene.things import Scene

__all__ = ["At", "Note", "Pin", "Plate", "place_of"]

At: TypeAlias = str
"""A place of the vocabulary's `picture` rows: a kind of thing, or rim, water_line, length …"""


@dataclass(frozen=True)
class Note:
    """Words at a place; where a finding measures what they tell, its number and verdict too."""

    at: At
    text: str
    number: int = 0


@dataclass(frozen=True)
class Pin:
    """Findings at a place: their number, what they are called and measure, the worst verdict."""

    number: int
    at: At
    called: str
    measures: tuple[str, ...]
    verdict: str
    wanted: str = ""
    """The range that is wanted, in words."""


@dataclass(frozen=True)
class Plate:
    """A tank, what is written at it, and the tank as it would be after a plan.

    `measures` are the outside length, width and height in words, those that are known.
    `key` says what the signs in the notes mean and which things stand where nobody measured.
    """

    scene: Scene
    notes: tuple[Note, ...] = ()
    """From the top down; every pin has its number at one of them."""
    pins: tuple[Pin, ...] = ()
    measures: Mapping[str, str] = field(default_factory=dict)
    after: Scene | None = None
    key: tuple[str, ...] = ()

    @property
    def top(self) -> float:
        """How high anything reaches, now or after the plan [m]."""
        return max(self.scene.top, self.after.top if self.after else 0.0)

    @property
    def longest(self) -> float:
        """How long the tank is inside, now or after the plan, whichever is more [m]."""
        return max(self.scene.length, self.after.length if self.after else 0.0)

    @property
    def scale(self) -> str:
        """Whether it is to scale: not where length or height only stand in for what nobody told."""
        guessed = {"tank_length", "tank_height"} & {*self.scene.guessed}
        return "Not to scale" if guessed else "To scale"

    @property
    def outside(self) -> str:
        """The measures together, their unit once, as “100 × 40 × 40 cm”."""
        *most, last = self.measures.values() or ("",)
        return " × ".join([*(one.partition(" ")[0] for one in most), last])


def place_of(scene: Scene, at: At) -> tuple[float, float] | None:
    """The point that a note points at, seen from the side [m]; None where it isn't drawn."""
    water = scene.first("water")
    if at == "rim":
        return scene.length, scene.height
    if at == "water_line" and water:
        return scene.length, water.y[1]
    if at == "water" and water:
        return scene.length * 0.7, water.y[0] + (water.y[1] - water.y[0]) * 0.4
    thing = next((thing for thing in scene.things if thing.kind == at), None)
    if thing is None:
        return None
    if at in ("heat_lamp", "uvb_lamp"):
        return thing.x[1], thing.y[0]  # its face, from which heights are measured
    if at in ("bed", "platform", "cover_basking"):
        return thing.x[1], thing.y[1]
    return (thing.x[0] + thing.x[1]) / 2, (thing.y[0] + thing.y[1]) / 2
