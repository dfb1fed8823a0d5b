"""The recheck: at most five answers after the lamp was moved, and an honest before and after."""

from __future__ import annotations

import datetime
import io
import os
import re
import shutil
import time
from functools import cache
from pathlib import Path

import pytest

from interview import assembly, setups
from interview.advice.advise import Advice, Progress
from interview.advice.what_if.suppose import changed
from interview.base.places import demo_folder
from interview.chat.faces.line_face import PlainFace
from interview.chat.hearing.turtles.gone import tells_of_one_gone
from interview.chat.hearing.turtles.newcomer import another_told
from interview.chat.rechecks.joining import as_newcomer
from interview.chat.rechecks.rechecking import recheck
from interview.cli import main
from interview.core.wiring import quantities
from interview.graph.interview import Interview, Place
from interview.report.formats.json_values import number
from interview.setups.earlier import keep_past


@cache
def _advice() -> Advice:
    interview = assembly.new_interview()
    path = demo_folder() / "musk_turtle.yaml"
    setups.fill(interview, setups.read(path, interview.questionnaire))
    return assembly.advice_of(assembly.audit_of(interview, ""))


@pytest.fixture(autouse=True)
def one_advice(monkeypatch: pytest.MonkeyPatch) -> None:
    """What to change is worked out once: here it is about the talk, in test_demo about both."""
    advice = _advice()
    monkeypatch.setattr(assembly, "advice_of", lambda audit, today=None: advice)


@pytest.fixture
def tank(tmp_path: Path) -> Path:
    return Path(shutil.copy(demo_folder() / "musk_turtle.yaml", tmp_path / "musk.yaml"))


def _recheck(path: Path, *lines: str) -> str:
    out = io.StringIO()
    recheck(PlainFace(io.StringIO("\n".join(lines) + "\n"), out), path)
    return out.getvalue()


def _filled(path: Path) -> Interview:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(path, interview.questionnaire))
    return interview


def test_a_moved_lamp_takes_five_answers(tank: Path) -> None:
    lines = ["lamp to platform", "25 cm", "", "29.5 °C", "yes"]
    shown = _recheck(tank, *lines)
    assert shown.count("Answer:") == len(lines) == 5
    assert "I expect 29.4 °C now" in shown
    assert "Before and after" in shown
    kept = _filled(tank)
    assert kept.answers[Place("heat_lamp_height")].said == "25 cm"
    assert kept.answers[Place("basking_temperature")].said == "29.5 °C"
    assert tank.with_suffix(".md").exists()


def test_what_is_skipped_says_which_answer_counts_now(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "lamp to platform", "later", "", "no").split())
    assert "Then it stays as it was told: 22 cm." in shown
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "22 cm"
    moved = " ".join(_recheck(tank, "lamp to platform", "25 cm", "", "skip", "no").split())
    assert "no longer counts, and it is left open." in moved
    assert Place("basking_temperature") not in _filled(tank).answers


def test_who_asks_back_at_a_recheck_is_told_what_to_type(tank: Path) -> None:
    shown = _recheck(tank, "are you sure", "", "no")
    assert "and I ask that question" in " ".join(shown.split())
    assert "No question goes by" not in shown


def test_only_what_the_lamp_touches_is_asked(tank: Path) -> None:
    shown = _recheck(tank, "lamp to platform", "25 cm", "", "", "no")
    asked = [line for line in shown.splitlines() if ", question " in line]
    assert len(asked) == 2
    assert _filled(tank).answers[Place("basking_temperature")].said == "about 29.4 °C"


def test_the_prediction_is_the_audit_of_the_changed_tank(tank: Path) -> None:
    """To the last digit that JSON shows; only where the reading was taken differs by definition."""
    before = assembly.audit_of(_filled(tank), "")
    predicted = changed(before.tank, {"heat_lamp_height": 0.25}).best
    text = tank.read_text(encoding="utf-8").replace(
        "heat_lamp_height: 22 cm", "heat_lamp_height: 25 cm"
    )
    reading = float(predicted.value("platform_temperature"))
    tank.write_text(text.replace("31 °C", f"{reading:.11g} °C"), encoding="utf-8")
    fresh = assembly.audit_of(_filled(tank), "").tank.best
    known = [name for name in quantities().formulas if fresh.get(name) is not None]
    different = [n for n in known if number(fresh.value(n)) != number(predicted.value(n))]
    assert different == ["heat_lamp_height_when_measured"]
    assert len(known) > 80


def test_a_reading_that_surprises_is_said(tank: Path) -> None:
    shown = _recheck(tank, "lamp to platform", "25 cm", "", "45 °C", "no")
    assert "is not what I expected" in shown


def test_the_old_answers_are_kept_beside(tank: Path) -> None:
    _recheck(tank, "lamp to platform", "25 cm", "", "", "no")
    (old,) = (tank.parent / "history").glob("musk-*.yaml")
    assert "heat_lamp_height: 22 cm" in old.read_text(encoding="utf-8")


def test_nothing_changed_changes_nothing(tank: Path) -> None:
    shown = _recheck(tank, "", "no")
    assert "No verdict changed." in shown


def _asks(shown: str) -> int:
    return shown.count("Answer:")


def test_a_raised_lamp_told_in_words_takes_five_answers(tank: Path) -> None:
    lines = ["I raised the lamp", "25 cm", "", "29.5 °C", "yes"]
    shown = _recheck(tank, *lines)
    assert _asks(shown) == len(lines) == 5
    assert "2. UVB lamp to platform" in shown
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "25 cm"
    assert _filled(tank).answers[Place("basking_temperature")].said == "29.5 °C"


