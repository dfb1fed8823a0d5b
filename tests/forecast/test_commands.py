"""`tankside day`, `year` and `mishap`: what they print, refuse and give as JSON."""

from __future__ import annotations

import argparse
import io
import json
from pathlib import Path

import pytest

from interview.cli import main
from interview.commands.forecast.running import show
from interview.report.blocks import Drawing
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.plot import Axis, Plot, Series

DEMOS = Path(__file__).parents[2] / "transcripts_demo"
MUSK = str(DEMOS / "musk_turtle.yaml")
BARE = "format: tankside/1\ntitle: Bare\nanswers:\n  stage: living\n  region: europe\n"


def _run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    code = main(list(words))
    said = capsys.readouterr()
    return code, said.out, said.err


def test_a_day_as_plain_lines(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _run(capsys, "day", MUSK, "--plain")
    assert code == 0
    assert "On a day in the mean of the year the water goes from" in out
    assert "Energy: coldest day" in out and "warmest day" in out
    assert max(map(len, out.splitlines())) <= 78 and "\x1b" not in out


def test_charts_are_written_as_svg(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _run(capsys, "day", MUSK, "--plain", "--svg", str(tmp_path))
    assert code == 0 and "A day in" in out
    charts = [tmp_path / f"musk_turtle.{name}.svg" for name in ("day", "day_basking")]
    assert out.splitlines()[-1] == f"Saved {charts[0]}, {charts[1]}."
    assert sorted(p.name for p in tmp_path.iterdir()) == [
        "musk_turtle.day.svg", "musk_turtle.day_basking.svg",
    ]  # fmt: skip
    (tmp_path / "musk_turtle.day.svg").unlink()
    code, out, _ = _run(capsys, "day", MUSK, "--json", "--svg", str(tmp_path))
    assert code == 0 and json.loads(out)["format"] == "tankside/day/1"
    assert (tmp_path / "musk_turtle.day.svg").is_file()
    (tmp_path / "musk_turtle.day.svg").write_text("mine", encoding="utf-8")
    code, out, err = _run(capsys, "day", MUSK, "--svg", str(tmp_path))
    assert code == 2 and "no picture of Tankside's" in err
    missing = str(tmp_path / "nowhere")
    code, _, err = _run(capsys, "day", MUSK, "--svg", missing)
    assert code == 2 and "can't be written" in err


def test_a_screen_without_unicode_gets_ascii_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same text as what the screen would make of it: no sign is replaced on its way out."""
    plot = Plot(Axis("t", "h", 0, 24), Axis("w", "", 0, 4), (Series("line", (0, 24), (0, 4)),))
    chart = Chart("c", "A chart", "In words.", plot)
    shown = io.BytesIO()
    screen = io.TextIOWrapper(shown, encoding="ascii", errors="strict")
    monkeypatch.setattr("sys.stdout", screen)
    monkeypatch.setattr("interview.commands.forecast.running.has_screen", lambda: True)
    asked = argparse.Namespace(json=False, plain=False, format=None)
    show(lambda: [Drawing(chart.lines(60), chart.words, chart)], lambda: "", asked)
    screen.flush()
    lines = shown.getvalue().decode("ascii").splitlines()
    assert [line.strip() for line in chart.lines(78, plain_letters=True)] == [
        line.strip() for line in lines if line.strip()
    ]


def test_a_year_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _run(capsys, "year", MUSK, "--json")
    tree = json.loads(out)
    assert code == 0 and tree["format"] == "tankside/year/1" and len(tree["months"]) == 12
    energy = sum(month["energy"]["value"] for month in tree["months"])
    assert energy == pytest.approx(tree["energy"]["value"], rel=2e-3)
    for month in tree["months"]:
        for name in ("room", "water", "energy", "evaporated", "nitrate_high"):
            value = month[name]
            assert value["low"] <= value["value"] * 1.2 and value["high"] >= 0.8 * value["value"]


def test_what_if_the_lid_comes_off_the_water(capsys: pytest.CaptureFixture[str]) -> None:
    def coldest_day(*words: str) -> float:
        code, out, _ = _run(capsys, "day", MUSK, "--json", *words)
        assert code == 0
        return float(json.loads(out)["days"][0]["energy"]["value"])

    assert coldest_day("--suppose", "cover_water=none") > 1.2 * coldest_day()


@pytest.mark.parametrize("command", ["day", "year", "mishap"])
def test_not_enough_answers_says_which(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bare = tmp_path / "bare.yaml"
    bare.write_text(BARE, encoding="utf-8")
    code, out, err = _run(capsys, command, str(bare))
    assert code == 2 and out == ""
    assert "doesn't tell enough to run the tank through time" in err
    for name in ("Tank size outside", "Coldest room", "Warmest room", "Water temperature"):
        assert name in err


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("room_temperature_high: 25 °C", "room_temperature_high: 15 °C", "colder than the coldest"),
        ("rcd: yes", "rcd: yes\n  day_length: 30 hours", "24"),
        ("rcd: yes", "rcd: yes\n  thermostat_setting: 60 °C", "off the scale"),
        ("water_temperature: 24.5 °C", "water_temperature: 80 °C", "between 1 and 45 °C"),
        ("rcd: yes", "rcd: yes\n  thermostat_swing: 20 °C", "0.1 and 6"),
        ("rcd: yes", "rcd: yes\n  room_swing: 30 °C", "Rooms people live in swing"),
    ],
)
@pytest.mark.parametrize("command", ["day", "year", "mishap"])
def test_bad_input_is_one_clear_sentence(
    command: str, before: str, after: str, said: str, tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    text = Path(MUSK).read_text(encoding="utf-8")
    assert before in text
    bad = tmp_path / "bad.yaml"
    bad.write_text(text.replace(before, after), encoding="utf-8")
    code, out, err = _run(capsys, command, str(bad))
    assert code == 2 and out == "" and said in err and "Traceback" not in err
    assert len(err.strip().splitlines()) == 1


def test_a_supposition_that_cannot_be_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = _run(capsys, "day", MUSK, "--suppose", "day_length=30 hours")
    assert code == 2 and "24" in err
