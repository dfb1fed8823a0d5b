"""The file of levers as typed rows: what stands in it, before units are looked up."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import field

from interview.base.conditions import Condition
from interview.base.rows import Amount, Names, Row, Said

__all__ = ["AroundRow", "CostRow", "LeverFile", "LeverRow"]

_Quantity = Annotated[str, Names("quantity")]
_Text = Annotated[str, Names("name in a lever's sentence", inside=True)]


class CostRow(Row, frozen=True):
    """A class of cost on the common scale, and why it costs that."""

    value: float
    why: str


class AroundRow(Row, frozen=True):
    """How far from today's value, in strides beyond `near`: to both sides, or `only` to one."""

    example = "{step: 1 cm, near: 15 cm, stride: 5 cm, reach: 30 cm}"
    step: Amount
    near: Amount
    stride: Amount
    reach: Amount
    only: Literal["more", "less"] | None = None


class BesidesRow(Row, frozen=True):
    """A sentence more, where something holds of the tank as it will be."""

    when: Condition
    say: _Text


class LeverRow(Row, frozen=True):
    """One thing to change, as written.

    `of`, `around`, `times` and `to` (as much as another quantity) say which values the quantity
    that the lever is named for takes; `sets` and `sets_if_absent` what else it sets, a list being
    one setting each. `besides` are sentences more, each where it holds; `together` is the one
    sentence for this lever and another, by the other's name; `kept` is said where the value stays
    and only what another step moves has to be made good. `trade_sizes` are tanks as they are
    sold. `only_for` names the checks that a keeper would use it for. `buys`
    is what has to be got for it, each with its specification: parts between semicolons, of which
    one whose numbers nobody knows is left out.
    """

    example = "{lever: night_light, cost: free, of: [no], say: Switch off every light.}"
    lever: str
    cost: Annotated[str, Names("cost")]
    say: _Text
    kept: _Text = ""
    besides: tuple[BesidesRow, ...] = ()
    to: Annotated[str, Names("quantity")] | None = None
    bother: float = 0.0
    relevant: Condition | None = None
    only_for: tuple[Annotated[str, Names("check")], ...] = ()
    of: tuple[Said, ...] = ()
    times: tuple[float, ...] = ()
    around: AroundRow | None = None
    least: Amount | None = None
    most: Amount | None = None
    sets: dict[_Quantity, Said] = field(default_factory=dict)
    sets_if_absent: dict[_Quantity, Said] = field(default_factory=dict)
    trade_sizes: bool = False
    not_under: dict[_Quantity, _Quantity] = field(default_factory=dict)
    renewed: dict[_Quantity, Said] = field(default_factory=dict)
    due: dict[_Quantity, Amount] = field(default_factory=dict)
    buys: dict[str, _Text] = field(default_factory=dict)
    together: dict[str, _Text] = field(default_factory=dict)


class LeverFile(Row, frozen=True):
    """Classes of cost, and the levers in their order."""

    costs: dict[str, CostRow]
    levers: tuple[LeverRow, ...]