def test_how_far_it_was_moved_is_reckoned_and_takes_five_answers(tank: Path) -> None:
    shown = _recheck(tank, "lamp moved up 5 cm", "", "", "28.5 °C", "yes")
    assert _asks(shown) == 5
    assert "It was 22 cm, so it should be 27 cm now. Enter takes that." in " ".join(shown.split())
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "27 cm"


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("I hung the lamp lower and he is 11 cm now", {"heat_lamp_height": "22 cm"}),
        ("lamp 3 cm lower, turtle is 11 cm now", {"heat_lamp_height": "19 cm"}),
        ("he got bigger: 11 cm. And the UVB lamp is 5 cm lower", {"uvb_lamp_height": "25 cm"}),
        ("water at 25 C now, Dot has grown to 11 cm", {"water_temperature": "25 C"}),
        ("the filter is 2 years old now, our musk measures 11 cm", {"filter_age": "2 years"}),
    ],
)
def test_of_two_changes_in_a_line_each_is_taken_as_its_own(
    tank: Path, said: str, kept: dict[str, str]
) -> None:
    _recheck(tank, said, *[""] * 6, "no")
    answers = _filled(tank).answers
    assert answers[Place("carapace_length", 0)].said == "11 cm"
    assert {name: answers[Place(name)].said for name in kept} == kept


@pytest.mark.parametrize("said", ["yes", "everything", "I changed a lot", "yes, there is more"])
def test_who_says_that_something_changed_is_asked_what(tank: Path, said: str) -> None:
    shown = _recheck(tank, said, "lamp moved up 5 cm", "", "", "28.5 °C", "no")
    assert "What was it?" in shown
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "27 cm"


@pytest.mark.parametrize(
    "said",
    [
        "nothing really, just wanted to see",
        "that's about it I think",
        "no, all is well with her",
        "thanks",
    ],
)
def test_who_only_looks_in_changed_nothing(tank: Path, said: str) -> None:
    shown = _recheck(tank, said, "no")
    assert "No verdict changed." in shown and "No question goes by" not in shown


def test_what_was_answered_as_a_person_is_no_name_of_a_question(tank: Path) -> None:
    shown = _recheck(tank, "I got zapped when I put my hand in", "", "no")
    assert "breaker" in shown and "No question goes by" not in shown
    shown = _recheck(tank, "we painted the wall, the cat likes it a lot", "", "no")
    assert " ".join(shown.split()).count("I can't tell which answer that is of") == 1


def test_a_yes_takes_what_it_should_be_now(tank: Path) -> None:
    shown = _recheck(tank, "lamp moved up 5 cm", "yes", "", "28.5 °C", "yes")
    assert _asks(shown) == 5
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "27 cm"


@pytest.mark.parametrize(
    ("said", "name", "kept"),
    [
        ("I lowered the lamp by 2 cm", "heat_lamp_height", "20 cm"),
        ("raised the lamp to 25 cm", "heat_lamp_height", "25 cm"),
        ("moved the uvb lamp 5 cm higher", "uvb_lamp_height", "35 cm"),
        ("the water is 2 cm lower", "water_line_below_rim", "13 cm"),
        ("raised the water 1 inch", "water_line_below_rim", "8.46 cm"),
    ],
)
def test_a_move_is_told_with_its_distance(tank: Path, said: str, name: str, kept: str) -> None:
    _recheck(tank, said, "", "", *[""] * 9, "no")
    assert _filled(tank).answers[Place(name)].said == kept


@pytest.mark.parametrize(
    ("said", "offered"),
    [
        ("moved the uvb tube closer, 25 cm", {"uvb_lamp_height": "25 cm"}),
        ("moved the uvb tube closer by 5 cm", {"uvb_lamp_height": "25 cm"}),
        ("moved the uvb tube from 30 to 25 cm", {"uvb_lamp_height": "25 cm"}),
        (
            "lamp is now 30 cm up and the water is down 2 cm",
            {"heat_lamp_height": "30 cm", "water_line_below_rim": "13 cm"},
        ),
        ("water level is now 8 cm below the rim", {"water_line_below_rim": "8 cm"}),
        ("swapped the 50 watt for a 75 watt bulb", {"heat_lamp_power": "75 watt"}),
        ("I put in a new bulb, 75 watts", {"heat_lamp_power": "75 watts"}),
        ("nitrate is 45 ppm", {"nitrate": "45 ppm"}),
    ],
)
def test_the_number_told_is_what_enter_takes(
    tank: Path, said: str, offered: dict[str, str]
) -> None:
    shown = " ".join(_recheck(tank, said, *[""] * len(offered), "stop").split())
    answers = _filled(tank).answers
    assert {name: answers[Place(name)].said for name in offered} == offered
    assert all(f"{value} now. Enter takes that." in shown for value in offered.values())


def test_only_the_questions_of_this_recheck_are_counted(tank: Path) -> None:
    shown = _recheck(tank, "heat lamp to 25 cm", "", "", "", "no")
    counted = re.findall(r", question (\d+ of about \d+)", shown)
    assert counted == ["1 of about 2", "2 of about 2"]


@pytest.mark.parametrize(("reply", "kept"), [("1", "10 cm"), ("by", "20 cm"), ("", "30 cm")])
def test_at_or_by_is_asked_where_both_can_be(tank: Path, reply: str, kept: str) -> None:
    lines = ["moved the uvb tube closer, 10 cm", reply, "", "stop"]
    shown = " ".join(_recheck(tank, *lines).split())
    assert "The UVB lamp: at 10 cm, or by 10 cm?" in shown
    assert "2. by 10 cm, which makes 20 cm" in shown
    assert _filled(tank).answers[Place("uvb_lamp_height")].said == kept


@pytest.mark.parametrize("said", ["lowered the uvb lamp by 25 cm", "lowered the uvb lamp 25 cm"])
def test_a_lamp_much_nearer_is_never_proposed_without_asking(tank: Path, said: str) -> None:
    shown = " ".join(_recheck(tank, said, "", "stop").split())
    assert "at 25 cm, or by 25 cm?" in shown
    assert "should be 5 cm" not in shown


