"""What a picture of a tank is made of: boxes with a name, in metres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

__all__ = ["Kind", "Scene", "Span", "Thing"]

Span: TypeAlias = tuple[float, float]
"""Where something begins and ends along one direction [m]."""

Kind: TypeAlias = Literal[
    "bed", "water", "cover_basking", "cover_water", "pile", "platform", "ramp", "basking_animal",
    "swimming_animal", "heater", "intake", "heat_lamp", "uvb_lamp",
]  # fmt: skip


@dataclass(frozen=True)
class Thing:
    """One thing in or over the tank.

    Args:
        kind: what it is
        x: along the tank, from the inside of its left pane
        y: upwards, from the inside of its bottom
        z: across the tank, from the inside of its front pane
        form: how it is made, as a keeper chose: mesh, floating, vertical …; "" for no choice
    """

    kind: Kind
    x: Span
    y: Span
    z: Span
    form: str = ""


@dataclass(frozen=True)
class Scene:
    """A tank and what is in it; lengths in metres, the inside from pane to pane.

    `guessed` names the answers that nobody gave and without which there were nothing to draw.
    """

    length: float
    width: float
    height: float
    wall: float
    things: tuple[Thing, ...]
    guessed: tuple[str, ...] = ()

    def first(self, kind: Kind) -> Thing | None:
        """The first thing of a kind."""
        return next((thing for thing in self.things if thing.kind == kind), None)

    @property
    def top(self) -> float:
        """How high the highest thing reaches, at least the rim [m]."""
        return max((self.height, *(thing.y[1] for thing in self.things)))
