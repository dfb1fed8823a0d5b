"""back, change, stop and going on later, in a real terminal."""

from __future__ import annotations

from pathlib import Path

from keeper import PASTE, Keeper

ROOM = ("living", "europe", "18 °C", "25 °C", "no")


def test_back_puts_the_old_answer_into_the_line(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        for line in ROOM[:3]:
            keeper.answer(line)
        keeper.sees("How warm does the room get")
        keeper.answer("back")
        keeper.sees("How cold does the room get")
        assert keeper.typing == "≈ 18 °C"
        keeper.press("\x01\x0b17 °C")
        keeper.wait(lambda: keeper.typing == "≈ 17 °C", "the edited line")
        keeper.enter()
        keeper.sees("How warm does the room get")
        keeper.answer("show")
        keeper.sees("Coldest room 17 °C")


def _back_at_the_coldest_room(keeper: Keeper) -> None:
    for line in ROOM[:3]:
        keeper.answer(line)
    keeper.answer("back")
    keeper.sees("Enter keeps what stands here; what you type takes its place.")
    assert keeper.typing == "≈ 18 °C"


def test_what_is_typed_or_pasted_takes_the_old_answers_place(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        _back_at_the_coldest_room(keeper)
        keeper.answer("16 °C")
        keeper.sees("How warm does the room get")
        keeper.answer("back")
        assert keeper.typing == "≈ 16 °C"
        keeper.press(PASTE.format("15 °C"))
        keeper.wait(lambda: keeper.typing == "≈ 15 °C", "the pasted line alone")
        keeper.enter()
        keeper.sees("How warm does the room get")
        (saved,) = tmp_path.glob("*.yaml")
        assert "room_temperature_low: 15 °C" in saved.read_text("utf-8")


def test_an_old_answer_can_be_edited_or_kept(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        _back_at_the_coldest_room(keeper)
        keeper.press("\x1b[D" * 3 + "\x7f9")  # three to the left, rub out the 8
        keeper.wait(lambda: keeper.typing == "≈ 19 °C", "the edited line")
        keeper.enter()
        keeper.sees("How warm does the room get")
        keeper.answer("back")
        keeper.enter()
        keeper.sees("How warm does the room get")
        (saved,) = tmp_path.glob("*.yaml")
        assert "room_temperature_low: 19 °C" in saved.read_text("utf-8")


def test_ctrl_c_and_ctrl_d_work_over_an_old_answer(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        _back_at_the_coldest_room(keeper)
        keeper.press("\x03")
        keeper.sees("Leave now? Everything is saved.")
        keeper.press("\x03")
        assert keeper.leaves() == 130
    with Keeper(tmp_path) as keeper:
        keeper.sees("Go on with")
        keeper.press("yes\r")
        keeper.sees("How warm does the room get")
        keeper.answer("back")
        keeper.sees("Enter keeps what stands here")
        keeper.press("\x04")
        assert keeper.leaves() == 0


def test_change_jumps_there_and_returns(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        for line in ROOM:
            keeper.answer(line)
        keeper.sees("How many turtles")
        keeper.answer("change coldest room")
        keeper.sees("How cold does the room get")
        assert keeper.typing == "≈ 18 °C"
        keeper.press("\x15")
        keeper.answer("16 °C")
        keeper.sees("How many turtles")
        assert "room_temperature_low: 16 °C" in next(tmp_path.glob("*.yaml")).read_text("utf-8")


def test_after_a_refusal_the_line_is_empty_and_enter_keeps_the_answer(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        for line in ROOM[:3]:
            keeper.answer(line)
        keeper.answer("back")
        keeper.sees("How cold does the room get")
        assert keeper.typing == "≈ 18 °C"
        keeper.press("\x15")
        keeper.answer("warm")
        keeper.sees("Answered before: 18 °C. Enter keeps it.")
        assert keeper.typing == "≈"
        keeper.enter()
        keeper.sees("How warm does the room get")
        keeper.answer("not sure")
        keeper.answer("back")
        keeper.sees("Answered before: not sure.")
        assert keeper.typing == "≈"
    (saved,) = tmp_path.glob("*.yaml")
    assert "room_temperature_low: 18 °C" in saved.read_text("utf-8")


def test_stopped_and_gone_on_with(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        for line in (*ROOM, "1", "common musk turtle", "95 mm", "100 x 40 x 40 cm"):
            keeper.answer(line)
        assert keeper.last_answer("stop") == 0
        keeper.sees("Saved in")
    (saved,) = tmp_path.glob("*.yaml")

    with Keeper(tmp_path) as keeper:
        keeper.sees("Go on with “Common musk turtle, 100 × 40 × 40 cm”?")
        keeper.answer("perhaps")
        keeper.sees("Type yes to go on")
        keeper.answer("yes")
        keeper.sees("Going on with")
        keeper.sees("How far is the water line below the rim?")
        keeper.answer("back")
        keeper.sees("How big is the tank outside")
        assert keeper.typing == "≈ 100 x 40 x 40 cm"
        keeper.press("\x15")
        keeper.answer("110 x 40 x 40 cm")
        keeper.answer("11 cm")
        assert keeper.last_answer("stop") == 0
    assert list(tmp_path.glob("*.yaml")) == [saved]
    text = saved.read_text("utf-8")
    assert "tank_size: 110 x 40 x 40 cm" in text
    assert "water_line_below_rim: 11 cm" in text


def test_no_starts_a_new_tank_and_keeps_the_old_one(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        assert keeper.last_answer("stop") == 0
    (old,) = tmp_path.glob("*.yaml")
    before = old.read_bytes()
    with Keeper(tmp_path) as keeper:
        keeper.sees("Go on with")
        keeper.answer("no")
        keeper.answer("planning")
        assert keeper.last_answer("stop") == 0
    assert old.read_bytes() == before
    assert len(list(tmp_path.glob("*.yaml"))) == 2


def test_stopping_at_once_leaves_no_file(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.prompted()
        assert keeper.last_answer("stop") == 0
        keeper.sees("nothing is kept")
    assert list(tmp_path.iterdir()) == []


def test_two_talks_at_once_keep_apart(tmp_path: Path) -> None:
    with Keeper(tmp_path) as one, Keeper(tmp_path) as other:
        one.prompted()
        other.prompted()
        one.answer("living")
        other.answer("planning")
        assert one.last_answer("stop") == 0
        assert other.last_answer("stop") == 0
    stages = sorted(path.read_text("utf-8").split("stage: ")[1] for path in tmp_path.iterdir())
    assert stages == ["living\n", "planning\n"]


def test_two_talks_over_one_file_keep_apart(tmp_path: Path) -> None:
    """Whoever saves second into a file that has changed goes on in a new one."""
    setup = tmp_path / "tank.yaml"
    with Keeper(tmp_path, "talk", str(setup)) as keeper:
        keeper.answer("living")
        assert keeper.last_answer("stop") == 0
    with Keeper(tmp_path, "talk", str(setup)) as one, Keeper(tmp_path, "talk", str(setup)) as other:
        one.prompted()
        other.prompted()
        one.answer("europe")
        other.answer("australia")
        other.sees("Another talk has written")
        assert one.last_answer("stop") == 0
        assert other.last_answer("stop") == 0
    assert "region: europe" in setup.read_text("utf-8")
    (second,) = set(tmp_path.glob("*.yaml")) - {setup}
    assert "region: australia" in second.read_text("utf-8")


def test_an_existing_file_is_not_overwritten_by_the_page(tmp_path: Path) -> None:
    setup = tmp_path / "tank.yaml"
    demo = Path(__file__).parent.parent.parent / "transcripts_demo" / "reeves_turtle_planned.yaml"
    setup.write_text(demo.read_text("utf-8"), "utf-8")
    with Keeper(tmp_path, "talk", str(setup)) as keeper:
        keeper.prompted()
        keeper.sees("Ready for the audit?")
        keeper.answer("yes")
        keeper.sees("Save this audit as Markdown?")
        before = setup.read_bytes()
        keeper.answer(str(setup))
        keeper.sees("I overwrite nothing")
        keeper.answer(str(tmp_path / "page"))
        assert keeper.last_answer("stop") in (0, 1)
        keeper.sees("tankside recheck")
    assert setup.read_bytes() == before
    assert (tmp_path / "page.md").read_text("utf-8").startswith("# A tank in planning")
