"""How long a talk is: one command prints how far it reaches what it is meant to.

    python tests/benchmarks/talk.py              # some minutes: every tenth faulty tank
    python tests/benchmarks/talk.py --every 1    # all of them, an hour

Answers are counted one by one, also where several are typed in one line; a prompt counts once.
The times are of this machine; all else is the same everywhere.
"""

from __future__ import annotations

import argparse
import io
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from statistics import median

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS.parent), str(TESTS / "words")]  # the tests are no package

from told_score import paragraphs

from interview import assembly
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.grades import grade_all
from interview.chat.faces.line_face import PlainFace
from interview.chat.hearing.story import keep, read_story
from interview.chat.talks.why_asked import checks_fed
from interview.chat.together.counter import CounterTalk
from interview.chat.together.guided_talk import GuidedTalk
from interview.chat.together.row_talk import RowTalk
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.text.refusal import NotUnderstood
from tests.graph.conftest import PLAIN_TANK
from tests.graph.counting_worth import tanks

FEW = ("stage", "animal_count", "region", "species")
"""So much hangs on these that every check is judged anew without one."""
PLANNED = {
    **PLAIN_TANK, "stage": "planning", "tank_size": "120 x 50 x 50 cm",
}  # fmt: skip
SHOP = ("region", "room_temperature_low", "room_temperature_high")


def _order(interview: Interview, *, by_file: bool) -> list[Place]:
    """The places of a tank's answers as they would be asked, finer ones last."""
    talk, order = assembly.new_interview(), []
    while left := [p for p in interview.answers if p not in talk.answers]:
        relevant = talk.relevance()
        way = talk.places() if by_file else talk.in_asking_order()
        ready = [p for p in way if p in left and relevant[p]]
        if not ready:
            break
        place = next((p for p in ready if talk.usual(p)), ready[0])
        talk.answers[place] = interview.answers[place]
        talk._worked_out = None
        order.append(place)
    return order


def _until_fixed(interview: Interview, order: Sequence[Place]) -> int:
    """How many answers it takes until no later one changes the grade of the whole."""
    findings = {}

    def grade(count: int, again: set[str]) -> str:
        tank_so_far = assembly.new_interview()
        tank_so_far.answers = {p: interview.answers[p] for p in order[:count]}
        tank = assembly.tank_of(tank_so_far, drawn=True)
        findings.update({c.id: judge(c, tank) for c in all_checks() if c.id in again})
        return grade_all(list(findings.values())).overall

    every = {check.id for check in all_checks()}
    final = grade(len(order), every)
    for count in range(len(order) - 1, 0, -1):
        gone = order[count].id
        fed = {c.id for c in checks_fed(assembly.questionnaire().by_id[gone])}
        if grade(count, every if gone in FEW else fed) != final:
            return count + 1
    return 1


def _talk(interview: Interview, manner: Callable[..., RowTalk]) -> RowTalk:
    return manner(interview, PlainFace(io.StringIO(), io.StringIO()), lambda: None)


def _asked(
    interview: Interview,
    answers: Mapping[str, str],
    manner: Callable[..., RowTalk] = GuidedTalk,
    *,
    first_look: bool = False,
) -> tuple[int, int, list[int]]:
    """Prompts and answers of the rest of a talk, and each number of questions it told."""
    talk, prompts, answered, about = _talk(interview, manner), 0, 0, []
    while (place := interview.next()) and (interview.is_first_look(place) or not first_look):
        prompts += 1
        about.append(interview.progress(place)[2])
        for one in talk.group(place):
            answered += 1
            try:
                interview.record(one, answers.get(one.id, "not sure"))
            except (NotUnderstood, AnswerRefused):
                interview.record(one, "not sure")
    return prompts, answered, about


def _fixed(every: int) -> Iterator[tuple[str, str, str]]:
    found = list(tanks())
    chosen = [*found[:6], *found[6::every]]
    by_file = median(_until_fixed(t, _order(t, by_file=True)) for _, t in chosen)
    now = median(_until_fixed(t, _order(t, by_file=False)) for _, t in chosen)
    what = f"answers until the whole grade is fixed, median of {len(chosen)} tanks"
    yield f"{what}, in the order of the files", "", f"{by_file:g}"
    yield f"{what}, as they are asked", f"{by_file / 2:g}", f"{now:g}"


def _lengths() -> Iterator[tuple[str, str, str]]:
    prompts, answered, about = _asked(assembly.new_interview(), PLAIN_TANK)
    yield "guided, a plain tank without a paragraph: prompts", "40", str(prompts)
    yield "the same: answers", "", str(answered)
    grown = max(about) / about[0] - 1
    yield "the same: the number of questions grows by", "10 %", f"{100 * grown:.0f} %"
    counted = [_after_paragraph(row["text"]) for row in paragraphs("held_out")]
    yield "guided, after a told paragraph (30): prompts, median", "30", f"{median(counted):g}"
    for name, answers in (("a tank lived in", PLAIN_TANK), ("a planned tank", PLANNED)):
        interview = assembly.new_interview()
        interview.at_counter = True
        for place in map(Place, SHOP):
            interview.record(place, answers[place.id])
        _, answered, _ = _asked(interview, answers, CounterTalk, first_look=True)
        yield f"counter, {name}, first look: answers", "20", str(answered)


def _after_paragraph(text: str) -> int:
    interview = assembly.new_interview()
    interview.record(Place("stage"), "living")
    keep(interview, read_story(interview, text))
    return _asked(interview, PLAIN_TANK)[0] + 1


def _times() -> Iterator[tuple[str, str, str]]:
    took = []
    for _ in range(3):
        interview = assembly.new_interview()
        while place := interview.next():
            start = time.perf_counter()
            interview.record(place, PLAIN_TANK.get(place.id, "not sure"))
            interview.next()
            took.append(time.perf_counter() - start)
    took.sort()
    ms = 1000 * took[int(0.99 * len(took))]
    yield "answer recorded → next question known, 99 %", "20 ms", f"{ms:.0f} ms"


def _main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--every", type=int, default=10, help="every so manieth faulty tank")
    every = parser.parse_args().every
    print("| what | reach | now |\n|---|---|---|")
    for part in (_lengths(), _times(), _fixed(every)):
        for what, reach, now in part:
            print(f"| {what} | {reach} | {now} |", flush=True)


if __name__ == "__main__":
    _main()
