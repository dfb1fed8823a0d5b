"""After the audit the talk stays: what if, change and save, until the keeper leaves."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pytest

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.chat.faces.line_face import PlainFace
from interview.chat.session import sit_down


@pytest.fixture
def tank(tmp_path: Path) -> Path:
    return Path(shutil.copy(demo_folder() / "musk_turtle.yaml", tmp_path / "musk.yaml"))


def _talk(path: Path, *lines: str) -> tuple[int, str]:
    out = io.StringIO()
    code = sit_down(PlainFace(io.StringIO("\n".join(lines) + "\n"), out), path, "guided")
    return code, out.getvalue()


def test_it_stays_tries_mends_and_audits_again(tank: Path) -> None:
    code, shown = _talk(
        tank,
        *("yes", "no"),  # ready; no page
        *("what if the lamp is 5 cm higher", "blorp", "show"),
        *("change lamp to platform", "25 cm", "29.5 °C", "yes", "no"),
        *("save", "yes", "stop"),
    )
    assert code == 0
    assert shown.count("What next?") == 6
    assert "That was only a what-if" in shown
    assert "Type “more”, “plans”, “why …”, “what if …”, “change …”, “save” or “stop”." in (
        " ".join(shown.split())
    )
    assert shown.count("This week:") == 2
    assert "heat_lamp_height: 25 cm" in tank.read_text(encoding="utf-8")
    assert tank.with_suffix(".md").exists()
    assert f"tanksiderecheck{tank}" in "".join(shown.split())


@pytest.mark.parametrize("line", ["my daughter is pregnant", "my gran of 80 moved in with us"])
@pytest.mark.parametrize("settled", [("no",), ()])
def test_somebody_at_risk_is_noted_and_judged_at_the_page_and_behind(
    tank: Path, settled: tuple[str, ...], line: str
) -> None:
    replies = ("yes",) if settled else ("no", "yes")
    _, shown = _talk(tank, "yes", *settled, line, *replies, "yes", "no", "stop")
    said = " ".join(shown.split())
    assert "Shall I note that somebody at higher risk lives with the turtle" in said
    assert "Save the page as" not in said and "what-if" not in said.split("Shall I note")[1][:400]
    assert "vulnerable_person: yes" in tank.read_text("utf-8")


@pytest.mark.parametrize("settled", [("no",), ()])
@pytest.mark.parametrize("of_it", ["he has swollen eyes and", "will he be okay,"])
def test_what_is_told_beside_an_ill_turtle_is_taken_up(
    tank: Path, settled: tuple[str, ...], of_it: str
) -> None:
    _, shown = _talk(tank, "yes", *settled, f"{of_it} the heater is 200 W now", "no", "stop")
    assert "Heater power 200 W (now 150 W)" in " ".join(shown.split())


@pytest.mark.parametrize("agrees", ["yes", "no"])
def test_what_is_told_beside_somebody_at_risk_is_taken_up_too(tank: Path, agrees: str) -> None:
    line = "my daughter is pregnant and the heater is 200 W now"
    _, shown = _talk(tank, "yes", "no", line, agrees, "yes", "no", "stop")
    assert f"vulnerable_person: {agrees}" in tank.read_text("utf-8")
    assert "Heater power 200 W (now 150 W)" in " ".join(shown.split())


@pytest.mark.parametrize("settled", [("no",), ()])
def test_whether_it_lives_is_answered_where_the_page_is_offered_and_behind(
    tank: Path, settled: tuple[str, ...]
) -> None:
    tank.write_text(tank.read_text("utf-8") + "  warning_signs: swollen eyes\n", "utf-8")
    _, shown = _talk(tank, "yes", *settled, "will he die?", "no", "stop")
    said = " ".join(shown.split())
    assert "You told of this: swollen eyes" in said and "veterinarian who sees the animal" in said
    assert "Save the page as" not in said and "Not taken" not in said


def test_the_end_of_input_leaves_cleanly(tank: Path) -> None:
    code, shown = _talk(tank, "yes", "no")
    assert code == 0
    assert "tankside recheck" in " ".join(shown.splitlines()[-5:])
    assert not tank.with_suffix(".md").exists()


def test_help_and_the_list_are_shown_where_the_page_is_offered(tank: Path) -> None:
    _, shown = _talk(tank, "yes", "?", "list", "no", "stop")
    assert "At any question you can type:" in shown
    assert "That comes next." not in shown and not list(tank.parent.glob("*.md"))


def test_a_what_if_is_no_file_name(tank: Path) -> None:
    _, shown = _talk(tank, "yes", "what if the lamp is 5 cm higher", "no", "stop")
    assert "That comes next." in shown
    assert not list(tank.parent.glob("what*"))


def test_a_change_told_without_a_command_is_tried_as_a_what_if(tank: Path) -> None:
    questionnaire = assembly.questionnaire()
    before = setups.read(tank, questionnaire).answers
    said = ("I could hang the lamp 5 cm higher", "a bigger tank")
    _, shown = _talk(tank, "yes", "no", *said, "stop")
    assert "I try that as a what-if." in shown
    assert shown.count("only a what-if") == 1
    assert setups.read(tank, questionnaire).answers == before


@pytest.mark.parametrize("reply", ["No.", "no thanks", "Nope!", "Stop."])
def test_a_reply_is_no_file_name(tank: Path, reply: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tank.parent)
    _talk(tank, "yes", reply, "stop")
    assert [path.name for path in tank.parent.iterdir()] == ["musk.yaml"]


def test_an_ill_animal_is_heard_after_the_audit_too(tank: Path) -> None:
    _, shown = _talk(tank, "yes", "no", "she is bleeding from the tail", "stop")
    assert "call a reptile veterinarian now" in " ".join(shown.split())


LAYERS = {
    "more": "Section by section",
    "plans": "Plans: the smallest set of changes",
    "numbers": "Water volume 100 L",
    "buy": "What to buy, by specification",
    "what should I buy first": "What to buy, by specification",
    "calendar": "Every week: Test ammonia",
    "mishaps": "The power fails for a day in winter: the water is below",
    "why escape": "An escaped animal",
    "why": "Name one thing that was judged",
    "why blorp": "Name one thing that was judged",
}


def test_what_lies_under_the_page_is_shown_on_request(tank: Path) -> None:
    """At the offer to save already, and after it."""
    _, shown = _talk(tank, "yes", *LAYERS, "no", *LAYERS, "stop")
    page, *rest = shown.partition("Save this audit as Markdown?")
    said = " ".join(" ".join(rest).split())
    for words in LAYERS.values():
        assert said.count(words) >= 2 or words == "An escaped animal", words
        assert words not in page
    assert "Turtles climb on everything" in said


TOLD_AT_THE_PAGE = {
    "raised the heat lamp by 5 cm": "sounds like a change",
    "I lowered the water by 2 cm": "sounds like a change",
    "my tank in the study": "may be more than a name",
    "yes I would love that": "may be more than a name",
    "she is bleeding from the tail": "call a reptile veterinarian now",
    "his eyes are swollen and/or closed": "a reptile veterinarian within a day or two",
    "nose bubbles w/ blood": "a reptile veterinarian within a day or two",
    "he is gasping.help": "call a reptile veterinarian now",
    "maybe": "“save” offers it again",
    "thanks": "You're welcome",
    "thank you so much": "You're welcome",
}


@pytest.mark.parametrize("line", TOLD_AT_THE_PAGE)
def test_a_sentence_is_no_file_name(tank: Path, line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tank.parent)
    asks = ["no"] if "than a name" in TOLD_AT_THE_PAGE[line] else []
    _, shown = _talk(tank, "yes", line, *asks, "no", "stop")
    assert TOLD_AT_THE_PAGE[line] in " ".join(shown.split())
    assert "Not taken" not in shown and "What next?" in shown
    assert not list(tank.parent.glob("*.md"))


@pytest.mark.parametrize(
    "line",
    ["later", "done", "not now", "thanks, no", "nope all good", "no need", "no thanks, all good"],
)
def test_who_wants_no_page_gets_none(
    tank: Path, line: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tank.parent)
    _, shown = _talk(tank, "yes", line, "stop")
    assert "What next?" in shown and shown.count("Save this audit") == 1
    assert not list(tank.parent.glob("*.md"))


@pytest.mark.parametrize("line", ["yes but as study.md", "save it as study.md", "study.md"])
def test_a_name_is_taken_out_of_what_leads_up_to_it(
    tank: Path, line: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tank.parent)
    _talk(tank, "yes", line, "stop")
    assert [page.name for page in tank.parent.glob("*.md")] == ["study.md"]


def test_a_name_of_several_words_is_taken_once_agreed(
    tank: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tank.parent)
    _talk(tank, "yes", "my tank in the study", "yes", "stop")
    _talk(tank, "yes", "the study.md", "stop")
    pages = {page.name for page in tank.parent.glob("*.md")}
    assert pages == {"my tank in the study.md", "the study.md"}


@pytest.mark.parametrize(
    "line", ["thanks", "Thank you very much!", "thank you, that was really helpful"]
)
def test_thanks_get_a_kind_word(tank: Path, line: str) -> None:
    _, shown = _talk(tank, "yes", "no", line, "stop")
    assert "You're welcome" in shown and "Not taken" not in shown
    assert shown.count("What next?") == 2


@pytest.mark.parametrize("line", ["yes thanks", "yes, that sounds good"])
def test_a_friendly_yes_saves_the_page(tank: Path, line: str) -> None:
    _talk(tank, "yes", line, "stop")
    assert tank.with_suffix(".md").exists()


def test_what_glass_does_is_told_before_it_is_tried(tank: Path) -> None:
    line = "can i just put the glass lid over everything"
    said = " ".join(_talk(tank, "yes", "no", line, "stop")[1].split())
    told, tried = said.index("stop UVB, and ordinary glass cracks"), said.index("As if: Cover")
    assert told < tried
