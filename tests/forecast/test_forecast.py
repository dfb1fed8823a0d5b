"""Days, years and mishaps of the demo tanks: nothing that could not happen, and what must."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest

from interview import assembly
from interview.advice.forecast import lanes, side_by_side
from interview.advice.forecast.day import days_of
from interview.advice.forecast.lanes import Lanes, value_of
from interview.advice.forecast.mishaps import befalls, fits, mishaps_of, plan_of
from interview.advice.forecast.year import year_of
from interview.base.places import demo_folder
from interview.care.mishaps import mishap_rules
from interview.commands.filled import filled
from interview.core.errors import CannotWorkOut, Missing, OutOfRange
from interview.core.time.crossing import time_past
from interview.core.time.run import through
from interview.report.blocks import Drawing, Heading, Items, Paragraph, Table
from interview.report.forecast.charts import day_drawings, mishap_drawings, year_drawing
from interview.report.forecast.day_page import day_blocks
from interview.report.forecast.mishap_page import in_short_blocks, mishap_blocks, mishap_sentence
from interview.report.forecast.said import bands_of, in_hours, lacking_said
from interview.report.formats.plain import block_lines
from interview.report.page.whole import layers_of


@cache
def _tank(name: str) -> Any:
    interview, _ = filled(demo_folder() / f"{name}.yaml")
    return assembly.tank_of(interview, drawn=True)


@cache
def _outcomes(name: str) -> dict[str, Any]:
    return {one.mishap.mishap: one for one in mishaps_of(_tank(name))}


@cache
def _year(name: str) -> Any:
    return year_of(_tank(name))


def test_a_day_has_no_curve_that_could_not_happen() -> None:
    tank = _tank("musk_turtle")
    days, lacking = days_of(tank)
    assert not lacking and [day.season for day in days] == ["coldest", "mean", "warmest"]
    for day in days:
        room, water, air = (day.curves[name] for name in ("room", "water", "air"))
        shell, platform = day.curves["shell"], day.curves["platform"]
        assert np.all((air - np.minimum(room, water)) > -1e-9)
        assert np.all((air - np.maximum(room, water)) < 1e-9)
        assert np.abs(np.diff(water)).max() < 0.3 and np.abs(np.diff(room)).max() < 0.2
        lit = day.curves["uv_index"] > 0
        assert lit.mean() * 24 == pytest.approx(12, abs=0.5)
        assert shell[~lit].min() >= water.min() - 0.1
        assert platform.max() <= float(tank.best.value("platform_temperature")) + 4
        assert shell.argmax() > platform.argmax() - 40, "a shell follows the platform"
        assert np.abs(water[0] - water[-1]) < 1.4, "a day ends about where it began"
    coldest, mean, warmest = days
    assert coldest.room[0].best == pytest.approx(18.0, abs=0.1)
    assert warmest.room[1].best == pytest.approx(25.0, abs=0.1)
    assert coldest.energy.best > mean.energy.best > warmest.energy.best


def test_a_year_uses_more_in_winter_and_its_lamp_fades() -> None:
    year = _year("river_cooter_adult")
    duty = [month.duty.best for month in year.months if month.duty]
    assert duty[0] == max(duty) and duty[6] == min(duty)
    share = [month.uv_share.best for month in year.months if month.uv_share]
    assert share == sorted(share, reverse=True)
    # 70 % is left at the end of a kind's usual life: so by its law, month by month
    assert share[-1] / share[0] == pytest.approx((share[1] / share[0]) ** 11, rel=2e-3)
    length = [month.length for month in year.months if month.length]
    assert length == sorted(length)
    assert year.coldest.begins < 40 * 86400 and 180 < year.warmest.begins / 86400 < 230
    cost = sum(month.cost.best for month in year.months if month.cost)
    assert year.cost and cost == pytest.approx(year.cost.best, rel=2e-3)
    assert year.cost.best == pytest.approx(year.energy.best / 3.6e6 * 0.16, rel=1e-6)


def test_in_the_south_the_year_turns_round() -> None:
    tank = _tank("painted_turtles_classroom")
    working = tank.sample.with_known({**tank.sample.known, "region": "australia"})
    best = tank.best.with_known({**tank.best.known, "region": "australia"})
    year = year_of(replace(tank, best=best, sample=working))
    water = [month.water.best for month in year.months]
    assert np.argmax(water) in (0, 1) and np.argmin(water) in (6, 7)
    assert year.months[0].duty is None


def test_longer_cuts_cool_further_and_a_lid_holds_the_warmth() -> None:
    for name in ("river_cooter_adult",):
        found = _outcomes(name)
        short, long = found["power_cut_6_h_winter"], found["power_cut_24_h_winter"]
        assert long.water.best < short.water.best
        assert long.lowest and short.first is None and long.first is not None
    helped = {one.say: one.when for one in _outcomes("river_cooter_adult")[
        "power_cut_24_h_winter"].helped}  # fmt: skip
    lid, blanket = helped["a lid over the water"], helped["a blanket round it and a lid"]
    assert blanket > lid > 1.15 * _outcomes("river_cooter_adult")[
        "power_cut_24_h_winter"].first.when.best  # fmt: skip


def test_what_a_tank_has_not_can_t_fail() -> None:
    def failing(name: str) -> set[str]:
        lanes = Lanes.of(_tank(name), 4)
        return {one.mishap for one in mishap_rules().mishaps if befalls(one, lanes)}

    assert not {"heater_dead", "heater_stuck"} & failing("painted_turtles_classroom")
    assert "lamp_dead" not in failing("reeves_turtle_planned")
    assert len(failing("musk_turtle")) == 10


def test_a_stuck_heater_reaches_34_degrees_before_the_steady_35() -> None:
    outcome = _outcomes("musk_turtle")["heater_stuck"]
    hot = next(one for one in outcome.passed if one.watched.limit == "water_hot")
    # The steady sum starts from the same warmth, without pump and lamps, to 35 degC.
    assert hot.when.best < float(_tank("musk_turtle").best.value("stuck_heater_time"))
    assert hot.when.low <= hot.when.best <= hot.when.high


def test_a_mishap_gives_a_sentence_with_its_source() -> None:
    said = mishap_sentence(_outcomes("river_cooter_adult")["power_cut_24_h_winter"], "metric")
    assert said.text.startswith("The power fails for a day in winter: the water is below 20 °C")
    assert "; with a blanket round it and a lid not " in said.text
    assert said.sources == ("modelling_choice",)


@pytest.mark.parametrize("name", ["musk_turtle", "river_cooter_adult"])
def test_the_sentences_of_a_page_are_those_of_the_mishaps_one_by_one(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """And are run in a few lots, so that no page waits for them."""
    runs = []

    def counted(tank: Any, *given: Any) -> Any:
        runs.append(tank.count)
        return through(tank, *given)

    monkeypatch.setattr(lanes, "through", counted)
    monkeypatch.setattr(side_by_side, "through", counted)
    tank = _tank(name)
    short = side_by_side.mishaps_in_short(tank, Lanes.best(tank.best))
    assert len(runs) <= 6 and sum(runs) <= 80
    for one in short:
        assert mishap_sentence(one, "us") == mishap_sentence(
            _outcomes(name)[one.mishap.mishap], "us"
        )
    assert len(short) == len(_outcomes(name))


def test_the_whole_page_says_what_follows_if_something_fails() -> None:
    interview, title = filled(demo_folder() / "river_cooter_adult.yaml")
    told = " ".join(block_lines(layers_of(assembly.audit_of(interview, title), None)))
    assert (
        "The power fails for a day in winter: the water is below 68 °F after 15 h; with a blanket "
        "round it and a lid not within that time."
    ) in " ".join(told.split())


def test_a_mishap_that_no_limit_is_known_for_is_not_called_harmless() -> None:
    outcome = replace(_outcomes("musk_turtle")["heater_stuck"], passed=())
    lacking: dict[str, CannotWorkOut] = {"filter": Missing("species")}
    blocks = in_short_blocks([outcome], lacking, str, "metric")
    short = [one.text for one in blocks if isinstance(one, Paragraph)]
    assert short[1] == "Nitrogen and oxygen can't be followed yet: not told is “species”."
    assert short[0] == f"Not judged, as no limit is known of this tank yet: {outcome.mishap.title}."
    page = mishap_blocks("A tank", [outcome], {}, str, "metric")
    ((_, said),) = next(one for one in page if isinstance(one, Items)).rows
    assert said[0] == "Not judged, as no limit is known of this tank yet."
    sentence = mishap_sentence(outcome, "metric").text
    assert sentence == f"{outcome.mishap.title}: not judged, as no limit is known of this tank yet."
    assert not any("Nothing" in text for text in (*short, *said))


def test_the_rows_are_whole() -> None:
    rules = mishap_rules()
    ids = [one.mishap for one in rules.mishaps]
    assert len(ids) == len(set(ids)) == 10
    for one in rules.mishaps:
        assert one.watch and rules.watched(one)
        assert plan_of(one).length == one.followed.to("s")


def test_best_values_stand_in_the_first_lane() -> None:
    tank = _tank("musk_turtle")
    lanes = Lanes.of(tank, 16)
    for name in ("water_volume", "heat_loss", "room_temperature_low", "shell_warming_time"):
        assert lanes.limit(name)[0] == pytest.approx(float(tank.best.value(name)))
    assert lanes.limit("nitrate_close").tolist() == [100.0] * 16
    assert value_of(np.array([5.0, *range(100)])).high >= 90


def test_no_answer_is_asked_of_what_isnt_there() -> None:
    best = _tank("musk_turtle").best
    bare = {**best.known, "filter_kind": "none", "heat_lamp_kind": "none"}
    for name in ("basking_temperature", "heat_lamp_height"):
        del bare[name]
    lacking = Lanes.best(best.with_known(bare)).tank.lacking
    (said,) = lacking_said(lacking, str, "metric")
    assert isinstance(said, Paragraph)
    assert said.text == (
        "The basking spot and the shell can't be followed: there is no heat lamp. "
        "Nitrogen and oxygen can't be followed: there is no filter."
    )


def test_what_no_formula_holds_for_is_said_in_the_keepers_words() -> None:
    hot: dict[str, CannotWorkOut] = {
        "filter": OutOfRange("water_temperature", 37.0, 10.0, 35.0, "degC")
    }
    (said,) = lacking_said(hot, _tank("musk_turtle").label_of, "us")
    assert isinstance(said, Paragraph)
    assert said.text == (
        "Nitrogen and oxygen can't be followed: water temperature is 99 °F, and the sums hold only "
        "from 50 °F to 95 °F."
    )


def test_a_shell_that_is_never_in_its_band_is_said_to_be_so() -> None:
    days, _ = days_of(_tank("musk_turtle"))
    never = replace(days[1], hours_in_band=replace(days[1].hours_in_band, best=0.0))
    for day, told in ((days[1], "is inside its basking band for "), (never, "is at no time ")):
        of_year = [replace(day, season=season) for season in ("coldest", "mean", "warmest")]
        page = day_blocks("A tank", of_year, {}, {"water": None, "shell": None}, str, "metric")
        assert told in next(one.text for one in page if isinstance(one, Paragraph))


def test_charts_keep_to_60_columns_and_are_drawn_as_svg() -> None:
    tank = _tank("musk_turtle")
    days, _ = days_of(tank)
    drawings = list(day_drawings(days[1], bands_of(tank), "metric"))
    assert [drawing.picture.name for drawing in drawings] == ["day", "day_basking"]
    for drawing in drawings:
        assert max(map(len, drawing.lines)) <= 60
        assert "wanted: " in "".join(drawing.lines)
        svg = drawing.picture.svg()
        assert "<svg " in svg and "wanted: " in svg
    assert bands_of(tank) == {"water": (22.0, 26.0), "shell": (27.0, 32.0)}


def test_times_are_said_in_words() -> None:
    assert in_hours(np.inf, "metric") == "never" and in_hours(5.0, "metric") == "at once"
    assert in_hours(32400.0, "metric") == "9 h"


def test_no_blanket_meets_a_lamp_and_no_lid_comes_off_without_a_mesh() -> None:
    """Cloth on a lamp that comes on again burns, an open tank is climbed out of: common practice,
    no source."""
    told = [step.say.lower() for mishap in mishap_rules().mishaps for step in mishap.do]
    helped = [aid.say for mishap in mishap_rules().mishaps for aid in mishap.helps]
    assert sum("blanket" in do for do in told) == 6 and sum("lid off" in do for do in told) == 4
    assert all("lamp" in do for do in told if "blanket" in do)
    assert all("lid off (mesh instead)" in do for do in told if "lid off" in do)
    assert not any("no lid" in say for say in helped)


def test_what_is_said_to_do_speaks_of_what_the_tank_has() -> None:
    """A canister, a lid or a lamp is named only where there is one, or may be."""

    def said(name: str, mishap: str) -> str:
        outcome = _outcomes(name)[mishap]
        return " ".join((*outcome.do, *(one.say for one in outcome.helped)))

    sponge = _tank("musk_turtle")
    known = {**sponge.best.known, "filter_kind": "sponge", "cover_water": "none"}
    best = sponge.best.with_known({**known, "heat_lamp_kind": "none", "uvb_lamp_kind": "none"})
    row = next(one for one in mishap_rules().mishaps if one.mishap == "power_cut_24_h_winter")
    fitting = [step.say for step in row.do if fits(step.when, replace(sponge, best=best))]
    assert fitting == [
        "A lid over the water and blankets round the glass, clear of every lamp.",
        "An air pump on a battery.",
    ]
    assert "the lid stays on" in said("musk_turtle", "power_cut_24_h_winter")
    assert "canister" in said("musk_turtle", "power_cut_24_h_winter")
    for name in ("river_cooter_adult", "musk_turtle"):
        covered = _tank(name).best.get("cover_water") in ("glass", "plastic")
        for mishap in ("heat_wave", "power_cut_24_h_heat"):
            assert ("Lid off" in said(name, mishap)) == covered


def test_one_of_several_heaters_fails_and_the_page_says_so() -> None:
    outcome = _outcomes("river_cooter_adult")["heater_dead"]
    assert outcome.heaters == 2
    ((_, said),) = next(one for one in mishap_blocks("A tank", [outcome], {}, str, "metric")
                        if isinstance(one, Items)).rows  # fmt: skip
    assert said[0] == "It is one of 2; the others work on."
    assert said[1] == "Nothing that is watched passes its limit."


def test_mishaps_are_drawn_with_their_doubt_and_the_limit() -> None:
    outcomes = list(_outcomes("musk_turtle").values())
    drawn = list(mishap_drawings(outcomes, "metric"))
    titles = [one.text for one in drawn if isinstance(one, Heading)]
    assert titles == ["The power fails for a day in winter", "A heater sticks on, on a warm day"]
    cold, hot = (one for one in drawn if isinstance(one, Drawing))
    assert cold.picture and cold.picture.name == "mishap_power_cut_24_h_winter"
    assert hot.picture and hot.picture.name == "mishap_heater_stuck"
    for drawing in (cold, hot):
        assert max(map(len, drawing.lines)) <= 60
        assert (
            "<svg " in drawing.picture.svg() and "where the water may be" in drawing.picture.svg()
        )
    curves = _outcomes("musk_turtle")["power_cut_24_h_winter"].curves
    assert np.all(curves["water_low"] <= curves["water_high"])
    during = curves["time"] <= 86400.0
    assert np.all(np.diff(curves["water"][during]) < 0), "nothing warms it while the power is off"
    assert np.abs(np.diff(curves["water"])).max() < 0.5 and curves["room"].min() > 0


def test_a_tank_without_a_uvb_lamp_has_no_row_for_it() -> None:
    days, lacking = days_of(_tank("painted_turtles_classroom"))
    assert all(day.uv_index is None for day in days)
    assert str(lacking["uv"]) == "there is no UVB lamp"
    page = day_blocks("A tank", days, lacking, {"water": None, "shell": None}, str, "metric")
    rows = next(one.rows for one in page if isinstance(one, Table))
    assert not any("UV" in row[0] for row in rows)
    assert lacking_said(lacking, str, "metric") == []
    days, lacking = days_of(_tank("river_cooter_adult"))
    assert "uv" not in lacking and all(day.uv_index for day in days)


def test_how_long_the_shell_is_over_its_band_is_said() -> None:
    """Inside, over and under it make up the day."""
    day = days_of(_tank("musk_turtle"))[0][1]
    under = time_past(day.time, day.curves["shell"][:, None], 27.0, falling=True)[0]
    assert day.hours_in_band and day.hours_over_band
    both = day.hours_in_band.best + day.hours_over_band.best
    assert both + under == pytest.approx(86400.0, abs=1.0)
    assert day.hours_over_band.best > 10 * 3600


def test_a_year_whose_water_stays_says_so() -> None:
    said = year_drawing(_year("river_cooter_adult"), None, "us").words
    assert said == "Week by week the water stays near 77 °F."
