"""What is told or asked where the page is offered and behind it, and where somebody leaves."""

from __future__ import annotations

import io
import shutil
from functools import cache
from pathlib import Path

import pytest
from fakes import FakeFace, demo, talk, up_to

from interview import assembly, setups
from interview.audit.audit import Audit
from interview.audit.checks.loader import checks_by_id
from interview.base.places import demo_folder
from interview.chat.asked.topics_in import answer_to
from interview.chat.faces.face import Asked, Left
from interview.chat.faces.line_face import PlainFace
from interview.chat.hearing.asked_instead import supposes
from interview.chat.hearing.changes import changes_in
from interview.chat.rechecks.rechecking import recheck
from interview.chat.session import sit_down
from interview.chat.together.counter import CounterTalk
from interview.graph.interview import Place
from interview.report.naming import spoken
from interview.words.intents.people import heard_in


class _Live(PlainFace):
    """Lines of a file as if a person typed them."""

    live = True

    def _rest(self, patience: float) -> list[str]:
        return []


TWO = """format: tankside/1
title: Two
answers:
  stage: living
  region: europe
  animals:
    - {species: red-eared slider, carapace_length: 12 cm, sex: unknown}
    - {species: map turtle, carapace_length: 8 cm, sex: unknown}
  tank_size: 120 x 50 x 50 cm
"""


@pytest.fixture
def tank(tmp_path: Path) -> Path:
    return Path(shutil.copy(demo_folder() / "musk_turtle.yaml", tmp_path / "musk.yaml"))


def _typed(path: Path, *lines: str) -> str:
    out = io.StringIO()
    sit_down(_Live(io.StringIO("\n".join(lines) + "\n"), out), path, "guided")
    return " ".join(out.getvalue().split())


def _rechecked(path: Path, *lines: str) -> str:
    out = io.StringIO()
    recheck(_Live(io.StringIO("\n".join(lines) + "\n"), out), path)
    return " ".join(out.getvalue().split())


# ---- behind the audit


def test_a_change_told_at_the_page_is_put_into_the_answers_behind_it(tank: Path) -> None:
    shown = _typed(
        tank, "yes", "I changed the lamp to platform to 25 cm", "no", "yes", "29.5 °C", "yes", "no"
    )
    assert "I take it up behind this." in shown
    assert "Is that so now?" in shown and "heat_lamp_height: 25 cm" in tank.read_text("utf-8")
    assert not list(tank.parent.glob("*.md"))


LOWER, WARMER = "the lamp hangs at 35 cm now", "the water is 27 °C now"


@pytest.mark.parametrize(
    ("typed", "lost"),
    [
        ([LOWER, "stop"], f"“{LOWER}”:"),
        ([LOWER, WARMER, "next"], f"“{LOWER}”, “{WARMER}”:"),
        ([LOWER, WARMER, "no", "no", "stop"], f"“{WARMER}”:"),
    ],
)
def test_a_change_told_at_the_page_is_named_where_it_is_left(
    tank: Path, typed: list[str], lost: str
) -> None:
    assert f"I didn't get to {lost} tell me again" in _typed(tank, "yes", *typed)


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        ("sorry, we don't know about the rcd after all", "rcd: not sure"),
        ("summer is up to 30", "room_temperature_high: 30"),
        ("the tank is 50 wide but only 45 high", "tank_size: 100 x 50 x 45 cm"),
    ],
)
def test_an_answer_told_otherwise_is_mended_before_and_behind_the_audit(
    tank: Path, line: str, kept: str
) -> None:
    before = tank.read_text("utf-8")
    _typed(tank, line, "yes", "yes", "no", "stop")
    assert kept in tank.read_text("utf-8")
    tank.write_text(before, "utf-8")
    _typed(tank, "yes", "no", line, "yes", "stop")
    assert kept in tank.read_text("utf-8")


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        (LOWER, "heat_lamp_height: 35 cm"),
        ("the lamp hangs 35 cm above the dock now", "heat_lamp_height: 35 cm"),
        (WARMER, "water_temperature: 27 °C"),
        ("I bought a 100 W heater", "heater_power: 100 W"),
    ],
)
@pytest.mark.parametrize("first", [(), ("no",), ("no", "save")])
def test_what_is_so_now_is_put_into_the_answers_however_it_is_told(
    tank: Path, first: tuple[str, ...], line: str, kept: str
) -> None:
    first = ("yes", *first, line) if first == ("no",) else ("yes", *first, line, "no")
    _typed(tank, *first, "yes", "stop", "stop")
    assert kept in tank.read_text("utf-8")


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("no, the lamp hangs at 30 cm", "30 cm"),
        ("the lamp hangs at 30 cm", "30 cm"),
        ("yes, he is gasping", "35 cm"),
        ("yes but 30 cm", "35 cm"),
        ("no, only 30 cm", "35 cm"),
    ],
)
def test_what_is_told_in_place_of_a_yes_is_heard(tank: Path, said: str, kept: str) -> None:
    shown = _typed(tank, "yes", "no", LOWER, said, "yes", "stop", "stop")
    assert f"heat_lamp_height: {kept}" in tank.read_text("utf-8")
    heard = ("That can't wait", "You told “the lamp hangs at 30 cm”", "where it is otherwise")
    assert any(one in shown for one in heard)