@pytest.mark.parametrize(
    "said",
    [
        # sideways, of another thing, and up by or up there
        "I moved the lamp 5 cm to the left",
        "the lamp hangs 5 cm lower than the uvb",
        "the lamp is 5 cm up",
        # as it was, wished, given up
        "the lamp used to hang at 18 cm",
        "I wanted to raise the lamp to 30 cm but didn't",
        "I thought about raising the lamp 5 cm but left it",
        "we nearly bought a 100 W heater",
        "was a 150 W heater",
        "I returned the 100 W heater",
        # a safety device that is planned, lost or failed
        "I want to add an rcd and a heater guard",
        "we are going to put a guard on the heater",
        "had the rcd removed",
        "put the timer away",
        "mesh under the uvb was cut out",
        "bought a heater guard but it is in its box",
        "we had a heater guard",
        "if the landlord agrees we get a gfci",
        # old as new, and out for a moment
        "uvb bulb replaced in March",
        "new uvb tube, 6 months ago",
        "took the heater out to clean it",
    ],
)
def test_what_is_doubtful_is_asked_about_and_never_offered(tank: Path, said: str) -> None:
    before = _filled(tank).answers
    shown = " ".join(_recheck(tank, said, "", "", "stop").split())
    assert "Enter takes that" not in shown and ", question 1 of" in shown
    assert _filled(tank).answers == before


def test_a_move_that_cannot_be_is_not_proposed(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "lowered the uvb lamp by 29.5 cm", "stop").split())
    assert "I can't tell what “29.5 cm” makes of it, so I ask." in shown
    assert "Enter takes that" not in shown


def test_a_second_turtle_is_counted_and_then_asked_about(tank: Path) -> None:
    shown = _recheck(tank, "got a second turtle", "", "", "painted turtle", "12 cm", "", "no")
    assert "With another one that makes 2. Enter takes that." in " ".join(shown.split())
    kept = _filled(tank).answers
    assert kept[Place("animal_count")].said == "2"
    assert kept[Place("species", 0)].said == "common musk turtle"
    assert kept[Place("species", 1)].said == "painted turtle"


@pytest.mark.parametrize("said", ["it went up", "I moved everything around", "we have moved"])
def test_a_move_of_nothing_that_is_known_is_not_followed(tank: Path, said: str) -> None:
    shown = " ".join(_recheck(tank, said, "stop").split())
    unknown = (f"No question goes by “{said.casefold()}”", "I can't tell which answer that is of")
    assert any(text in shown for text in unknown)


def test_what_is_not_followed_is_said_and_the_rest_is_taken(tank: Path) -> None:
    shown = _recheck(tank, "nitrate is 45 ppm and 3 zorkmids glibbered", "", "stop")
    assert "No question goes by “3 zorkmids glibbered”" in " ".join(shown.split())
    assert _filled(tank).answers[Place("nitrate")].said == "45 ppm"


def test_which_lamp_is_meant_is_said_in_the_keepers_words(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "lowered the lamp by 2 inches", "stop").split())
    assert "I take this for the heat lamp; for the UVB lamp type 2." in shown


def test_the_other_lamp_is_one_number_away(tank: Path) -> None:
    _recheck(tank, "I raised the lamp", "2", "35 cm", "", "", "no")
    kept = _filled(tank).answers
    assert kept[Place("uvb_lamp_height")].said == "35 cm"
    assert kept[Place("heat_lamp_height")].said == "22 cm"


def test_the_other_lamp_may_be_named(tank: Path) -> None:
    _recheck(tank, "I raised the lamp 5 cm", "the uvb lamp", "", "", "", "no")
    kept = _filled(tank).answers
    assert kept[Place("uvb_lamp_height")].said == "35 cm"
    assert kept[Place("heat_lamp_height")].said == "22 cm"


def test_change_works_at_a_question_of_the_recheck(tank: Path) -> None:
    _recheck(tank, "lamp to platform", "25 cm", "", "change nitrate", "45 ppm", "", "no")
    kept = _filled(tank).answers
    assert kept[Place("nitrate")].said == "45 ppm"
    assert kept[Place("basking_temperature")].said == "about 29.4 °C"


def test_an_ill_animal_goes_to_a_veterinarian_before_anything_is_asked(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "he is gasping with his mouth open", "stop").split())
    assert "call a reptile veterinarian now" in shown


def test_stop_leaves_before_anything_is_changed(tank: Path) -> None:
    before = tank.read_text(encoding="utf-8")
    shown = _recheck(tank, "stop")
    assert "Saved in" in shown
    assert "No question goes by" not in shown
    assert "heat_lamp_height: 22 cm" in before
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "22 cm"


def test_what_has_changed_never_counts_as_measured_now(tank: Path) -> None:
    shown = _recheck(tank, "lamp to platform", "25 cm", "", "done", "skip", "no")
    assert "This may have changed: type it anew, or “skip” leaves it open." in shown
    assert "Before and after" in shown
    kept = _filled(tank)
    assert Place("basking_temperature") not in kept.answers
    assert kept.answers[Place("heat_lamp_height")].said == "25 cm"


def test_another_tank_begins_after_a_recheck(
    tank: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tank.parent))
    monkeypatch.setattr("sys.stdin", io.StringIO("next\nliving\nstop\n"))
    assert main(["recheck", str(tank), "--plain"]) == 0
    shown = capsys.readouterr().out
    assert shown.index("This tank is kept as it is") < shown.index("Your answers are kept in")
    assert "Go on with" not in shown and "Look again" not in shown
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "22 cm"


def test_leaving_keeps_what_was_said(tank: Path) -> None:
    shown = _recheck(tank, "lamp to platform", "25 cm", "", "stop")
    assert "Saved in" in shown
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "25 cm"


def _written(path: Path, days_ago: float) -> None:
    then = time.time() - days_ago * 86400
    os.utime(path, (then, then))


def test_a_second_recheck_shows_how_things_went(tank: Path) -> None:
    _written(tank, 20)
    shown = _recheck(tank, "nitrate", "45 ppm", "", "no")
    then = (datetime.date.today() - datetime.timedelta(days=20)).isoformat()
    assert "Over time" in shown
    assert f"Nitrate: 30 mg/L on {then}; 45 mg/L today" in " ".join(shown.split())


