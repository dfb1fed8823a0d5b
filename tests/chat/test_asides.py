"""What can be typed at every prompt: the talk goes on as if it had not been typed."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest
from fakes import CTRL_C, FakeFace, Held, demo, talk, up_to
from rich.console import Console

from interview import assembly
from interview.chat.afterwards import audit_and_stay
from interview.chat.faces.face import Left
from interview.chat.faces.line_face import PlainFace
from interview.chat.faces.screen_face import TerminalFace
from interview.chat.safekeeping import Safekeeping
from interview.chat.saving_page import page_settled
from interview.chat.talks.grade_so_far import is_certain, show_grade_so_far
from interview.chat.talks.guided import Talk
from interview.chat.together.counter import CounterTalk
from interview.graph.interview import Place
from interview.setups.kept import new_file

STAYING = ["?", "??", "help", "list", "print", "what should I buy first", "grade", "so far"]
STAYS = pytest.mark.parametrize("word", STAYING)


@STAYS
@pytest.mark.parametrize("name", ["stage", "species", "tank_size", "filter_age", "decor_hazards"])
def test_at_a_question_it_is_asked_again(word: str, name: str) -> None:
    interview = up_to(name)
    known = dict(interview.answers)
    held = talk([word], interview)
    assert held.face.ids == [name, name]
    assert held.interview.answers == known
    assert not held.face.tones("refusal")
    assert held.face.said or held.face.listings


@STAYS
def test_where_an_answer_is_confirmed_it_stays_to_be_confirmed(word: str) -> None:
    held = talk(["22 °C", word, "yes"], up_to("basking_temperature"), live=True)
    confirmed = [asked.label for asked in held.face.asked if asked.label.startswith("Is “")]
    assert confirmed == ["Is “22 °C” right?"] * 2
    assert held.said("basking_temperature") == "22 °C"


@STAYS
def test_a_story_still_waits_for_its_yes(word: str) -> None:
    told = "We have a musk turtle in a 90 x 45 x 45 cm tank, heated with 100 W"
    held = talk(["living", told, word, "yes"])
    assert held.said("species", 0)
    assert held.said("tank_size")


@STAYS
def test_before_the_audit_it_stays_before_the_audit(word: str) -> None:
    held = talk([word], demo("musk_turtle"))
    assert held.face.ids == ["review", "review"]


@STAYS
def test_at_the_counter_a_row_still_stands(word: str) -> None:
    interview = up_to("tank_size")
    known = dict(interview.answers)
    face = FakeFace([word])
    with pytest.raises(Left):
        CounterTalk(interview, face, lambda: None, "counter").run()
    assert len(face.asked) == 2 and face.asked[0].label == face.asked[1].label
    assert not face.tones("refusal")
    assert interview.answers == known


def test_audit_now_before_the_audit_is_the_audit() -> None:
    assert talk(["audit now"], demo("musk_turtle")).left is None


def test_how_the_audit_is_printed_is_told_at_the_review_too() -> None:
    held = talk(["print the audit", "what should I buy first", "stop"], demo("musk_turtle"))
    said = " ".join(held.face.tones("note"))
    assert "browser opens and prints" in said and "The audit tells what to get" in said
    assert held.left


def test_after_ctrl_c_help_is_no_leaving() -> None:
    held = talk([CTRL_C, "?"], up_to("tank_size"))
    assert held.face.listings
    assert held.left and not held.left.interrupted  # the lines ended, nobody left


@pytest.mark.parametrize("word", ["new", "new tank", "Next customer.", "another tank"])
def test_new_leaves_and_says_how_to_begin_anew(word: str) -> None:
    held = talk([word, "90 x 45 x 45 cm"], up_to("tank_size"))
    assert held.left and not held.left.interrupted
    assert held.face.ids == ["tank_size"]
    assert "This tank is kept" in held.face.said[-1][1]


def test_a_new_filter_is_an_answer() -> None:
    held = talk(["new"], up_to("filter_age"))
    assert Place("filter_age") in held.interview.answers
    assert held.face.ids[1] != "filter_age"


class Shown(FakeFace):
    """Lets the audit pass by."""

    def blocks(self, blocks: object) -> None:
        self.said.append(("note", "the audit"))


@STAYS
def test_after_the_audit_the_talk_stays(word: str, tmp_path: Path) -> None:
    interview = demo("musk_turtle")
    face = Shown(["no", word, "stop"])
    keeping = Safekeeping(face, interview, new_file(tmp_path / "tank.yaml"))
    audit_and_stay(face, Talk(interview, face, lambda: None), keeping)
    assert not face.tones("refusal")
    assert [asked.label for asked in face.asked].count("What next?") == 2


@pytest.mark.parametrize("word", [*STAYING, "what do we need to buy"])
def test_no_page_is_saved_under_the_name_of_a_command(
    word: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    interview = demo("musk_turtle")
    face = Shown([word, "no", "stop"])
    keeping = Safekeeping(face, interview, new_file(tmp_path / "tank.yaml"))
    audit_and_stay(face, Talk(interview, face, lambda: None), keeping)
    assert not list(tmp_path.glob("*.md"))
    assert [asked.label for asked in face.asked].count("Save this audit as Markdown?") == 2
    assert not face.tones("refusal")


@pytest.mark.parametrize("word", ["new", "next customer"])
def test_at_the_offer_to_save_another_tank_may_begin(word: str, tmp_path: Path) -> None:
    face, page = Shown([word]), tmp_path / "tank.md"
    shown: Any = None  # nothing of it is looked at
    with pytest.raises(Left) as left:
        page_settled(face, shown, page)
    assert left.value.anew and not page.exists()
    assert any("The page is not saved" in text for text in face.tones("note"))


# ---- the grade so far


UNTIL = ["region", "species", "tank_size", "heater_power", "uvb_lamp_age", "decor_hazards"]
DEMOS = ["musk_turtle", "map_turtle_hatchling", "painted_turtles_classroom"]


@pytest.mark.parametrize("name", [*UNTIL, *DEMOS])
def test_the_grade_so_far_fits_twelve_lines_of_a_screen(name: str) -> None:
    interview = demo(name) if name in DEMOS else up_to(name)
    for plain in (True, False):
        out = io.StringIO()
        console = Console(file=out, width=80, highlight=False)
        show_grade_so_far(interview, PlainFace(out=out) if plain else TerminalFace(console))
        lines = [line for line in out.getvalue().splitlines() if line.strip()]
        assert 2 <= len(lines) <= 12
        assert max(map(len, lines)) <= 80


def test_every_certain_danger_is_named() -> None:
    held = talk(["grade"], demo("map_turtle_hatchling"))
    danger = _rows(held, "Certain:")["Danger"]
    assert danger == (
        "Lamp holder, bare glass heater, GFCI or RCD, hygiene, water over the heater, "
        "gap beside the platform"
    )
    assert "Danger" not in _rows(held, "Likely:")


def test_certain_in_the_talk_is_sure_on_the_page() -> None:
    findings = assembly.audit_of(demo("map_turtle_hatchling"), "").findings
    certain = {f.check for f in findings if f.verdict == "danger" and is_certain(f)}
    sure = {f.check for f in findings if f.verdict == "danger" and f.certainty == "sure"}
    assert certain == sure and len(sure) == 6


def _rows(held: Held, title: str) -> dict[str, str]:
    return dict(row for found, rows in held.face.listings if found == title for row in rows)


def test_a_danger_that_is_given_is_certain_and_its_check_named() -> None:
    held = talk(["no", "grade"], up_to("rcd"))
    assert "GFCI or RCD" in _rows(held, "Certain:")["Danger"]
    assert "So far: STOP." in " ".join(held.face.tones("note"))


def test_what_nobody_gave_is_not_certain() -> None:
    held = talk(["not sure", "grade"], up_to("rcd"))
    assert "RCD" not in _rows(held, "Certain:").get("Danger", "")


def test_what_would_change_most_is_what_most_checks_wait_for() -> None:
    """Counted here from the findings themselves."""
    interview = up_to("tank_size")
    held = talk(["grade"], interview)
    findings = assembly.audit_of(interview, "").findings
    waiting = {n: sum(n in f.missing for f in findings) for f in findings for n in f.missing}
    first, checks = next(iter(_rows(held, "These answers would change most:").items()))
    most = {
        assembly.label_of(n).casefold() for n, k in waiting.items() if k == max(waiting.values())
    }
    assert first.casefold() in most
    named = re.sub(r" and \d+ more", "", checks).split(", ")
    assert all(name for name in named)


def test_nothing_is_recorded_by_the_grade_so_far() -> None:
    held = talk(["grade", "90 x 45 x 45 cm"], up_to("tank_size"))
    assert held.said("tank_size") == "90 x 45 x 45 cm"
    assert len(held.saves) == 1


LEAVING = [
    "can I stop here and go on tomorrow?",
    "that's enough for now, thanks",
    "stop for today",
    "I have to go, sorry",
    "let's stop here",
    "thanks, bye",
]


@pytest.mark.parametrize("line", LEAVING)
def test_who_wants_no_more_today_has_left(line: str) -> None:
    held = talk([line, "living"])
    assert held.left
    assert held.face.lines == ["living"]


@pytest.mark.parametrize("line", ["how much longer is this?", "how many more questions?"])
def test_how_long_it_still_takes_is_told_and_the_question_stays(line: str) -> None:
    held = talk([line])
    (said,) = held.face.tones("note")
    assert re.search(r"about \d+ minutes more, all of it about \d+ minutes", said)
    assert held.face.ids == ["stage", "stage"]


def test_what_was_told_before_it_counts_is_shown_too() -> None:
    """How high a lamp hangs over a platform of which nothing is known yet."""
    told = "150 W halogen lamp 25 cm over the dock, and no UVB lamp"
    held = talk([told, "yes", "show", "stop"])
    assert Place("platform_kind") not in held.interview.answers
    shown = {name: said for _, rows in held.face.listings for name, said in rows}
    assert shown["Lamp to platform"] == held.interview.answers[Place("heat_lamp_height")].said