def test_a_change_that_was_tried_is_not_named_as_lost(tank: Path) -> None:
    assert "I didn't get to" not in _typed(tank, "yes", LOWER, "no", "no", "stop")


def test_a_change_that_is_only_thought_of_is_tried_and_never_put_in(tank: Path) -> None:
    before = setups.read(tank, assembly.questionnaire()).answers
    shown = _typed(tank, "yes", "no", "I could hang the lamp 5 cm higher", "stop")
    assert "Is that so now?" not in shown and "only a what-if" in shown
    assert setups.read(tank, assembly.questionnaire()).answers == before


@pytest.mark.parametrize("line", ["save it please", "save", "yes, save the page", "please save it"])
def test_who_asks_to_save_the_page_has_it_saved(tank: Path, line: str) -> None:
    shown = _typed(tank, "yes", line, "stop")
    assert f"Saved {tank.with_suffix('.md')}".replace(" ", "") in shown.replace(" ", "")


def test_who_asks_not_to_save_it_has_no_page(tank: Path) -> None:
    _typed(tank, "yes", "don't save it", "stop")
    assert not list(tank.parent.glob("*.md"))


ASKED = {
    "why doesn't the big one bask?": {"basking_heat", "ramp", "platform_space"},
    "is it dangerous that they live together?": {"company"},
    "why is the water so cold?": {"water_temperature", "heater_power"},
    "will the floor hold?": {"floor_load", "stand"},
    "do they fight?": {"company"},
    "what can I do about the cold water?": {"water_temperature", "heater_power"},
    "is the sand ok?": {"substrate_grain"},
}


@pytest.mark.parametrize("line", ASKED)
def test_a_question_is_answered_by_the_checks_it_is_about(line: str) -> None:
    about = [one for one in _painted().findings if one.check in ASKED[line] and one.applies]
    said = _answered(line)
    off = [one for one in about if one.verdict not in ("good", "unmeasured")]
    assert off == [] or any(one.say in said for one in off)
    assert said


@cache
def _painted() -> Audit:
    return assembly.audit_of(demo("painted_turtles_classroom"), "")


def _answered(line: str) -> str:
    """What is said to a question behind the audit of the painted turtles."""
    return answer_to(_painted(), line, lambda: None)


def test_what_no_check_is_about_is_not_answered() -> None:
    audit = assembly.audit_of(demo("musk_turtle"), "")
    assert not answer_to(audit, "who wrote this?")


def test_what_is_told_of_the_platform_is_answered_by_what_warms_it(tank: Path) -> None:
    for line in ("it's chilly on the rock now", "why is the platform so chilly"):
        shown = _typed(tank, "yes", "no", line, "stop").rpartition("What next?")[0]
        behind = shown.rpartition("leaves.")[2]
        assert "basking heat" in behind and "water" not in behind and "Not taken" not in behind
        assert ("mends the answer" in behind) is not line.startswith("why")