def test_what_ages_is_asked_again_after_a_month(tank: Path) -> None:
    """100 days later the filter is 100 days older; the lamp was lit half of them."""
    before = _filled(tank).known()
    _written(tank, 100)
    shown = _recheck(tank, "", "", "", "no")
    assert "That was 100 days ago" in shown
    after = _filled(tank).known()
    assert after["filter_age"] - before["filter_age"] == pytest.approx(100 * 86400, rel=0.02)
    assert after["uvb_lamp_age"] - before["uvb_lamp_age"] == pytest.approx(50 * 86400, rel=0.02)


def test_within_a_month_nothing_has_aged(tank: Path) -> None:
    _written(tank, 20)
    shown = _recheck(tank, "", "no")
    assert "days ago" not in shown
    assert ", question " not in shown


@pytest.mark.parametrize("name", sorted(path.stem for path in demo_folder().glob("*.yaml")))
def test_every_kind_of_answer_can_be_asked_again(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With all in doubt and nothing moved, Enter keeps every answer."""
    path = Path(shutil.copy(demo_folder() / f"{name}.yaml", tmp_path / "tank.yaml"))
    filled = _filled(path)
    before, relevant = filled.known(), filled.relevance()
    doubted = [place for place in filled.places() if place in filled.answers and relevant[place]]
    monkeypatch.setattr(
        "interview.chat.rechecks.recheck_talk.RecheckTalk.let_pass",
        lambda talk, _: talk.interview.doubtful.update(talk.interview.answers),
    )
    shown = _recheck(path, "", *[""] * len(doubted), "no")
    assert shown.count(", question ") == len(doubted) > 30
    assert "Not taken" not in shown
    assert _filled(path).known() == before


def test_what_comes_up_with_a_change_is_asked(tank: Path) -> None:
    """A second turtle has a kind and a shell; what was left open before stays open."""
    shown = _recheck(tank, "number of turtles", "2", "", "painted turtle", "12 cm", "", "no")
    assert "Turtle 2: What is it, how long is its shell" in shown
    kept = _filled(tank).answers
    assert kept[Place("species", 1)].said == "painted turtle"
    assert kept[Place("carapace_length", 1)].said == "12 cm"


def test_a_meter_reading_is_expected_like_a_temperature(tmp_path: Path) -> None:
    """From 16 to 20 in: the audit of the changed tank and the expected reading agree."""
    path = Path(shutil.copy(demo_folder() / "river_cooter_adult.yaml", tmp_path / "cooter.yaml"))
    before = assembly.audit_of(_filled(path), "").tank
    after = changed(before, {"uvb_lamp_height": 20 * 0.0254}).best
    shown = _recheck(path, "uvb lamp to platform", "20 in", "", "", "", "no")
    assert "Measure it; Enter takes that. Use a meter" in " ".join(shown.split())
    now = assembly.audit_of(_filled(path), "").tank.best
    assert now.value("uv_index_shell") == pytest.approx(after.value("uv_index_shell"), rel=0.01)


def test_leaving_keeps_the_old_answers_too(tank: Path) -> None:
    _recheck(tank, "lamp to platform", "25 cm", "stop")
    (old,) = (tank.parent / "history").glob("musk-*.yaml")
    assert "heat_lamp_height: 22 cm" in old.read_text(encoding="utf-8")


def test_a_recheck_left_half_way_keeps_its_prediction(tank: Path) -> None:
    """Taken up again it expects, compares and warns as if nobody had left."""
    whole = Path(shutil.copy(tank, tank.with_name("whole.yaml")))
    shown = _recheck(whole, "lamp to platform", "25 cm", "", "45 °C", "no")
    left = _recheck(tank, "lamp to platform", "25 cm", "", "stop")
    assert "I expect 29.4 °C now" in left
    again = _recheck(tank, "", "45 °C", "no")
    assert "I go on from there" in again and "I expect 29.4 °C now" in again
    for words in ("45 °C is not what I expected", "Grade D before"):
        assert words in " ".join(shown.split()) and words in " ".join(again.split())
    histories = list((tank.parent / "history").glob("musk-*.yaml"))
    assert len(histories) == 1 and "heat_lamp_height: 22 cm" in histories[0].read_text("utf-8")


def test_the_end_of_input_half_way_loses_nothing_either(tank: Path) -> None:
    _recheck(tank, "lamp to platform", "25 cm")
    again = _recheck(tank, "", "", "no")
    assert "I expect 29.4 °C now" in again and "Before and after" in again


def test_a_new_tank_asks_again_what_came_with_the_old_one(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "tank size", "120 x 50 x 50 cm", "stop").split())
    told = shown.partition("That may have changed: ")[2].partition(". I'll ask again")[0]
    for label in ("Water below rim", "Stand", "Platform size", "Gap beside platform"):
        assert label in told


def test_without_its_heater_the_waters_warmth_is_asked_again(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "heater mounting", "none", "stop").split())
    assert "That may have changed: Water temperature" in shown


def test_in_another_room_the_basking_surface_is_read_again_and_the_lamp_stays_the_lamp(
    tank: Path,
) -> None:
    """The lamp's heat was calibrated in the old room; the new room only shifts the reading."""
    before = assembly.audit_of(_filled(tank), "").tank
    after = changed(before, {"room_temperature_low": 12.0})
    assert after.best.value("lamp_heat") == before.best.value("lamp_heat")
    shown = _recheck(tank, "coldest room", "12 °C", "", "", "", "no")
    reading = float(after.best.value("platform_temperature"))
    assert reading < before.best.known["basking_temperature"]
    assert f"I expect {reading:.3g} °C now" in shown


def test_a_number_that_is_not_used_is_named(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "lamp to platform 25", "stop").split())
    assert "I could not use the number in “lamp to platform 25”: its unit may be missing." in shown


def test_a_distance_told_of_a_lamp_is_about_its_distance(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "lamp is at 25 cm", "", "stop").split())
    assert "for the UVB lamp type 2" in shown
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "25 cm"


