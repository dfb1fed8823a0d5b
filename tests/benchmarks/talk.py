"""How long a talk is: one command prints how far it reaches what it is meant to.

    python tests/benchmarks/talk.py              # some minutes
    python tests/benchmarks/talk.py --every 5    # quicker: every fifth tank

Answers are counted one by one, also where several are typed in one line; a prompt counts once.
The times are of this machine; all else is the same everywhere.
"""

from __future__ import annotations

import argparse
import gc
import io
import shutil
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS.parent), str(TESTS), str(TESTS / "words")]  # the tests are no package

from told_score import paragraphs, score

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.chat.faces.face import Asked
from interview.chat.faces.line_face import PlainFace
from interview.chat.faces.scripted_face import ScriptedFace
from interview.chat.hearing.told.story import keep, read_story
from interview.chat.rechecks.rechecking import recheck
from interview.chat.talks.guided import Left, Talk
from interview.chat.together.counter import CounterTalk
from interview.chat.together.guided_talk import GuidedTalk
from interview.chat.together.row_talk import RowTalk
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.setups import Setup
from interview.words.text.refusal import NotUnderstood
from tests.graph.conftest import PLAIN_TANK
from tests.graph.counting_worth import tanks
from tests.graph.fixing_grades import Graded

PLANNED = {
    **PLAIN_TANK, "stage": "planning", "tank_size": "120 x 50 x 50 cm",
}  # fmt: skip
DEMOS = sorted(demo_folder().glob("*.yaml"))
CHANGES = (
    "I raised the heat lamp 5 cm", "the water is 3 cm lower", "the turtle grew 3 cm",
    "changed the UVB bulb", "nitrate 45 ppm", "the filter is a canister now",
    "we have a second turtle", "moved the uvb lamp to 25 cm", "lowered the platform 2 cm",
    "",
)  # fmt: skip
"""What keepers tell of a tank that stands; the last changed nothing."""
SHOP = ("region", "room_temperature_low", "room_temperature_high")


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
        group = talk.group(place)
        look = talk.look_at(group) if isinstance(talk, GuidedTalk) else None
        answered += 1 if look else len(group)
        if look:  # a plain tank has no fault that shows
            for item in look.items:
                if Place(item.ask) in group:
                    interview.record(Place(item.ask), item.clear)
            continue
        for one in group:
            try:
                interview.record(one, answers.get(one.id, "not sure"))
            except (NotUnderstood, AnswerRefused):
                interview.record(one, "not sure")
    return prompts, answered, about


def _fixed(every: int) -> Iterator[tuple[str, str, str]]:
    """Of all tanks, and of those on which the rounds of the questions were not put together."""
    found = [Graded(tank) for _, tank in list(tanks())[::every]]
    by_file = [tank.answers_until_fixed(tank.by_file()) for tank in found]
    asked = [tank.as_asked() for tank in found]
    as_asked = [t.answers_until_fixed(steps) for t, steps in zip(found, asked, strict=True)]
    for which, said in ((slice(None), "all"), (slice(1, None, 2), "every other")):
        of_file, of_talk = median(by_file[which]), median(as_asked[which])
        what = (
            f"answers until the whole grade is fixed, median of {said} {len(by_file[which])} tanks"
        )
        yield f"{what}, in the order of the files", "", f"{of_file:g}"
        yield f"{what}, as they are asked", f"{of_file / 2:g}", f"{of_talk:g}"
    least = median(
        t.answers(t.needed([name for step in steps for name in step.questions]))
        for t, steps in list(zip(found, asked, strict=True))[1::2]
    )
    yield f"{what}, by who knows the answers beforehand", "", f"{least:g}"


def _lengths() -> Iterator[tuple[str, str, str]]:
    prompts, answered, about = _asked(assembly.new_interview(), PLAIN_TANK)
    yield "guided, a plain tank without a paragraph: prompts", "40", str(prompts)
    yield "the same: answers", "", str(answered)
    grown = max(about) / about[0] - 1
    yield "the same: the number of questions grows by", "10 %", f"{100 * grown:.0f} %"
    several = {**PLAIN_TANK, "animal_count": "3"}
    _, _, about = _asked(assembly.new_interview(), several)
    grown = max(about) / about[0] - 1
    yield "with three turtles the number of questions grows by", "", f"{100 * grown:.0f} %"
    counted = [_after_paragraph(row["text"]) for row in paragraphs("tuning_further")]
    what = f"guided, after a told paragraph ({len(counted)}): prompts, median"
    yield what, "30", f"{median(counted):g}"
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


