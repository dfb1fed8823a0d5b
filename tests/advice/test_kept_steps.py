"""A step that only keeps a value says so, and one that changes nothing is none."""

from __future__ import annotations

from advice_tanks import DEMOS, tank_of

from interview.advice.levers.levers import Option, all_levers
from interview.advice.plans.sound import _moves
from interview.advice.plans.wording import changes_of
from interview.advice.search.search import merged
from interview.advice.what_if.suppose import changed

TANK = tank_of(DEMOS / "musk_turtle.yaml")
LAMP = next(one for one in all_levers() if one.name == "heat_lamp_height")
LINE = next(one for one in all_levers() if one.name == "water_line_below_rim")
NOW = float(TANK.best.known["heat_lamp_height"])
KEPT = Option(LAMP, {"heat_lamp_height": NOW})
RAISED = Option(LAMP, {"heat_lamp_height": NOW + 0.05})
LOWERED = Option(LINE, {"water_line_below_rim": TANK.best.known["water_line_below_rim"] + 0.03})


def _said(*options: Option) -> list[str]:
    after = changed(TANK, merged(options))
    return [row.say for option in options for row in changes_of(option, TANK, after) if row.say]


def test_a_lamp_that_a_sinking_raft_leaves_behind_is_kept_at_its_distance() -> None:
    """“Hang it 22 cm over the platform” where it hangs so would read as done."""
    assert _said(LOWERED, KEPT)[1] == (
        "Keep the heat lamp 22 cm over the platform: hang it anew once the water line is set."
    )
    assert _said(RAISED) == ["Hang the heat lamp 27 cm over the platform."]


def test_a_step_counts_only_while_another_carries_the_lamp_off() -> None:
    assert _moves(TANK, [LOWERED, KEPT], KEPT)
    assert not _moves(TANK, [KEPT], KEPT)
    assert _moves(TANK, [RAISED], RAISED)