@pytest.mark.parametrize("year", [1970, 2200])
def test_a_clock_that_was_wrong_ages_nothing_and_is_told(tank: Path, year: int) -> None:
    then = datetime.datetime(year, 1, 2).timestamp()
    os.utime(tank, (then, then))
    before = _filled(tank).known()
    shown = " ".join(_recheck(tank, "nitrate", "45 ppm", "", "no").split())
    assert f"last saved on {year}-01-02, so a clock was wrong" in shown
    assert "days ago" not in shown
    assert _filled(tank).known()["uvb_lamp_age"] == before["uvb_lamp_age"]
    assert f"Nitrate: 30 mg/L on {year}-01-02; 45 mg/L today" in shown
    assert "a clock was wrong. What was written first stands first." in shown


def test_earlier_values_stand_in_the_order_of_writing(tank: Path) -> None:
    then = datetime.datetime(2200, 1, 2).timestamp()
    os.utime(tank, (then, then))
    _recheck(tank, "nitrate", "40 ppm", "", "no")
    _written(tank, 20)
    shown = " ".join(_recheck(tank, "nitrate", "45 ppm", "", "no").split())
    day = (datetime.date.today() - datetime.timedelta(days=20)).isoformat()
    assert f"Nitrate: 30 mg/L on 2200-01-02; 40 mg/L on {day}; 45 mg/L today" in shown


def test_a_year_of_rechecks_shows_how_things_went(tank: Path) -> None:
    """Every month a longer shell and more nitrate; in autumn the lamp was replaced."""
    today = datetime.date.today()
    noon = datetime.datetime.combine(today, datetime.time(12))
    now = assembly.questionnaire()
    for month in range(11, 0, -1):
        past = setups.read(tank, now)
        past.answers[Place("carapace_length", 0)] = f"{12 - 0.2 * month:.1f} cm"
        past.answers[Place("nitrate")] = f"{30 - month} mg/L"
        past.answers[Place("uvb_lamp_age")] = f"{400 * ((11 - month) % 8 + 1)} h"
        keep_past(tank, past, noon - datetime.timedelta(days=30 * month))
    _written(tank, 20)
    shown = " ".join(_recheck(tank, "nitrate", "31 mg/L", "", "no").split())
    _, _, told = shown.partition("Over time")
    months = range(11, 0, -1)
    days = [(today - datetime.timedelta(days=30 * month)).isoformat() for month in months]
    nitrate = [f"{30 - m} mg/L on {day}" for m, day in zip(months, days, strict=True)]
    assert "; ".join(nitrate) in told and "31 mg/L today" in told
    lengths = [float(cm) for cm in re.findall(r"([\d.]+) cm on", told)]
    assert len(lengths) == 12 and lengths[:11] == sorted(lengths[:11])
    assert f"3,200 lit hours on {days[7]}; another lamp, 400 lit hours on {days[8]}" in told
    assert len(list((tank.parent / "history").glob("*.yaml"))) == 12


def test_back_goes_to_what_this_recheck_asked_before(tank: Path) -> None:
    shown = _recheck(tank, "lamp to platform", "25 cm", "", "back", "26 cm", "", "no")
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "26 cm"
    assert "This is the first question of this recheck." not in shown
    first = _recheck(tank, "lamp to platform", "back", "25 cm", "", "", "no")
    assert "This is the first question of this recheck." in first


def test_what_was_only_expected_is_never_a_surprise(tank: Path) -> None:
    shown = _recheck(tank, "lamp to platform", "25 cm", "", "not sure", "no")
    assert "not what I expected" not in shown
    again = _recheck(tank, "lamp to platform", "28 cm", "", "", "no")
    assert "not what I expected" not in again


def test_another_turtle_on_the_food_of_one_is_said_and_more_food_is_not(tank: Path) -> None:
    lines = ("I got another turtle", "", "", "common musk turtle", "9 cm", "male")
    shown = " ".join(_recheck(tank, *lines, "", "none", "no").split())
    assert "How much food goes in at one feeding" in shown
    assert "2 turtles now share the food of 1" in shown
    more = (*lines[:2], "", "common musk turtle", "8 cm", "male", "5 g", "none", "no")
    assert "share the food" not in _recheck(tank, *more)


def test_what_lowered_water_does_to_nitrate_is_said_though_the_kit_read_before(tank: Path) -> None:
    told, enter = "I lowered the water by 3 cm", [""] * 5
    shown = " ".join(_recheck(tank, told, *enter, "no").split())
    said = r"nitrate should reach ([\d.]+) mg/L between changes now, ([\d.]+) mg/L before"
    found = re.search(said, shown)
    assert found and float(found[1]) > float(found[2])
    lines = ("the water is 3 cm higher", "", "nitrate", "28 mg/L", *enter, "no")
    tested = _recheck(tank, *lines)
    assert "Before and after" in tested and "nitrate should reach" not in tested


NO_MORE = ["that's all", "nope, nothing", "it's all the same", "no, that was it", "not sure"]


@pytest.mark.parametrize("line", NO_MORE)
def test_that_nothing_else_changed_is_said_in_many_ways(tank: Path, line: str) -> None:
    out = _recheck(tank, "nitrate is 30 now", "", line, "no")
    assert "No question goes by" not in out
    assert "Before and after" in out


ANOTHER = {
    "a friend gave us another musk, male, 8 cm": ("musk", "8 cm", "male"),
    "bought a second musk turtle, 7 cm": ("musk turtle", "7 cm", None),
    "got a new baby slider, female": ("slider", None, "female"),
}


@pytest.mark.parametrize("line", ANOTHER)
def test_what_is_told_of_another_turtle_is_its_own(tank: Path, line: str) -> None:
    before = _filled(tank).answers
    shown = _recheck(tank, line, "", "stop")
    assert "With another one that makes 2" in " ".join(shown.split())
    kept = _filled(tank).answers
    for name, said in zip(("species", "carapace_length", "sex"), ANOTHER[line], strict=True):
        second = kept.get(Place(name, 1))
        assert (second.said if second else None) == said
        assert kept[Place(name, 0)].said == before[Place(name, 0)].said


