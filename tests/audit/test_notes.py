"""Safety notes are said with the numbers that are known, and never dropped for one that isn't."""

from __future__ import annotations

import pytest
from typed_tanks import Audited

from interview.audit.audit import Audit
from interview.audit.notes import all_notes


def _notes(audit: Audit) -> dict[str, str]:
    return {note.id: note.say for note in audit.notes}


def test_a_number_nobody_knows_costs_its_sentence_only(audited: Audited) -> None:
    whole = _notes(audited())
    bare = _notes(audited(room_temperature_low="", tank_size="", floor="not sure"))
    assert whole["power_cut"].startswith("Time until the water has lost 3 °C (5.4 °F)")
    assert bare["power_cut"].startswith("The filter's bacteria suffer sooner. Don't feed")
    assert "No open flame and no generator indoors." in bare["power_cut"]
    assert bare["floor"].startswith("Ask a licensed structural engineer")


@pytest.mark.parametrize("note", [note.note for note in all_notes() if not note.relevant.names])
def test_a_note_for_every_tank_is_said_for_every_tank(note: str, audited: Audited) -> None:
    left_out = {"room_temperature_low": "", "room_temperature_high": "", "tank_size": ""}
    assert note in _notes(audited(**left_out))


def test_the_heater_is_told_by_both_rules(audited: Audited) -> None:
    """3 to 5 W a gallon beside the computed loss, which grades."""
    found = next(f for f in audited().findings if f.check == "heater_power")
    volume = audited().figures["water_volume"].value / 3.785411784e-3
    assert audited().figures["trade_heater_power_low"].value == pytest.approx(3 * volume)
    assert audited().figures["trade_heater_power_high"].value == pytest.approx(5 * volume)
    assert found.also.startswith("Two rules stand side by side: the trade's 3 to 5 W")
    assert "The loss grades" in found.also and found.status == "assumption"


BOTH_TOLD = {
    "swim_area": ("European table", "5 by 2.5 shell lengths", "grades"),
    "swim_depth": ("European table", "1.5 shell lengths", "grades"),
    "volume_rule": ("ten gallons for each inch", "doesn't grade"),
    "water_temperature": ("20 to 25 °C", "24 to 27 °C", "Graded on the keepers' bands"),
    "heater_power": ("3 to 5 W", "computed loss", "The loss grades"),
    "ammonia": ("fish keepers'", "no limit for turtles was found", "They grade here"),
}


@pytest.mark.parametrize("check", BOTH_TOLD)
def test_where_rules_disagree_both_are_told_and_which_grades(check: str, audited: Audited) -> None:
    also = " ".join(next(f.also for f in audited().findings if f.check == check).split())
    for part in BOTH_TOLD[check]:
        assert part in also