@pytest.mark.parametrize(
    ("line", "said", "unsaid"),
    [
        ("he never basks", "basking heat", "ammonia"),
        ("she won't come out of the water", "basking heat", "water temperature"),
        ("the water smells", "ammonia", "basking heat"),
        ("is my tank a danger", "So far: Grade D", "judged good"),
        ("I'm so worried about her", "at once if it gasps", "Not taken"),
        ("I feel so guilty", "one thing at a time. “plans” shows", "Not taken"),
        ("what is brumation", "a turtle's winter rest", "Not taken"),
    ],
)
def test_a_worried_keeper_is_answered_behind_the_audit(
    tank: Path, line: str, said: str, unsaid: str
) -> None:
    shown = _typed(tank, "yes", "no", line, "stop").rpartition("What next?")[0]
    behind = shown.rpartition("leaves.")[2]
    assert said in behind and unsaid not in behind


def test_what_an_answer_is_called_is_explained_behind_the_audit(tank: Path) -> None:
    shown = _typed(tank, "yes", "no", "whats an over-temperature controller", "stop")
    assert "A second, independent thermostat is what stops it" in shown
    assert "Type yes or no" not in shown.partition("second, independent")[2]


def test_a_question_at_the_page_is_no_file_name(tank: Path) -> None:
    shown = _typed(tank, "yes", "is it dangerous that they live together?", "no", "stop")
    assert "Save the page as" not in shown


SOOTHING = "judged good"
DANGERS = [
    "is it dangerous? I got a shock from the water", "is the plug burning?",
    "why is the plug melted?",
]  # fmt: skip
SUPPOSED = [
    "will the lamp burn the house down?", "can I leave the lamp over the towel?",
    "can I get rid of the lamp?",
    "ok, could we put the heater away?", "what happens if the filter leaks?",
    "so is it ok to feed him at night?", "should the lamp be on all day?",
    "would 27 °C be better for the water?", "won't the lamp fall?", "ok so can I move the lamp?",
]  # fmt: skip


@pytest.mark.parametrize("line", DANGERS)
@pytest.mark.parametrize("first", [(), ("no",)])
def test_nothing_soothes_behind_an_emergency(tank: Path, first: tuple[str], line: str) -> None:
    shown = _typed(tank, "yes", *first, line, "stop")
    behind = shown.partition("That can't wait.")[2]
    assert behind and "Save the page as" not in behind and "Name one thing" not in behind
    assert SOOTHING not in behind and "In order" not in behind and "more” lists" not in behind


@pytest.mark.parametrize("line", SUPPOSED)
@pytest.mark.parametrize("first", [(), ("no",)])
def test_what_may_come_is_not_judged_by_what_is(tank: Path, first: tuple[str], line: str) -> None:
    shown = _typed(tank, "yes", *first, line, "no", "stop")
    assert "not of what may come of it" in shown or "only a what-if" in shown
    assert SOOTHING not in shown and "Save the page as" not in shown


@pytest.mark.parametrize(
    ("line", "check"),
    [
        ("could the water be too cold?", "water_temperature"),
        ("is it safe to have no guard on the heater?", "heater_power"),
        ("should I worry about the lamp?", "lamp_fixing"),
        ("will the lamp burn him?", "basking_heat"),
    ],
)
def test_what_is_wrong_is_told_to_who_asks_what_may_come(line: str, check: str) -> None:
    found = {one.check: one for one in _painted().findings}
    said = _answered(line)
    assert found[check].say in said and SOOTHING not in said


@pytest.mark.parametrize(
    "line", ["can you tell me why the lamp is bad?", "may I ask how the lamp is held?"]
)
def test_who_asks_to_be_told_asks_what_is(line: str) -> None:
    assert not supposes(line) and supposes(line.replace("tell me", "leave").replace("ask", "see"))


@pytest.mark.parametrize(
    "line", ["can I hang the lamp 5 cm higher?", "is the lamp at 35 cm too high?"]
)
@pytest.mark.parametrize("first", [(), ("no",)])
def test_a_question_is_never_put_into_the_answers(tank: Path, first: tuple[str], line: str) -> None:
    before = setups.read(tank, assembly.questionnaire()).answers
    shown = _typed(tank, "yes", *first, line, "no", "", "stop")
    assert "Is that so now?" not in shown and "only a what-if" in shown
    assert setups.read(tank, assembly.questionnaire()).answers == before