GONE = {
    "gave away the female": ["4 in", "4 1/2 in"],
    "turtle 2 died": ["4 in", "5 in"],
    "sold the smallest one": ["4 1/2 in", "5 in"],
}


@pytest.mark.parametrize("line", GONE)
def test_of_several_turtles_the_one_that_is_gone_leaves_the_others_as_they_were(
    tmp_path: Path, line: str
) -> None:
    three = Path(shutil.copy(demo_folder() / "painted_turtles_classroom.yaml", tmp_path / "t.yaml"))
    which = ["1"] if "smallest" in line else []
    shown = _recheck(three, line, *which, "stop")
    kept = _filled(three)
    assert kept.animal_count == 2
    lengths = [kept.answers[Place("carapace_length", turtle)].said for turtle in range(2)]
    assert lengths == GONE[line]
    assert ("I'm sorry." in shown) is ("died" in line)
    assert "Food each feeding" in shown


@pytest.mark.parametrize("line", ["the lamp died", "one bulb died", "gave away the old filter"])
def test_of_a_thing_that_is_gone_no_turtle_is_counted_out(tank: Path, line: str) -> None:
    shown = _recheck(tank, line, "", "stop")
    assert "sorry" not in shown
    assert _filled(tank).animal_count == 1


def test_a_second_filter_is_counted_and_flows_are_told_in_the_keepers_units(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "the filter moves 200 l/h more", "stop").split())
    assert "It was 800 L/h, so it should be 1000 L/h now." in shown
    shown = " ".join(_recheck(tank, "added a second filter, 800 l/h", "stop").split())
    assert "How many filters of this kind are running? It was 1, so it should be 2 now." in shown
    assert "L/h" not in shown.partition("It was 1")[2]


def test_how_far_may_be_told_behind_a_comma(tank: Path) -> None:
    shown = " ".join(_recheck(tank, "put the lamp lower, by 3 cm", "stop").split())
    assert "It was 22 cm, so it should be 19 cm now." in shown


ALL_THERE = [
    "she has gone off her food",
    "she has gone up to 12 cm",
    "he is gone to the vet",
    "I sold one filter",
    "we lost one bulb",
    "we gave up one feeding a week",
    "we sold the musk tank",
    "neither turtle died",
    "no turtle died",
    "none of the turtles died",
]


@pytest.mark.parametrize("line", ALL_THERE)
def test_a_turtle_is_not_gone_for_what_else_is(line: str) -> None:
    assert not tells_of_one_gone(line)


@pytest.mark.parametrize("line", ["the second turtle grew 2 cm", "the third turtle died"])
def test_a_turtle_that_is_counted_is_not_another(line: str) -> None:
    assert another_told(assembly.new_interview(), line) is None


def test_enter_takes_no_turtle_out(tmp_path: Path) -> None:
    three = Path(shutil.copy(demo_folder() / "painted_turtles_classroom.yaml", tmp_path / "t.yaml"))
    assert "Then all of them stay." in _recheck(three, "one of them died", "", "stop")
    assert _filled(three).animal_count == 3


def test_an_end_that_tells_of_an_ill_animal_is_none(tank: Path) -> None:
    shown = _recheck(tank, "no, but his eyes are swollen shut", "", "no")
    assert "reptile veterinarian" in " ".join(shown.split())


def test_a_change_told_where_the_page_is_offered_is_no_file_name(
    tank: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tank.parent)
    shown = " ".join(_recheck(tank, "", "raised the heat lamp by 5 cm", "no").split())
    assert "sounds like a change" in shown
    assert shown.count("Save this audit as Markdown?") == 2
    assert not list(tank.parent.glob("*.md"))


@pytest.mark.parametrize("age", ["", "not sure", "new"])
def test_a_lamp_told_new_stays_new_whatever_else_is_told_of_it(tank: Path, age: str) -> None:
    lines = ("I put in a new UVB tube", age, "uvb strength", "high", "", "no")
    shown = " ".join(_recheck(tank, *lines).split())
    assert shown.count("How long has the UVB lamp been in use?") == 1
    assert "I expect" not in shown and "UVB lamp lit for. I'll ask again" not in shown
    kept = _filled(tank)
    assert kept.known()["uvb_lamp_age"] == 0 and kept.answers[Place("uvb_strength")].said == "high"


def test_a_lamp_that_turns_out_used_is_asked_again(tank: Path) -> None:
    lines = ("I put in a new UVB tube", "500 hours", "uvb strength", "high", "", "stop")
    shown = " ".join(_recheck(tank, *lines).split())
    assert shown.count("How long has the UVB lamp been in use?") == 2
    assert "Measure it" not in shown


@pytest.fixture
def two_kinds(tmp_path: Path) -> Path:
    """A cooter and two painted turtles."""
    text = (demo_folder() / "painted_turtles_classroom.yaml").read_text("utf-8")
    path = tmp_path / "t.yaml"
    path.write_text(text.replace("{species: painted turtle", "{species: river cooter", 1), "utf-8")
    return path


def _lengths(path: Path) -> list[str]:
    kept = _filled(path)
    return [kept.answers[Place("carapace_length", one)].said for one in range(kept.animal_count)]


def test_the_one_of_its_kind_that_died_is_named_and_only_confirmed(two_kinds: Path) -> None:
    shown = " ".join(_recheck(two_kinds, "our cooter died on sunday", "yes", "stop").split())
    assert "Which one is it?" not in shown
    before, _, after = shown.partition("Is it turtle 1: river cooter, 4 in, male?")
    assert "I'm sorry." in before and "sorry" not in after
    assert _lengths(two_kinds) == ["4 1/2 in", "5 in"]


def test_a_kind_that_is_not_meant_asks_which_one(two_kinds: Path) -> None:
    shown = _recheck(two_kinds, "our cooter died on sunday", "no", "2", "stop")
    assert "Which one is it?" in shown
    assert _lengths(two_kinds) == ["4 in", "5 in"]


