"""Setup files: what goes in comes out, and nothing in a file can do harm."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.base.rows.lines import FileError, read_lined
from interview.graph.interview import Interview, Place
from interview.setups import Setup, SetupError

DEMOS = sorted(demo_folder().glob("*.yaml"))
HEAD = "format: tankside/1\ntitle: A tank\nanswers:\n"


def _read(tmp_path: Path, text: str | bytes) -> Setup:
    path = tmp_path / "tank.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    return setups.read(path, assembly.questionnaire())


def _filled(setup: Setup) -> Interview:
    interview = assembly.new_interview()
    setups.fill(interview, setup)
    return interview


def _taken(tmp_path: Path, text: str) -> Interview:
    return _filled(_read(tmp_path, text))


# ---- there and back


def test_there_are_demos() -> None:
    assert len(DEMOS) >= 5


@pytest.mark.parametrize("path", DEMOS, ids=lambda p: p.stem)
def test_a_demo_comes_back_as_it_was(path: Path, tmp_path: Path) -> None:
    setup = setups.read(path, assembly.questionnaire())
    first = _filled(setup)
    copy = tmp_path / "copy.yaml"
    setups.write(copy, setups.of_interview(first, setup.title))
    again = setups.read(copy, assembly.questionnaire())
    assert again == setup
    assert _filled(again).given() == first.given()
    setups.write(tmp_path / "third.yaml", setups.of_interview(_filled(again), setup.title))
    assert (tmp_path / "third.yaml").read_bytes() == copy.read_bytes()


# What a keeper may say and what a file has to keep without changing it.
SAID = [
    "no",
    "true-leaf moss",
    "null-coloured moss",
    "duckweed: the small kind",
    "a # b",
    "- dash",
    "'quoted' \"twice\"",
    "[bold]moss[/bold]",
    "*moss*, _fern_",
    "{a}",
    "&moss",
    "!moss",
    "0x10",
    "1e5",
    "12:30",
    "2024-01-01",
    "Wasserpest, čínská, 水草",
    "~ fern",
    "%moss",
    "@moss",
    "moss 🌿 and ½ fern",
]


@pytest.mark.parametrize("said", SAID)
def test_words_come_back_as_typed(said: str, tmp_path: Path) -> None:
    interview = assembly.new_interview()
    interview.record(Place("live_plants"), said)
    path = tmp_path / "tank.yaml"
    setups.write(path, setups.of_interview(interview, said))
    again = setups.read(path, assembly.questionnaire())
    assert again.answers == {Place("live_plants"): said}
    assert again.title == said
    assert {*said} <= {*path.read_text("utf-8")}, "in its own characters, for who reads the file"


def test_doubt_and_finer_survive(tmp_path: Path) -> None:
    setup = setups.read(DEMOS[0], assembly.questionnaire())
    interview = _filled(setup)
    interview.finer = True
    interview.record(Place("water_line_below_rim"), "6 in")
    assert interview.doubtful
    path = tmp_path / "tank.yaml"
    setups.write(path, setups.of_interview(interview, "T"))
    again = _filled(setups.read(path, assembly.questionnaire()))
    assert again.finer
    assert again.doubtful == interview.doubtful
    assert again.next() == interview.next()


def test_what_was_left_impossible_by_an_edit_can_be_taken_up_again(tmp_path: Path) -> None:
    """A smaller tank leaves the platform too long: doubtful, and still in the file."""
    text = HEAD + (
        "  tank_size: 100 x 40 x 40 cm\n  platform_kind: floating\n  platform_size: 60 x 30 cm\n"
    )
    interview = _taken(tmp_path, text)
    interview.record(Place("tank_size"), "50 x 30 x 30 cm")
    path = tmp_path / "tank.yaml"
    setups.write(path, setups.of_interview(interview, "T"))
    again = _filled(setups.read(path, assembly.questionnaire()))
    assert again.answers[Place("platform_size")].said == "60 x 30 cm"
    assert Place("platform_size") in again.doubtful


def test_an_irrelevant_answer_may_be_impossible(tmp_path: Path) -> None:
    text = (
        HEAD + "  tank_size: 50 x 30 x 30 cm\n  platform_kind: none\n  platform_size: 60 x 30 cm\n"
    )
    interview = _taken(tmp_path, text)
    assert Place("platform_size") in interview.answers
    assert "platform_length" not in interview.given()


# ---- how YAML's own values are taken

# A line of the file, and the value the answer then has.
AS_TYPED = [
    ("rcd: no", False),
    ("rcd: No", False),
    ("rcd: yes", True),
    ("rcd: false", False),
    ("rcd: true", True),
    ("substrate: none", "none"),
    ("lamp_fixings: 2", 2.0),
    ("ph: 7.6", 7.6),
    ("ph: 7,6", 7.6),
    ("feeds_per_week: 4", 4.0),
    ("decor_hazards: [sharp, tippable]", ("sharp", "tippable")),
    ("decor_hazards: []", ()),
    ("decor_hazards: none", ()),
    ("live_plants: [duckweed, java fern]", ("duckweed", "java fern")),
    ("water_change_share: 30 %", 0.3),
    ("room_temperature_low: 17 °C", 17.0),
]


@pytest.mark.parametrize(("line", "value"), AS_TYPED, ids=[row[0] for row in AS_TYPED])
def test_values_are_read_as_if_typed(tmp_path: Path, line: str, value: object) -> None:
    interview = _taken(tmp_path, f"{HEAD}  {line}\n")
    answer = interview.answers[Place(line.split(":")[0])]
    assert getattr(answer.value, "best", answer.value) == value


def test_a_guessed_number_of_animals_stays_a_guess(tmp_path: Path) -> None:
    interview = assembly.new_interview()
    interview.record(Place("animal_count"), "not sure")
    path = tmp_path / "tank.yaml"
    setups.write(path, setups.of_interview(interview, "T"))
    again = _filled(setups.read(path, assembly.questionnaire()))
    assert again.answers[Place("animal_count")].how == "assumed"
    assert again.given() == interview.given()


def test_two_listed_animals_are_no_guess(tmp_path: Path) -> None:
    text = "  animal_count: not sure\n  animals: [{species: slider}, {species: slider}]\n"
    again = _taken(tmp_path, HEAD + text)
    assert again.animal_count == 2
    assert again.answers[Place("animal_count")].how == "measured"


@pytest.mark.parametrize("line", ["stage:", "stage: null", "stage: ~", 'stage: ""'])
def test_an_empty_answer_is_none_at_all(tmp_path: Path, line: str) -> None:
    assert _taken(tmp_path, f"{HEAD}  {line}\n").answers == {}


@pytest.mark.parametrize("text", ["answers:\n", "answers: {}\n", ""])
def test_a_file_may_hold_no_answers_yet(tmp_path: Path, text: str) -> None:
    assert _read(tmp_path, "format: tankside/1\n" + text) == Setup()


def test_a_byte_order_mark_does_no_harm(tmp_path: Path) -> None:
    assert _read(tmp_path, "\ufeff" + HEAD + "  stage: living\n").answers[Place("stage")]


# ---- what is refused

# The file, and what the one sentence must say.
REFUSED: dict[str, tuple[str | bytes, tuple[str, ...]]] = {
    "empty": ("", ("tank.yaml is no setup file", "format: tankside/1")),
    "only a word": ("hello", ("no setup file", "format: tankside/1")),
    "a list": ("- a\n- b\n", ("no setup file",)),
    "no format": ("title: x\n", ("the format is missing", "“tankside/1”")),
    "a newer format": (
        "format: tankside/2\n",
        ("the format is “tankside/2”, of a newer", "“tankside/1”", "The file stays as it is"),
    ),
    "an unknown format": ("format: tankside/0\n", ("the format is “tankside/0”", "“tankside/1”")),
    "another program's": ("format: pond/1\n", ("the format is “pond/1”;", "“tankside/1”")),
    "digits of elsewhere": ("format: tankside/١\n", ("the format is “tankside/١”;",)),
    "a nested format": ("format: [a]\n", ("the format is", "“tankside/1”")),
    "not UTF-8": (b"format: tankside/1\ntitle: \xff\n", ("not UTF-8", "tank.yaml")),
    "a zero byte": ("format: tankside/1\ntitle: \0\n", ("not readable as YAML",)),
    "broken YAML": ("format: [a\n", ("tank.yaml, line 2", "not readable as YAML")),
    "two documents": (HEAD + "---\na: b\n", ("not readable as YAML",)),
    "unknown key": ("format: tankside/1\nanswer: {}\n", ("line 2", "did you mean “answers”?")),
    "unknown answer": (
        HEAD + "  stage: living\n  water_lin: 3 cm\n",
        ("line 5", "“water_lin” is not known", "did you mean"),
    ),
    "near answer": (HEAD + "  heater_powr: 3 W\n", ("did you mean “heater_power”?",)),
    "far answer": (HEAD + "  zzzz: 3\n", ("“zzzz” is not known", "tankside questions")),
    "unknown of an animal": (
        HEAD + "  animals:\n    - species: slider\n      lenght: 9 cm\n",
        ("line 6", "“lenght” is not known"),
    ),
    "answer twice": (HEAD + "  ph: 7\n  ph: 8\n", ("line 5", "“ph” stands here a second time")),
    "answers a list": ("format: tankside/1\nanswers: [a]\n", ("“answers:” must hold lines",)),
    "animals a mapping": (
        HEAD + "  animals: {species: slider}\n",
        ("must be a list", "- {species"),
    ),
    "animals counted": (HEAD + "  animal_count: 2\n", ("counted from their list", "- {species")),
    "too many animals": (HEAD + "  animals:\n" + "    - {}\n" * 31, ("31 animals", "at most 30")),
    "a mapping for an answer": (HEAD + "  ph: {a: b}\n", ("line 4", "“ph” takes one answer")),
    "a list in a list": (HEAD + "  ph: [[7]]\n", ("“ph” takes one answer",)),
    "a list as a name": (HEAD + "  ? [a]\n  : b\n", ("line 4", "a name must stand")),
    "a merge": (HEAD + "  <<: {ph: 7}\n", ("“<<” is not known",)),
}


@pytest.mark.parametrize("name", REFUSED)
def test_a_file_that_cannot_be_used(tmp_path: Path, name: str) -> None:
    text, said = REFUSED[name]
    with pytest.raises(SetupError) as refused:
        _read(tmp_path, text)
    message = str(refused.value)
    for words in said:
        assert words in message
    assert "\n" not in message


# An answer in a file that can't be taken, and what the sentence must say.
NOT_TAKEN = [
    ("water_line_below_rim: 12", ("water_line_below_rim", '"12"', "no unit", '"12 cm"')),
    ("room_temperature_low: 64", ("no unit", '"64 °F"')),
    ("nitrate: 40", ("nitrate", "no unit", '"40 mg/L"')),
    ("tank_size: 100 x 40", ("2 sides", "100 x 40 x 40 cm")),
    ("stage: livng", ("stage", "did you mean", "a turtle lives in it")),
    ("rcd: maybe", ("rcd", '"yes" or "no"')),
    (
        "room_temperature_low: 80 °C",
        ("room_temperature_low “80 °C”", "I understood 80 °C", "17 °C"),
    ),
    ("animals: [{carapace_length: 3 m}]", ("carapace_length “3 m”", "I understood", "11 cm")),
]


@pytest.mark.parametrize(("line", "said"), NOT_TAKEN, ids=[row[0] for row in NOT_TAKEN])
def test_an_answer_that_cannot_be_taken(tmp_path: Path, line: str, said: tuple[str, ...]) -> None:
    with pytest.raises(SetupError) as refused:
        _taken(tmp_path, f"{HEAD}  {line}\n")
    for words in said:
        assert words in str(refused.value)


def test_impossible_geometry_in_a_file_names_the_answer(tmp_path: Path) -> None:
    text = HEAD + "  tank_size: 100 x 40 x 40 cm\n  water_line_below_rim: 60 cm\n"
    with pytest.raises(SetupError, match=r"water_line_below_rim “60 cm”: .*40 cm"):
        _taken(tmp_path, text)


def test_a_missing_file_says_what_to_do(tmp_path: Path) -> None:
    with pytest.raises(SetupError, match=r"There is no file .*nothing\.yaml.*tankside"):
        setups.read(tmp_path / "nothing.yaml", assembly.questionnaire())


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(SetupError, match="can't be read"):
        setups.read(tmp_path, assembly.questionnaire())


# ---- files made to do harm


def _bomb(key: str) -> str:
    """Nine levels of nine references: 400 million words if anybody wrote them out."""
    lines = [f"{key}:", "  - &l0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"  - &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]" for n in range(1, 9)]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(
    "text",
    [
        "format: tankside/1\n" + _bomb("title"),
        "format: tankside/1\n" + _bomb("doubtful"),
        "format: tankside/1\n" + _bomb("finer") + _bomb("answers"),
        _bomb("format"),
        HEAD + "  live_plants:\n    - &a [x, x]\n    - [*a, *a]\n",
        "format: tankside/1\nanswers: &a {stage: *a}\n",
        "[" * 50_000,
        "{a: " * 50_000,
        HEAD + "  ph: " + "[" * 3_000,
    ],
    ids=lambda text: text[:30],
)
def test_a_bomb_is_refused_at_once(tmp_path: Path, text: str) -> None:
    start = time.process_time()
    with pytest.raises(SetupError):
        _read(tmp_path, text)
    assert time.process_time() - start < 20  # written out, the words would take many minutes


@pytest.mark.parametrize(
    "tagged",
    [
        "!!python/object/apply:os.system ['touch {mark}']",
        "!!python/object/apply:pathlib.Path.touch ['{mark}']",
        "!!python/object/new:os.system ['touch {mark}']",
        "!!python/name:os.system touch {mark}",
    ],
)
def test_a_tag_runs_nothing(tmp_path: Path, tagged: str) -> None:
    mark = tmp_path / "mark"
    with pytest.raises(SetupError, match="There is no choice"):
        _taken(tmp_path, f"{HEAD}  stage: {tagged.replace('{mark}', str(mark))}\n")
    assert not mark.exists()


@pytest.mark.parametrize("tag", ["!mine", "!!set", "!!map"])
def test_a_tag_before_a_mapping_is_no_bug_of_ours(tmp_path: Path, tag: str) -> None:
    with pytest.raises(SetupError, match="takes one answer in plain words"):
        _taken(tmp_path, f"{HEAD}  stage: {tag} {{a: b}}\n")


@pytest.mark.parametrize(
    ("told", "heard"),
    [
        ("!!seq {living: 1}", "takes one answer in plain words"),
        ("!!map [somewhere]", "There is no choice .somewhere."),
        ("!!str [somewhere]", "There is no choice .somewhere."),
        ("!!seq somewhere", "There is no choice .somewhere."),
        ("!!map somewhere", "There is no choice .somewhere."),
    ],
)
def test_what_a_thing_is_tells_itself_and_not_its_tag(
    tmp_path: Path, told: str, heard: str
) -> None:
    with pytest.raises(SetupError, match=heard):
        _taken(tmp_path, f"{HEAD}  stage: {told}\n")
    taken = _taken(tmp_path, f"{HEAD}  stage: !!seq living\n")
    assert taken.answers[Place("stage")].said == "living"


def test_a_value_that_is_not_of_its_tag_is_a_fault_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "rows.yaml"
    for told in ("2026-13-45", "!!int x", "!!bool perhaps", "!!seq {a: b}"):
        path.write_text(f"a: b\nc: {told}\n", encoding="utf-8")
        with pytest.raises(FileError, match="line 2"):
            read_lined(path)


def test_escape_codes_in_a_file_reach_nobody(tmp_path: Path) -> None:
    text = 'format: tankside/1\ntitle: "\\e[2Jred\\u202e"\nanswers: {live_plants: "\\e[31mmoss"}\n'
    setup = _read(tmp_path, text)
    assert setup.title == "[2Jred"
    assert setup.answers[Place("live_plants")] == "[31mmoss"
    with pytest.raises(SetupError) as refused:
        _read(tmp_path, HEAD + '  "\\e[31mx": y\n')
    assert "\x1b" not in str(refused.value)
    with pytest.raises(SetupError) as twice:
        _read(tmp_path, HEAD + '  "\\e[31mx": y\n  "\\e[31mx": y\n')
    assert "\x1b" not in str(twice.value)


# ---- whole or not at all


def _some_setup() -> Setup:
    return Setup(title="New", answers={Place("stage"): "living"})


@pytest.mark.parametrize("at", ["os.fsync", "pathlib.Path.replace", "yaml.serialize"])
@pytest.mark.parametrize("problem", [OSError(28, "No space left"), KeyboardInterrupt()], ids=repr)
def test_a_failed_write_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: str, problem: BaseException
) -> None:
    path = tmp_path / "tank.yaml"
    path.write_text("the old one", encoding="utf-8")

    def fail(*_: object, **__: object) -> None:
        raise problem

    monkeypatch.setattr(at, fail)
    with pytest.raises(type(problem)):
        setups.write(path, _some_setup())
    monkeypatch.undo()
    assert path.read_text(encoding="utf-8") == "the old one"
    assert list(tmp_path.iterdir()) == [path]


def test_writing_makes_the_folder_and_leaves_one_file(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b" / "tank.yaml"
    setups.write(path, _some_setup())
    setups.write(path, _some_setup())
    assert [p.name for p in path.parent.iterdir()] == ["tank.yaml"]
    assert path.read_text(encoding="utf-8").startswith("format: tankside/1\ntitle: New\n")


def test_where_setups_are_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path))
    assert setups.folder() == tmp_path
    monkeypatch.delenv("TANKSIDE_FOLDER")
    assert setups.folder() == Path.home() / "tankside"