WHY_ILL = [
    "why is he gasping", "why is she not eating", "why won't she eat", "why hasnt he eaten?",
    "why doesn't my turtle eat?", "why is his shell soft?", "why are her eyes swollen?",
    "why won't my red eared slider eat?", "why isn't the little one eating",
]  # fmt: skip


@pytest.mark.parametrize("line", WHY_ILL)
@pytest.mark.parametrize("first", [(), ("no",)])
def test_why_an_animal_is_ill_leads_to_the_vet(tank: Path, first: tuple[str], line: str) -> None:
    behind = _typed(tank, "yes", *first, line, "stop")
    assert behind.count("reptile veterinarian") > _typed(tank, "yes", *first, "stop").count(
        "reptile veterinarian"
    )
    assert SOOTHING not in behind and "Name one thing" not in behind


def test_why_a_check_was_judged_so_is_never_an_illness() -> None:
    named = [f"why {spoken(check)}" for check in checks_by_id()]
    assert not [line for line in named if heard_in(line).ill]


def test_what_is_good_is_told_with_what_was_judged(tank: Path) -> None:
    assert "By your answers, judged good: " in _typed(tank, "yes", "is the lamp too hot?", "stop")


# ---- told at another question


def test_what_became_of_another_answer_is_not_offered_here(tank: Path) -> None:
    shown = _rechecked(tank, "I raised the lamp 3 cm", "I let water out, it's 4 cm lower", "stop")
    assert "Do you mean “4 cm”" not in shown and "I keep that" in shown


def test_water_let_out_is_a_move_of_the_water_line(tank: Path) -> None:
    shown = _rechecked(tank, "I let out some water, it's 5 cm lower now", "yes", "stop")
    assert "It was 11 cm, so it should be 16 cm now" in shown
    assert "water_line_below_rim: 16 cm" in tank.read_text("utf-8")


@pytest.mark.parametrize(
    "line", ["I let out some water, 5 cm", "I let 5 cm of water out", "took 5 cm of water out"]
)
def test_water_let_out_is_never_where_the_water_line_is(tank: Path, line: str) -> None:
    shown = _rechecked(tank, line, "stop")
    assert "I take it that this is" not in shown
    assert "water_line_below_rim: 5 cm" not in tank.read_text("utf-8")


def test_each_of_two_turtles_is_changed_by_what_is_told_of_it(tmp_path: Path) -> None:
    path = tmp_path / "two.yaml"
    path.write_text(TWO, "utf-8")
    told = "the slider is a girl of 14 cm, the map a boy of 9 cm"
    _rechecked(path, told, "", "", "", "", "stop")
    kept = setups.read(path, assembly.questionnaire()).answers
    own = {place.animal: said for place, said in kept.items() if place.id == "sex"}
    long = {place.animal: said for place, said in kept.items() if place.id == "carapace_length"}
    assert own == {0: "female", 1: "male"} and long == {0: "14 cm", 1: "9 cm"}


def test_a_yes_with_a_condition_is_never_taken_as_no() -> None:
    held = talk(["yes unless he breaks it", "stop"], up_to("heater_guard"))
    assert Place("heater_guard") not in held.interview.answers


def test_a_sentence_leaves_the_list_of_what_may_be_meant(tmp_path: Path) -> None:
    path, two = tmp_path / "two.yaml", assembly.new_interview()
    path.write_text(TWO, "utf-8")
    setups.fill(two, setups.read(path, two.questionnaire))
    held = talk(["change species", "we have no lid at all on it", "stop"], two)
    labels = [asked.label for asked in held.face.asked]
    assert labels.count("Which of these do you mean?") == 1
    assert [label for _, label in held.face.asked[1].choices] == [
        "Turtle 1: Species (red-eared slider)", "Turtle 2: Species (map turtle)",
    ]  # fmt: skip
    assert not held.face.tones("refusal")


# ---- leaving


