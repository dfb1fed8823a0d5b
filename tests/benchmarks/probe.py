"""One measurement in a process of its own, of whichever copy of the program is found first.

It uses only what every version has, so that an earlier one can be measured beside today's:

    PYTHONPATH=CHECKOUT python tests/benchmarks/probe.py MEASURE [ARGUMENT]
"""

from __future__ import annotations

import datetime
import io
import json
import resource
import statistics
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

DEMOS = Path(__file__).parent.parent.parent / "transcripts_demo"
NAMES = tuple(sorted(path.stem for path in DEMOS.glob("*.yaml")))
DAY = datetime.date(2026, 3, 1)
_SCALAR = 128
"""Draws that the scalar loop is timed with."""
_TYPED_IN = 0.25
"""What a quick keeper takes over an answer [s]."""


def _interview(name: str) -> Any:
    from interview import assembly, setups

    made = assembly.new_interview()
    setups.fill(made, setups.read(DEMOS / f"{name}.yaml", made.questionnaire))
    return made


def _timed(work: Callable[[], Any]) -> float:
    """Processor time, which on a quiet core passes on the clock too, and others don't lengthen."""
    start = time.process_time()
    work()
    return time.process_time() - start


def first_parts(name: str) -> list[float]:
    """Last answer to grade and dangers, warm; they stood behind all plans once."""
    from interview import assembly

    made = _interview(name)
    assembly.advice_of(assembly.audit_of(made, ""), DAY)

    def shown() -> None:
        audit = assembly.audit_of(made, "")
        try:
            from interview.report.first_page.blocks import beginning_blocks
            from interview.report.first_page.page import first_page
        except ImportError:
            assembly.advice_of(audit, DAY)
        else:
            list(beginning_blocks(first_page(audit)))

    return [_timed(shown) for _ in range(3)]


def plans(name: str) -> list[float]:
    """All the advice of one tank, its audit not counted."""
    from interview import assembly

    audit = assembly.audit_of(_interview(name), "")
    return [_timed(lambda: assembly.advice_of(audit, DAY))]


def what_if(name: str) -> list[float]:
    """A what-if in the talk, warm."""
    from interview.chat.faces.line_face import PlainFace
    from interview.chat.talks.guided import Talk

    talk = Talk(_interview(name), PlainFace(io.StringIO(), io.StringIO()), lambda: None)
    line = "what if the water is 1 cm lower"
    talk.elsewhere(line)
    return [_timed(lambda: talk.elsewhere(line)) for _ in range(3)]


def next_question(name: str) -> list[float]:
    """Every answer of a whole talk: from the line typed to the next question shown.

    Who types takes a moment over each, in which what comes next is prepared.
    """
    from interview import assembly, setups
    from interview.chat.faces.line_face import PlainFace
    from interview.chat.faces.scripted_face import ScriptedFace
    from interview.chat.talks.guided import Talk

    made, took = assembly.new_interview(), list[float]()
    assembly.warm()
    heard = [0.0]

    class Timed(ScriptedFace):
        live = True  # what is told to somebody who is there is worked out too

        def hear(self, asked: Any) -> str:
            if heard[0]:  # the question stands on the screen now
                took.append(time.perf_counter() - heard[0])
            line = super().hear(asked)
            time.sleep(_TYPED_IN)
            heard[0] = time.perf_counter()
            return line

    setup = setups.read(DEMOS / f"{name}.yaml", made.questionnaire)
    Talk(made, Timed(PlainFace(io.StringIO(), io.StringIO()), setup), lambda: None).run()
    return took[1:]


def peak(name: str) -> list[float]:
    """Peak memory of one audit with its advice [MB]."""
    from interview import assembly

    assembly.advice_of(assembly.audit_of(_interview(name), ""), DAY)
    return [resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024]


def draws(count: str) -> list[float]:
    """One pass of all formulas over so many draws."""
    from interview import assembly

    tank = assembly.audit_of(_interview("musk_turtle"), "").tank
    few = _repeated(tank.sample, int(count))
    return [_timed(lambda: _every(few())) for _ in range(3)]


def scalar_loop(_: str) -> list[float]:
    """The same formulas, one draw at a time: for 2,048 draws, from a few of them."""
    from interview import assembly

    sample = assembly.audit_of(_interview("musk_turtle"), "").tank.sample
    length = 2048

    def one(row: int) -> Any:
        known = {
            name: value[row] if getattr(value, "shape", ())[:1] == (length,) else value
            for name, value in sample.known.items()
        }
        return sample.wiring.working(known)

    took = _timed(lambda: [_every(one(row)) for row in range(_SCALAR)])
    return [took * length / _SCALAR]


def _every(working: Any) -> None:
    for name in working.wiring.formulas:
        working.get(name)


def _repeated(sample: Any, count: int) -> Callable[[], Any]:
    import numpy as np

    def part(value: Any) -> Any:
        if getattr(value, "shape", ())[:1] != (2048,):
            return value
        return np.resize(value, (count, *value.shape[1:]))

    known = {name: part(value) for name, value in sample.known.items()}
    return lambda: sample.wiring.working(known)


def animals(count: str) -> list[float]:
    """The audit of a tank with so many alike animals of different length."""
    from interview import assembly
    from interview.graph.interview import Place

    made = _interview("painted_turtles_classroom")
    said = {place: answer.said for place, answer in made.answers.items()}
    made.record(Place("animal_count"), count)
    for animal in range(int(count)):
        for place, words in said.items():
            if place.animal == 0:
                made.record(Place(place.id, animal), words)
        made.record(Place("carapace_length", animal), f"{100 + 5 * animal} mm")
    assembly.audit_of(made, "")
    return [_timed(lambda: assembly.audit_of(made, ""))]


def random_tanks(count: str) -> list[float]:
    """All plans of tanks whose words are answered at random, sizes as in the demos."""
    import random

    from interview import assembly
    from interview.graph.interview import AnswerRefused

    dice, took = random.Random(20), list[float]()
    while len(took) < int(count):
        made = _interview(dice.choice(NAMES))
        words = assembly.words_of_answers()
        places = [p for p in made.answers if p.id in words and p.id not in ("stage", "species")]
        for place in dice.sample(places, min(len(places), dice.randrange(31))):
            try:
                made.record(place, dice.choice(words[place.id]))
            except AnswerRefused:
                continue
        audit = assembly.audit_of(made, "")
        took.append(_timed(lambda audit=audit: assembly.advice_of(audit, DAY)))
    return took


def through_time(what: str) -> list[float]:
    """A day or a year of 256 draws, or a year of one tank by solve_ivp: processor time."""
    import through_time as measures

    from interview import assembly

    tank = assembly.tank_of(_interview("river_cooter_adult"), drawn=True)
    if what == "solve_ivp":
        return measures.year_by_solve_ivp(tank)
    return {"day": measures.day, "year": measures.year}[what](tank, 256)


MEASURES: dict[str, Callable[[str], list[float]]] = {
    measure.__name__: measure
    for measure in (
        first_parts, plans, what_if, next_question, peak, draws, scalar_loop, animals,
        random_tanks, through_time,
    )
}  # fmt: skip


def _main(arguments: Iterator[str]) -> None:
    found = MEASURES[next(arguments)](next(arguments, ""))
    print(json.dumps({"median": statistics.median(found), "each": found}))


if __name__ == "__main__":
    _main(iter(sys.argv[1:]))