@pytest.mark.parametrize(
    ("answer", "left"),
    [("the cooter", ["4 1/2 in", "5 in"]), ("the painted female", ["4 in", "4 1/2 in"])],
)
def test_which_one_may_be_told_by_its_kind(two_kinds: Path, answer: str, left: list[str]) -> None:
    _recheck(two_kinds, "one of them died", "the painted one", answer, "stop")
    assert _lengths(two_kinds) == left


_SECOND = "I put in a second turtle, a little male slider of 9 cm"


@pytest.mark.parametrize(
    ("asked", "name", "kept"),
    [("I raised the heat lamp by 5 cm", "heat_lamp_height", "27 cm"), ("nitrate", "nitrate", "")],
)
def test_a_second_turtle_told_at_a_question_of_something_else_is_counted_behind_it(
    tank: Path, asked: str, name: str, kept: str
) -> None:
    before = _filled(tank).answers
    shown = " ".join(_recheck(tank, asked, _SECOND, "", "", "stop").split())
    assert "I keep that, and take it up once this is answered." in shown
    assert "With another one that makes 2" in shown
    after = _filled(tank).answers
    assert after[Place(name)].said == (kept or before[Place(name)].said)
    for own in ("species", "carapace_length", "sex"):
        assert after[Place(own, 0)].said == before[Place(own, 0)].said
    assert [after[Place(own, 1)].said for own in ("carapace_length", "sex")] == ["9 cm", "male"]


def test_a_second_turtle_told_where_turtles_are_counted_is_counted_once(tank: Path) -> None:
    _recheck(tank, "got a second turtle", _SECOND, "", "stop")
    after = _filled(tank).answers
    assert after[Place("animal_count")].said == "2"
    assert after[Place("sex", 1)].said == "male"


def test_a_move_is_asked_about_again_after_a_story_told_at_it(tank: Path) -> None:
    story = "the filter is a 600 L/h canister and the water is 24 C"
    shown = _recheck(tank, "I raised the heat lamp by 5 cm", story, "yes", "", "stop")
    assert shown.count("It was 22 cm, so it should be 27 cm now.") == 2
    after = _filled(tank).answers
    assert after[Place("heat_lamp_height")].said == "27 cm"
    assert after[Place("filter_rated_flow")].said == "600 L/h"


def test_a_move_told_at_another_question_is_asked_about_behind_it(tank: Path) -> None:
    shown = _recheck(tank, "nitrate", "I raised the heat lamp by 5 cm", "45 ppm", "", "stop")
    assert "I keep that, and take it up once this is answered." in shown
    after = _filled(tank).answers
    assert after[Place("nitrate")].said == "45 ppm"
    assert after[Place("heat_lamp_height")].said == "27 cm"


def test_who_joins_is_a_newcomer_unless_it_was_kept_apart(tank: Path) -> None:
    """“None” from before the turtle came is asked again; Enter takes that it shares the tank."""
    joins = ("I got another turtle", "", "", "common musk turtle", "9 cm", "male", "")
    shown = " ".join(_recheck(tank, *joins, "", "no").split())
    assert "where it was kept apart for as long before" in shown
    assert _filled(tank).answers[Place("other_animals")].value == ("newcomer_mixed",)
    assert "good → good" not in shown and "No newcomer" not in shown


def test_a_pet_that_was_told_stays_where_a_turtle_joins(tank: Path) -> None:
    interview = _filled(tank)
    interview.record(Place("other_animals"), "pet in reach, newcomer apart")
    assert as_newcomer(interview) == "newcomer mixed, pet in reach"


def test_a_change_that_an_illness_was_told_at_is_still_taken(tank: Path) -> None:
    shown = _recheck(tank, "nitrate", "he is bleeding", "35 mg/L", "", "", "")
    assert "call a reptile veterinarian now" in shown
    kept = _filled(tank)
    assert kept.answers[Place("nitrate")].said == "35 mg/L"
    assert kept.answers[Place("warning_signs")].value == ("bleeding",)


def test_an_illness_is_asked_about_where_nothing_else_changed(tank: Path) -> None:
    tank.write_text(re.sub(r"\n  warning_signs: .*", "", tank.read_text("utf-8")), "utf-8")
    shown = _recheck(tank, "he is bleeding", "", "", "")
    assert _filled(tank).answers[Place("warning_signs")].value == ("bleeding",), shown


# ---- what is kept is never lost


def _spoken(path: Path, *lines: str) -> str:
    return " ".join(_recheck(path, *lines).split())


@pytest.mark.parametrize("end", ["stop", None])
@pytest.mark.parametrize("first", ["nitrate", "water line"])
def test_a_move_that_waits_is_kept_where_the_recheck_ends_before(
    tank: Path, first: str, end: str | None
) -> None:
    lines = [first, "I raised the heat lamp by 5 cm", *([end] if end else [])]
    shown = _spoken(tank, *lines)
    assert "I keep that, and take it up once this is answered." in shown
    assert "Kept as you told it: Lamp to platform, 27 cm." in shown
    after = _filled(tank)
    assert after.answers[Place("heat_lamp_height")].said == "27 cm"
    assert Place("basking_temperature") in after.doubtful  # what it moved is asked next time


def test_a_turtle_that_waits_is_kept_where_the_recheck_ends_before(tank: Path) -> None:
    shown = _spoken(tank, "nitrate", _SECOND, "stop")
    assert "Kept as you told it: Number of turtles, 2." in shown
    after = _filled(tank).answers
    assert after[Place("animal_count")].said == "2"
    assert [after[Place(own, 1)].said for own in ("carapace_length", "sex")] == ["9 cm", "male"]


def test_a_change_whose_own_question_is_left_is_kept_too(tank: Path) -> None:
    _recheck(tank, "I put in a new UVB tube and raised the heat lamp by 5 cm", "stop")
    after = _filled(tank).known()
    assert after["uvb_lamp_age"] == 0
    assert after["heat_lamp_height"] == pytest.approx(0.27)


def test_what_cannot_be_kept_is_said(two_kinds: Path) -> None:
    shown = _spoken(two_kinds, "nitrate", "our turtle died", "stop")
    assert "I didn't get to “our turtle died”" in shown
    assert len(_lengths(two_kinds)) == 3