def test_what_waits_is_kept_or_named_where_somebody_leaves(tank: Path) -> None:
    told = "we got another turtle, a slider"
    shown = _rechecked(tank, "I raised the lamp 3 cm", told, "our turtle died", "stop")
    assert "Kept as you told it: Number of turtles, 2." in shown
    assert "I didn't get to “our turtle died”" in shown


def test_a_yes_takes_the_offer_after_something_else_was_told(tank: Path) -> None:
    told = "we got another turtle, a slider"
    shown = _rechecked(tank, "I raised the lamp 3 cm", told, "yes", "stop")
    assert "heat_lamp_height: 25 cm" in tank.read_text("utf-8") and "Not taken" not in shown


def _at_the_counter(*lines: str, audited: bool = False) -> tuple[FakeFace, Left | None, str]:
    """What “next” does on a tank that is dangerous: the face, how it left, the line heard."""
    face = FakeFace(lines)
    face.live = True
    interview = demo("painted_turtles_classroom")
    counter = CounterTalk(interview, face, lambda: None, "counter")
    counter.audited = dict(interview.answers) if audited else {}
    try:
        return face, None, counter.hear(Asked("Ready?", ""))
    except Left as left:
        return face, left, ""


@pytest.mark.parametrize("line", ["", "yes", "next"])
def test_who_leaves_a_problem_tank_without_its_audit_is_told_and_may_go_on(line: str) -> None:
    face, left, _ = _at_the_counter("next", line, "yes")
    assert left and left.anew
    said = next(text for text in face.tones("note") if "had no audit yet" in text)
    assert "GFCI" in said or "lamp" in said or "water" in said


def test_who_wants_the_audit_first_gets_it() -> None:
    _, left, heard = _at_the_counter("next", "no")
    assert left is None and heard == "done"


def test_a_tank_that_was_audited_is_left_without_a_word() -> None:
    face, left, _ = _at_the_counter("next", audited=True)
    assert left and left.anew and not any("had no audit" in text for text in face.tones("note"))


# ---- told in long sentences


def test_a_long_first_sentence_of_guesses_is_shown_and_not_lost() -> None:
    told = (
        "hiii so ok my dad said i could finally get a turtle for my birthday and its a red eared "
        "slider i think, hes called Spud and hes like as long as my hand maybe 4 inches??"
    )
    held = talk([told, "yes", "stop"])
    assert held.face.listings[0][0] == "I take it that:"
    assert held.interview.answers[Place("species", 0)].chosen == "trachemys_scripta_elegans"


@pytest.mark.parametrize("line", ["idk how you even tell lol", "no idea how to measure that"])
def test_who_does_not_know_how_is_told_how(line: str) -> None:
    held = talk([line, "stop"], up_to("carapace_length"))
    assert "Set the turtle on a table" in held.face.tones("note")[-1]


@pytest.mark.parametrize(
    "line", ["I don't know why you need that", "not sure what you mean", "no idea why it is loud"]
)
def test_who_does_not_know_why_it_is_asked_has_answered_nothing(line: str) -> None:
    held = talk([line, "stop"], up_to("filter_kind"))
    assert held.face.ids.count("filter_kind") == 2
    known = held.interview.question(Place("filter_kind")).hint
    assert any(known in text or "didn't find" in text for text in held.face.tones("note"))
    assert not any("not sure (" in text for text in held.face.tones("note"))


def test_who_is_not_sure_and_then_tells_a_kind_is_offered_it() -> None:
    told = ["not sure what kind, it hangs on the back", "no idea what they call it, a canister"]
    for line in told:
        held = talk([line, "stop"], up_to("filter_kind"))
        assert any(text.startswith("Do you mean “") for text in held.face.tones("note"))
    line = "not sure, no label on it"
    assert talk([line, "stop"], up_to("filter_kind")).said("filter_kind") == "not sure"


