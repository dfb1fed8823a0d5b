"""What no tank may break: physics that runs one way, and verdicts that follow it.

Thousands of random tanks (random_tanks.py) go through the core at once. Which way each quantity
runs is what anybody who has held a hand under a lamp, or read a table of limits, would say.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from often import often
from random_tanks import GROUNDS, Known, random_tanks, shares, worked_out
from typed_tanks import TESTS, changed, interview_in, judged

from interview import assembly, setups
from interview.advice.what_if.suppose import changed_working
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.checks.outcomes import RULE_VERDICTS, levels_of, rules_of
from interview.care.facts import limits
from interview.core.wiring import quantities
from interview.core.working import Working
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.amounts.reading import Reading

TANKS = often(300)
"""How many tanks are thrown round each ground; 25 times as many in the long run."""
SEEDS = (1, 2)
HAIR = 1e-9
CHECKS = {check.id: check for check in all_checks()}
Change = Callable[[Known, int], Known]


def _times(name: str, low: float, high: float) -> Change:
    return lambda known, seed: {name: known[name] * shares(TANKS, seed, low, high)}


def _more(name: str, by: float) -> Change:
    return lambda known, seed: {name: known[name] + shares(TANKS, seed, min(by, 0), max(by, 0))}


def _longer(known: Known, seed: int) -> Known:
    """A longer tank of the same panes: what is usual for its size would be thicker."""
    pane = worked_out(known).value("pane_thickness")
    return {"tank_length": known["tank_length"] * shares(TANKS, seed, 1, 2), "wall_thickness": pane}


def _lower_rim(known: Known, seed: int) -> Known:
    """Glass cut off above water that stays where it is."""
    cut = known["water_line_below_rim"] * shares(TANKS, seed, 0, 1)
    return {
        "tank_height": known["tank_height"] - cut,
        "water_line_below_rim": known["water_line_below_rim"] - cut,
    }


def _larger(known: Known, seed: int) -> Known:
    """Every animal longer by a share of its own, and as much heavier as a body grows."""
    grown = shares(TANKS, seed, 1.0, 1.8, np.shape(known["carapace_length"])[-1])
    longer = {"carapace_length": known["carapace_length"] * grown}
    return longer | ({"mass": known["mass"] * grown**3} if "mass" in known else {})


WARMTH = [
    "platform_temperature",
    "shell_temperature",
    "shell_temperature_hot_day",
    "shell_temperature_cold_day",
    "platform_temperature_cold_day",
    "basking_rise",
]
NITRATE = ["nitrate_peak", "nitrate_rise", "water_change_share_needed"]
UVB = ["uv_index_shell", "uv_index_platform", "uv_index_ceiling"]
NEEDS = [
    "required_swim_area",
    "proportional_swim_area",
    "required_depth",
    "proportional_depth",
    "righting_depth",
    "least_side",
    "least_volume",
    "escape_height_needed",
    "headroom_needed",
    "platform_area_needed",
    "platform_area_least",
    "foam_volume_required",
    "feed_need",
    "animal_mass",
    "shell_height",
    "shell_width",
    "platform_sinkage",
    "platform_edge_sinkage",
]

# what is changed, how, what may then not fall (+1) or not rise (-1)
ONE_WAY: dict[str, tuple[Change, list[str], int]] = {
    "a nearer lamp": (_times("heat_lamp_height", 0.4, 1.0), WARMTH, +1),
    "a stronger lamp": (_times("heat_lamp_power", 1.0, 2.0), WARMTH, +1),
    "a hotter spot": (_more("basking_temperature", 15), [*WARMTH, "lamp_heat"], +1),
    "a hotter room": (_more("room_temperature_high", 8), ["shell_temperature_hot_day"], +1),
    "more water": (_times("water_line_below_rim", 0.4, 1.0), NITRATE, -1),
    "a longer tank": (_longer, NITRATE, -1),
    "less decor": (_times("decor_volume", 0.4, 1.0), NITRATE, -1),
    "a smaller water change": (_times("water_change_share", 0.4, 1.0), NITRATE[:1], +1),
    "more food": (_times("feed_mass", 1.0, 2.0), [*NITRATE, "feed_share", "ammonia_load"], +1),
    "thicker wire": (_times("mesh_wire", 1.0, 2.0), [*UVB, "uvb_transmission"], -1),
    "narrower mesh": (_times("mesh_pitch", 0.4, 1.0), [*UVB, "uvb_transmission"], -1),
    "a darker mesh": (_times("mesh_light_share", 0.4, 1.0), [*UVB, "uvb_transmission"], -1),
    "a nearer UVB lamp": (_times("uvb_lamp_height", 0.4, 1.0), UVB, +1),
    "an older UVB lamp": (_times("uvb_lamp_age", 1.0, 2.0), [*UVB, "uvb_lamp_output"], -1),
    "a lower rim": (_lower_rim, ["escape_height"], -1),
    "a higher platform": (_times("platform_height_above_water", 1, 2), ["escape_height"], -1),
    "larger animals": (_larger, NEEDS, +1),
    "animals that grew": (_larger, ["outgrow_time", "volume_per_shell_length"], -1),
    "a colder room": (_more("room_temperature_low", -8), ["heat_loss"], +1),
    "a colder night": (_more("room_temperature_low", -8), ["heater_margin", "cooling_time"], -1),
}

# checks that may then not come out better
NO_BETTER: dict[str, tuple[Change, list[str]]] = {
    "a lower rim": (_lower_rim, ["escape"]),
    "a higher platform": (_times("platform_height_above_water", 1, 2), ["escape"]),
    # Not outgrow: an animal that has grown up is no longer judged at the length it may reach.
    "larger animals": (_larger, ["swim_area", "swim_depth", "volume_rule", "escape"]),
    "thicker wire": (_times("mesh_wire", 1.0, 2.0), ["uv_barrier"]),
    "less water": (_times("water_line_below_rim", 1.0, 1.5), ["nitrate", "volume_rule"]),
    "a nearer UVB lamp": (_times("uvb_lamp_height", 0.4, 1.0), ["uv_overdose"]),
    "a nearer lamp": (_times("heat_lamp_height", 0.4, 1.0), ["basking_hot_day"]),
    "a colder room": (_more("room_temperature_low", -8), ["heater_power"]),
}


def _tanks() -> Iterator[tuple[str, int, Known]]:
    """Random tanks round each ground; where mesh lies over them, a mesh of some size."""
    for ground, path in enumerate(GROUNDS):
        for seed in SEEDS:
            known = random_tanks(ground, TANKS, seed)
            if known.get("uvb_path") == "mesh":
                known |= {
                    "mesh_wire": shares(TANKS, seed + 10, 0.2e-3, 1.5e-3),
                    "mesh_pitch": shares(TANKS, seed + 11, 3e-3, 15e-3),
                }
                if seed == SEEDS[-1]:
                    known["mesh_light_share"] = shares(TANKS, seed + 12, 0.3, 1.0)
            yield path.stem, seed, known


@pytest.fixture(scope="module")
def tanks() -> list[tuple[str, int, Known, Working]]:
    return [(name, seed, known, worked_out(known)) for name, seed, known in _tanks()]


Tanks = list[tuple[str, int, Known, Working]]


def _after(change: Change, known: Known, before: Working, seed: int) -> Working | None:
    """The tanks after a change; None where the ground lacks what is changed."""
    try:
        changes = change(known, seed)
    except KeyError:
        return None
    return changed_working(before, before, changes)


@pytest.mark.parametrize("name", ONE_WAY)
def test_physics_runs_one_way(name: str, tanks: Tanks) -> None:
    change, names, sign = ONE_WAY[name]
    compared, broken = dict.fromkeys(names, 0), []
    for ground, seed, known, before in tanks:
        after = _after(change, known, before, seed)
        for quantity in names if after else ():
            then, now = before.get(quantity), after.get(quantity) if after else None
            if then is None or now is None:
                continue
            then, now = np.broadcast_arrays(np.asarray(then, float), np.asarray(now, float))
            compared[quantity] += then.size
            with np.errstate(invalid="ignore"):
                wrong = sign * (now - then) < -HAIR * np.maximum(np.abs(then), 1e-12)
            if np.any(wrong):
                row = np.unravel_index(np.argmax(wrong), wrong.shape)
                broken.append((ground, seed, quantity, then[row], now[row]))
    assert not broken, broken[:10]
    assert min(compared.values()) >= TANKS, compared


@pytest.mark.parametrize("name", NO_BETTER)
def test_verdicts_run_one_way(name: str, tanks: Tanks) -> None:
    change, checks = NO_BETTER[name]
    compared, broken = dict.fromkeys(checks, 0), []
    for ground, seed, known, before in tanks:
        after = _after(change, known, before, seed)
        for check in checks if after else ():
            then, now = _levels(check, before), _levels(check, after)
            if then is None or now is None:
                continue
            compared[check] += TANKS
            if np.any(now < then):
                row = int(np.argmax(now < then))
                broken.append((ground, seed, check, row, int(then[row]), int(now[row])))
    assert not broken, broken[:10]
    assert min(compared.values()) >= TANKS, compared


def _levels(name: str, working: Working | None) -> Any:
    """The level of a check in every tank, of the animal that fares worst; None if not judged."""
    if working is None:
        return None
    check, animals = CHECKS[name], len(working.known.get("species", ()))
    alone = [working.of_animal(row) for row in range(animals)] if animals > 1 else [working]
    found = [_level(name, one) for one in (alone if check.each_animal else [working])]
    return None if any(level is None for level in found) else np.max(found, axis=0)


def _level(name: str, working: Working) -> Any:
    check, facts = CHECKS[name], limits()

    def look(wanted: str) -> Any:
        return facts[wanted].value if wanted in facts else working.get(wanted)

    unit_of = quantities().units.get
    rules = rules_of(check, look, lambda n: unit_of(n, "1"))
    if (check.good is not None and "good" not in rules) or not set(rules) <= set(RULE_VERDICTS):
        return None
    return np.broadcast_to(levels_of(check, look, lambda n: unit_of(n, "1"), ""), TANKS)


# ---- what isn't about the tank changes no verdict

SAME = GROUNDS[:: 1 if often(1) > 1 else 4]


@pytest.mark.parametrize("path", SAME, ids=lambda path: path.stem)
def test_title_and_order_of_keys_change_no_verdict(path: Path, tmp_path: Path) -> None:
    text = yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader)
    answers = dict(reversed(text["answers"].items()))
    if "animals" in answers:
        answers["animals"] = [dict(reversed(one.items())) for one in answers["animals"]]
    other = {"answers": answers, "title": "STOP: danger, grade E", "format": text["format"]}
    (tmp_path / "tank.yaml").write_text(yaml.safe_dump(other, sort_keys=False), "utf-8")
    assert _told(interview_in(path)) == _told(_read(tmp_path / "tank.yaml"))


def _read(path: Path) -> Interview:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(path, assembly.questionnaire()))
    return interview


def _told(interview: Interview) -> dict[str, tuple[Any, ...]]:
    return {f.check: _all_but_words(f) for f in judged(interview)}


def _all_but_words(found: Finding) -> tuple[Any, ...]:
    return found.verdict, found.chances, found.certainty, found.risk, found.say, found.do


@pytest.mark.parametrize("path", SAME, ids=lambda path: path.stem)
def test_the_units_of_the_page_change_no_verdict(path: Path) -> None:
    tank = assembly.tank_of(interview_in(path), drawn=True)
    told = []
    for system in ("metric", "us", "uk"):
        found = [judge(c, dataclasses.replace(tank, system=system)) for c in all_checks()]
        told.append([(f.check, f.verdict, f.chances, f.certainty, f.risk) for f in found])
    assert told[0] == told[1] == told[2]


# ---- a sure answer in place of “not sure”

DANGERS = [c for c in all_checks() if c.danger is not None or "danger_when" in c.whens]
UNSURE = ("crowded",) if often(1) == 1 else tuple(path.stem for path in GROUNDS)


def _stood_for(tank: Interview, name: str) -> list[str]:
    """Answers from what “not sure” stands for at a question: its word, or numbers of its range."""
    question, answer = assembly.questionnaire().by_id[name], tank.answers[Place(name)]
    if isinstance(answer.value, Reading):
        numbers = (answer.value.low, answer.value.best, answer.value.high)
        unit = "" if question.unit == "1" else f" {question.unit}"
        return [f"{number:.6g}{unit}" for number in dict.fromkeys(numbers)]
    if isinstance(answer.value, bool):
        return ["yes" if answer.value else "no"]
    return [answer.value] if isinstance(answer.value, str) else []


def _dangers(tank: Interview, reached: str) -> dict[str, Finding]:
    """The findings that can be dangerous and rest on an answer."""
    known = assembly.tank_of(tank, drawn=True)
    wiring = quantities()
    return {
        check.id: judge(check, known)
        for check in DANGERS
        if any(reached == n or reached in wiring.upstream(n) for n in check.decides)
    }


@pytest.mark.parametrize("stem", UNSURE)
def test_a_sure_answer_makes_no_danger_where_every_answer_was_fine(stem: str) -> None:
    base = interview_in(next(path for path in GROUNDS if path.stem == stem))
    compared, broken = 0, []
    for place in base.answers:
        question = assembly.questionnaire().by_id[place.id]
        if place.animal is not None or question.parts or not question.unsure.assume:
            continue
        unsure = changed(base, {place.id: "not sure"})
        before = _dangers(unsure, place.id) if unsure.answers[place].value is not None else {}
        for said in _stood_for(unsure, place.id) if before else ():
            try:
                sure = changed(base, {place.id: said})
            except AnswerRefused:
                continue  # an end of the range that this tank can't have
            for check, found in _dangers(sure, place.id).items():
                then = before[check].chances
                fine = then is not None and then.danger == 0 and before[check].verdict != "danger"
                compared += fine
                if fine and found.verdict == "danger":
                    broken.append((place.id, said, check, then, found.chances))
    assert not broken, broken
    assert compared >= 10


@pytest.mark.parametrize(("height", "least"), [("not sure", 0.03), ("1 cm", 0.2)])
def test_a_raft_of_unknown_foam_can_still_go_under(height: str, least: float) -> None:
    """One of two signs of it is unknown: the draws that show the other count all the same."""
    tank = changed(
        interview_in(TESTS / "tanks" / "crowded.yaml"), {"platform_height_above_water": height}
    )
    found = judge(CHECKS["platform_float"], assembly.tank_of(tank, drawn=True))
    assert found.chances is not None and found.chances.danger > least