@pytest.mark.parametrize("other", ["I lowered the uvb lamp by 3 cm", "the uvb lamp is 3 cm lower"])
def test_a_move_told_where_a_length_is_asked_is_of_its_own_thing(tank: Path, other: str) -> None:
    before = _filled(tank).known()
    shown = _spoken(tank, "lamp to platform", other, "25 cm", "", "", "stop")
    assert "Do you mean" not in shown and "UVB tube length: 3" not in shown
    after = _filled(tank).known()
    assert after["heat_lamp_height"] == pytest.approx(0.25)
    moved = before["uvb_lamp_height"] - after["uvb_lamp_height"]
    assert moved == pytest.approx(0.03)


def _turtles(path: Path) -> list[str]:
    known = _filled(path).answers
    return [answer.said for place, answer in known.items() if place.id == "species"]


@pytest.mark.parametrize(
    "told",
    ["a male slider of 9 cm", "another slider, male, 9 cm", "2, another male slider of 9 cm"],
)
def test_what_is_told_of_a_newcomer_where_it_is_counted_is_its_own(tank: Path, told: str) -> None:
    (first,) = _turtles(tank)
    _recheck(tank, "got a second turtle", told, "stop")
    assert _turtles(tank) == [first, "slider"]
    assert _filled(tank).answers[Place("animal_count")].said == "2"
    assert _filled(tank).answers[Place("carapace_length", 1)].said == "9 cm"


def test_a_newcomer_told_twice_is_counted_once(tank: Path) -> None:
    _recheck(tank, "nitrate", *["I got another slider"] * 2, "", "", "stop")
    assert _filled(tank).answers[Place("animal_count")].said == "2"


def test_a_count_that_is_told_is_not_reckoned(tank: Path) -> None:
    _recheck(tank, "number of turtles", "3, another slider", "stop")
    assert _filled(tank).answers[Place("animal_count")].said == "3"


@pytest.mark.parametrize("line", ["another one", "one more", "one more please"])
def test_one_more_where_turtles_are_counted_is_no_other_tank(tank: Path, line: str) -> None:
    _recheck(tank, "number of turtles", line, "stop")
    assert _filled(tank).answers[Place("animal_count")].said == "2"


@pytest.mark.parametrize("leaves", ["not sure", "skip", "later", "I'll check that later"])
def test_who_leaves_what_a_change_told_keeps_it(tank: Path, leaves: str) -> None:
    shown = _spoken(tank, "I put in a new UVB tube", leaves, "stop")
    assert "Then it stays as you told it: 0" in shown
    assert _filled(tank).known()["uvb_lamp_age"] == 0


@pytest.mark.parametrize(
    "answer", ["the second", "the second one", "the biggest", "#2", "number 2"]
)
def test_which_one_is_gone_may_be_told_by_its_turn_or_its_size(
    two_kinds: Path, answer: str
) -> None:
    before = _lengths(two_kinds)
    shown = _spoken(two_kinds, "our turtle died", answer, "stop")
    assert "Which one is it?" in shown and "Is it turtle" not in shown
    gone = 2 if answer == "the biggest" else 1
    assert _lengths(two_kinds) == [one for n, one in enumerate(before) if n != gone]


def test_a_turtle_that_died_told_at_a_question_is_counted_out_behind_it(two_kinds: Path) -> None:
    before = _lengths(two_kinds)
    shown = _spoken(two_kinds, "nitrate", "turtle 2 died", "30 mg/L", "stop")
    assert "I didn't get to" not in shown and "Then I count 2 now." in shown
    assert _lengths(two_kinds) == [before[0], before[2]]


class _Attended(PlainFace):
    """Typed lines that count as typed by somebody who sits there."""

    @property
    def live(self) -> bool:
        return True


def test_behind_a_recheck_what_the_page_names_is_shown_and_a_change_begins_another(
    tank: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps = [Progress(_advice(), "")]
    monkeypatch.setattr(assembly, "advice_in_steps", lambda audit, **_: iter(steps))
    lamp = ["lamp to platform", "25 cm", "", "29.5 °C"]
    page = ["no", "plans", "why basking heat", "what does STOP mean", "change lamp to platform"]
    again = ["24 cm", "", "30 °C", "no", "stop"]
    out = io.StringIO()
    code = recheck(_Attended(io.StringIO("\n".join([*lamp, *page, *again]) + "\n"), out), tank)
    shown = " ".join(out.getvalue().split())
    assert code in (0, 1)
    assert "Plans: the smallest set of changes" in shown or "No plan is needed" in shown
    assert "STOP stands in the place of a grade" in shown
    assert shown.count("Before and after") == 2
    assert _filled(tank).answers[Place("heat_lamp_height")].said == "24 cm"
    assert "".join(out.getvalue().split()).endswith(f"Theanswersarein{tank}.")  # broken anywhere


@pytest.mark.parametrize("kind", ["pile", "fixed"])
@pytest.mark.parametrize("said", ["", "not sure"])
def test_a_lower_water_line_takes_no_pile_from_the_rim(tank: Path, kind: str, said: str) -> None:
    """What stands on the bottom stays as near to the rim, however low the water."""
    text = tank.read_text("utf-8")
    tank.write_text(text.replace("platform_kind: floating", f"platform_kind: {kind}"), "utf-8")
    shown = _recheck(tank, "I lowered the water 3 cm", "", "", said, "no")
    assert _filled(tank).answers[Place("platform_height_above_water")].said == "about 5.5 cm"
    before, after = (assembly.audit_of(_filled(path), "") for path in (_past(tank), tank))
    escape = [next(f.value for f in a.findings if f.check == "escape") for a in (before, after)]
    assert escape[0] == pytest.approx(escape[1])
    _, heading, found = shown.partition("Figures")[0].partition("Before and after")
    assert heading and "Escape" not in found


def _past(path: Path) -> Path:
    """The answers as they were before the recheck."""
    return next(one for one in path.parent.rglob("*.yaml") if one != path)