@pytest.mark.parametrize("line", ["topped up with 2 cm of water", "poured in 2 cm of water"])
def test_what_tops_up_is_no_depth(line: str) -> None:
    told = [one.told for one in changes_in(demo("musk_turtle"), line) if one.told]
    assert [(one.id, one.said, one.way) for one in told] == [("water_line_below_rim", "2 cm", 1)]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("put on 100 W bulb", "100 W"),
        ("the lamp is put on 12 hours a day", "12 hours a day"),
        ("added a lamp 30 cm above the water", "30 cm"),
    ],
)
def test_what_is_put_on_or_hung_above_the_water_is_told_as_it_is(line: str, said: str) -> None:
    told = [one.told for one in changes_in(demo("musk_turtle"), line) if one.told]
    assert [(one.said, one.way) for one in told] == [(said, 0)]


def test_a_customer_named_in_a_story_is_asked_for_no_more(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path))
    told = "Mrs Cole, she's got a yellow bellied slider about 15 cm in an 80 cm tank"
    face = FakeFace(["uk", told, "17 to 25 °C", "", "yes", "stop"])
    face.live = True
    sit_down(face, None, "counter")
    assert "Which customer is this?" not in [asked.label for asked in face.asked]
    assert not any("Sex" in name for _, rows in face.listings for name, _ in rows)
    assert "title: Mrs Cole" in next(tmp_path.glob("*.yaml")).read_text("utf-8")


def test_a_choice_of_another_question_is_offered_there() -> None:
    held = talk(["second hand", "yes", "stop"], up_to("water_line_below_rim"), live=True)
    assert held.said("tank_origin") == "second hand"
    assert Place("water_line_below_rim") not in held.interview.answers
    left = talk(["second hand", "no", "11 cm", "stop"], up_to("water_line_below_rim"), live=True)
    assert Place("tank_origin") not in left.interview.answers
    assert left.said("water_line_below_rim") == "11 cm"


def test_what_may_be_a_choice_of_several_questions_is_offered_nowhere() -> None:
    held = talk(["glass", "stop"], up_to("water_line_below_rim"), live=True)
    assert [said for said in held.face.tones("refusal") if "length" in said]
    assert Place("tank_material") not in held.interview.answers


# ---- several things in a line


def test_two_changes_told_behind_the_audit_are_both_put_in(tank: Path) -> None:
    line = "raised the heat lamp by 5 cm and the filter is a sponge"
    _typed(tank, "yes", "no", line, "yes", "2", *[""] * 6, "stop")
    kept = setups.read(tank, assembly.questionnaire()).answers
    assert kept[Place("heat_lamp_height")] == "27 cm"
    assert kept[Place("filter_kind")] == "a sponge"


def test_which_of_two_lamps_a_change_behind_the_audit_moved_is_asked(tank: Path) -> None:
    line = "raised the lamp by 5 cm and lowered the water by 2 cm"
    shown = _typed(tank, "yes", "no", line, "yes", "2", *[""] * 6, "stop")
    assert "Which of these do you mean?" in shown
    kept = setups.read(tank, assembly.questionnaire()).answers
    assert kept[Place("uvb_lamp_height")] == "35 cm"
    assert kept[Place("water_line_below_rim")] == "about 13 cm"


LATE = "the filter is a canister of 800 l/h"


def test_what_waits_at_an_offer_is_named_where_the_input_ends(tmp_path: Path) -> None:
    shown = _typed(tmp_path / "new.yaml", "living", "my son is 3 years old", LATE)
    assert "first; what you typed comes after that." in shown
    assert f"I didn't get to “{LATE}”" in shown


def test_what_waits_is_named_where_the_talk_behind_the_audit_is_left(tank: Path) -> None:
    shown = _typed(tank, "yes", "no", "change water line", "my son is 3 years old", LATE)
    assert f"I didn't get to “{LATE}”" in shown


@pytest.mark.parametrize("line", ["25 cm, the heater is 100 watts", "25cm, 100 watt heater"])
def test_what_is_told_beside_an_amount_is_listed_with_it(line: str) -> None:
    held = talk([line, "yes", "stop"], up_to("water_line_below_rim"))
    assert str(held.said("water_line_below_rim")).startswith("25")
    assert str(held.said("heater_power")).startswith("100 watt")
    assert held.said("carapace_length", 0) == "9.5 cm"  # a bare amount mends nothing told before