class _Timed(ScriptedFace):
    """Notes from each line typed to the next question shown; somebody is there."""

    live = True

    def __init__(self, setup: Setup) -> None:
        super().__init__(PlainFace(io.StringIO(), io.StringIO()), setup)
        self.took, self.worked = list[float](), list[float]()
        self._heard = 0.0, 0.0

    def hear(self, asked: Asked) -> str:
        """The question stands on the screen now."""
        if self._heard[0] and asked.place:  # an offer tells the grade so far: not a question
            self.took.append(time.perf_counter() - self._heard[0])
            self.worked.append(time.thread_time() - self._heard[1])
        line = super().hear(asked)
        self._heard = time.perf_counter(), time.thread_time()
        return line


def _times() -> Iterator[tuple[str, str, str]]:
    """All that a talk does between two questions, of the demos; what loads ahead is loaded."""
    assembly.warm()
    assembly.warm_for_audit()
    gc.freeze()  # as a talk does once it has loaded
    took, worked = list[float](), list[float]()
    for path in DEMOS:
        interview = assembly.new_interview()
        face = _Timed(setups.read(path, interview.questionnaire))
        Talk(interview, face, lambda: None).run()
        took += face.took[1:]
        worked += face.worked[1:]
    for what, found in (("", took), (", processor time", worked)):
        half, most = (1000 * sorted(found)[int(share * len(found))] for share in (0.5, 0.99))
        yield f"line typed → next question shown, half of {len(found)}{what}", "", f"{half:.0f} ms"
        yield f"the same, 99 %{what}", "20 ms", f"{most:.0f} ms"


class _Keeper(PlainFace):
    """Types what changed, then takes with Enter whatever is offered; counts the questions."""

    live = True

    def __init__(self, lines: Sequence[str]) -> None:
        super().__init__(io.StringIO(), io.StringIO())
        self.asked = 0
        self._lines = iter(lines)

    def hear(self, asked: Asked) -> str:
        self.asked += bool(asked.place)
        line = next(self._lines, "" if asked.keeps or not asked.place else "not sure")
        return line or asked.keeps


def _recheck() -> Iterator[tuple[str, str, str]]:
    asked = []
    for said in CHANGES:
        with TemporaryDirectory() as folder:
            path = Path(shutil.copy(demo_folder() / "musk_turtle.yaml", folder))
            face = _Keeper([said])
            with suppress(EOFError, Left):
                recheck(face, path)
            asked.append(face.asked)
    what = f"recheck, {len(CHANGES)} usual changes: questions asked"
    yield f"{what}, median", "5", f"{median(asked):g}"
    yield f"{what}, most ({CHANGES[asked.index(max(asked))]})", "", str(max(asked))


def _heard(halves: Sequence[str]) -> Iterator[tuple[str, str, str]]:
    for half in halves:
        found = score(half)
        said = sum(found.said.values())
        name = half.replace("_", " ")
        yield f"facts taken of told paragraphs, {name} ({said})", "85 %", f"{found.recall:.0%}"
        yield "the same: wrong", "0", str(len(found.wrong))


def _main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--every", type=int, default=1, help="every so manieth of the tanks")
    parser.add_argument("--held-out", action="store_true", help="count those nobody tunes on, too")
    given = parser.parse_args()
    writers = ("two_writers", "two_more_writers")
    told = (
        "neighbours_counted",
        "strangers_counted",
        "people_counted",
        "natural_counted",
        "short_counted",
        "trial",
        "tuning",
        "tuning_further",
        "sentences",
        *writers,
        *(["held_out"] if given.held_out else []),
    )
    print("| what | reach | now |\n|---|---|---|")
    for part in (_lengths(), _recheck(), _times(), _heard(told), _fixed(given.every)):
        for what, reach, now in part:
            print(f"| {what} | {reach} | {now} |", flush=True)


if __name__ == "__main__":
    _main()
