"""How quick the program is: one command prints the table of tests/RESULTS.md.

    python tests/benchmarks                    # some minutes
    python tests/benchmarks --before CHECKOUT  # an earlier copy beside it, measured in turn
    python tests/benchmarks --tanks 500        # also so many random tanks, an hour

Times are medians; every measurement has a process of its own, those of the two copies in turn.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
DEMOS = ROOT / "transcripts_demo"
NAMES = sorted(path.stem for path in DEMOS.glob("*.yaml"))
Row = tuple[str, str, float, float | None]
"""What, its reach, today's figure, and that of before where there is one."""


def _environment(copy: Path, folder: str) -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(copy), "TANKSIDE_FOLDER": folder, "TERM": "xterm"}


def _probed(copy: Path, *arguments: str) -> list[float]:
    """The figures of one measurement; () where that copy can't be measured so."""
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(
            [sys.executable, str(HERE / "probe.py"), *arguments],
            env=_environment(copy, folder), capture_output=True, text=True, check=False, cwd=folder,
        )  # fmt: skip
    if done.returncode:
        print(f"  {' '.join(arguments)}: {done.stderr.strip().splitlines()[-1]}", file=sys.stderr)
        return []
    return [float(found) for found in json.loads(done.stdout)["each"]]


def _run(copy: Path, *arguments: str, times: int = 3) -> list[float]:
    """Seconds that a command takes from start to end."""
    took = []
    for _ in range(times):
        with tempfile.TemporaryDirectory() as folder:
            start = time.perf_counter()
            subprocess.run(
                [sys.executable, *arguments], env=_environment(copy, folder), cwd=folder,
                capture_output=True, check=False,
            )  # fmt: skip
            took.append(time.perf_counter() - start)
    return took


def _seen(copy: Path, wanted: str, *arguments: str, times: int = 3) -> list[float]:
    """Seconds until a program in a terminal has shown something."""
    import pexpect

    took = []
    for _ in range(times):
        with tempfile.TemporaryDirectory() as folder:
            start = time.perf_counter()
            child = pexpect.spawn(
                sys.executable, list(arguments), env=_environment(copy, folder), cwd=folder,
                timeout=60,
            )  # fmt: skip
            child.expect(wanted)
            took.append(time.perf_counter() - start)
            child.close(force=True)
    return took


def _row(what: str, reach: str, found: Sequence[Sequence[float]], share: float = 0.5) -> Row:
    """A row of both copies; `share` of the figures lie below what it tells."""
    told = [sorted(each)[min(int(share * len(each)), len(each) - 1)] for each in found if each]
    return what, reach, told[0], told[1] if len(told) > 1 else None


def _rows(copies: Sequence[Path], setups: int, tanks: int) -> Iterator[Row]:
    def each(*arguments: str) -> list[list[float]]:
        return [_probed(copy, *arguments) for copy in copies]

    def all_demos(measure: str) -> list[list[float]]:
        return [[f for name in NAMES for f in _probed(copy, measure, name)] for copy in copies]

    program = ("-m", "interview")
    musk = str(DEMOS / "musk_turtle.yaml")
    yield _row("last answer → grade and dangers, warm", "0.5 s", all_demos("first_parts"))
    shown = [_seen(c, "Grade |STOP", *program, "audit", musk) for c in copies]
    yield _row("`audit FILE`, grade on screen, cold", "1.2 s", shown)
    for name in NAMES:
        yield _row(f"all plans, {name.replace('_', ' ')}", "2 s, at most 4 s", each("plans", name))
    reckoned = ("reckon", "water_density", "water_temperature=25C")
    yield _row("`reckon`", "0.4 s", [_run(c, *program, *reckoned) for c in copies])
    explained = [_run(c, *program, "explain", musk, "water_volume") for c in copies]
    yield _row("`explain`", "0.7 s", explained)
    yield _row("answer → next question, p99", "0.02 s", all_demos("next_question"), 0.99)
    yield _row("what-if in the talk", "0.5 s", all_demos("what_if"))
    for number in (1, setups):
        files = [str(DEMOS / f"{NAMES[n % len(NAMES)]}.yaml") for n in range(number)]
        took = [_run(c, *program, "audit", "--json", *files, times=1) for c in copies]
        reach = "1.2 s each on two cores" if number > 1 else ""
        yield _row(f"{number} setup{'s' if number > 1 else ''} in one go", reach, took)
    yield _row("first words", "0.06 s", [_seen(c, "Tankside", *program) for c in copies])
    yield _row("first prompt", "0.35 s", [_seen(c, "How far along", *program) for c in copies])
    yield _row("peak memory of one audit [MB]", "90", all_demos("peak"), 1.0)
    yield _row("floor: bare Python", "", [_run(copies[0], "-c", "pass")])
    prompt = "import prompt_toolkit as p; p.PromptSession().prompt('ready ')"
    yield _row("floor: bare prompt", "", [_seen(copies[0], "ready", "-c", prompt)])
    yield _row("floor: all formulas, 2,048 draws one by one", "", each("scalar_loop"))
    for count in (256, 2048, 16384):
        yield _row(f"growth: all formulas, {count:,} draws", "", each("draws", str(count)))
    for count in (1, 3, 10):
        yield _row(f"growth: audit of {count} animals", "", each("animals", str(count)))
    yield _row("a day of 256 draws, processor time", "0.1 s", each("through_time", "day"))
    yield _row("a year of 256 draws, processor time", "1 s", each("through_time", "year"))
    alone = each("through_time", "solve_ivp")
    yield _row("a year of one tank by solve_ivp, processor time", "", alone)
    if tanks:
        found = each("random_tanks", str(tanks))
        yield _row(f"all plans, {tanks} random tanks, 99 %", "6 s", found, 0.99)
        yield _row(f"all plans, {tanks} random tanks, all", "12 s", found, 1.0)


def _main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--before", type=Path, help="a checkout of an earlier state")
    parser.add_argument("--setups", type=int, default=5, help="how many in one go")
    parser.add_argument("--tanks", type=int, default=0, help="random tanks with faults")
    told = parser.parse_args()
    copies = [ROOT, told.before.resolve()] if told.before else [ROOT]
    print("| what | reach | now | before | ratio |\n|---|---|---|---|---|")
    for what, reach, now, before in _rows(copies, told.setups, told.tanks):
        earlier = "" if before is None else f"{before:.3g}"
        ratio = "" if before is None else f"{before / now:.1f}"
        print(f"| {what} | {reach} | {now:.3g} | {earlier} | {ratio} |", flush=True)


if __name__ == "__main__":
    _main()
