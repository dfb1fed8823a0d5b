"""A face without a screen: types a list of lines and remembers everything it was shown."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from functools import cache
from typing import Any

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.chat.faces.face import Asked, Interrupted, Tone
from interview.chat.talks.guided import Left, Manner, Talk
from interview.graph.interview import Interview

CTRL_C = "<Ctrl-C>"
END = "<end of input>"


class FakeFace:
    """Types `lines` one after another; after the last the input ends."""

    live = False

    def __init__(self, lines: Iterable[str]) -> None:
        self.lines = list(lines)
        self.asked: list[Asked] = []
        self.said: list[tuple[str, str]] = []
        self.listings: list[tuple[str, list[tuple[str, str]]]] = []
        self.topics: list[str] = []
        self.repeated: list[str] = []
        self.compared: list[tuple[Any, Any]] = []
        self.worked_out: list[str] = []

    def topic(self, name: str, about: str) -> None:
        self.topics.append(name)

    def show(self, asked: Asked) -> None:
        self.asked.append(asked)

    def hear(self, asked: Asked) -> str:
        line = self.lines.pop(0) if self.lines else END
        if line == CTRL_C:
            raise Interrupted
        if line == END:
            raise EOFError
        return line or asked.keeps

    def heard(self, line: str) -> None:
        self.repeated.append(line)

    def say(self, text: str, tone: Tone = "note") -> None:
        self.said.append((tone, text))

    def listing(self, title: str, rows: Iterable[tuple[str, str]]) -> None:
        self.listings.append((title, list(rows)))

    def blocks(self, blocks: Any) -> None:
        raise AssertionError("the talk itself shows no page")

    def working(self, text: str) -> AbstractContextManager[None]:
        self.worked_out.append(text)
        return nullcontext()

    def compare(self, before: Any, after: Any) -> None:
        self.compared.append((before, after))

    @property
    def ids(self) -> list[str]:
        """The questions shown, in order; "review" for the one at the end."""
        return [a.place.id if a.place else "review" for a in self.asked]

    def tones(self, tone: str) -> list[str]:
        """Everything said in a tone."""
        return [text for said, text in self.said if said == tone]

    @property
    def everything(self) -> str:
        """All text that reached the screen."""
        shown = [f"{a.animal}{a.label} {a.hint} {a.prefill} {a.choices}" for a in self.asked]
        rows = [f"{label}: {value}" for _, found in self.listings for label, value in found]
        return "\n".join([*shown, *(text for _, text in self.said), *rows])


class Held:
    """What a conversation left behind."""

    def __init__(self, face: FakeFace, interview: Interview, saves: list[dict[str, str]]) -> None:
        self.face, self.interview, self.saves = face, interview, saves
        self.left: Left | None = None

    def said(self, name: str, animal: int | None = None) -> str:
        """The words kept at a question."""
        from interview.graph.interview import Place

        return self.interview.answers[Place(name, animal)].said


def talk(
    lines: Sequence[str],
    interview: Interview | None = None,
    manner: Manner = "guided",
    prepare: Callable[[Interview], None] | None = None,
    *,
    live: bool = False,
) -> Held:
    """Hold a conversation of typed lines; it may end in the audit or in leaving."""
    interview = interview or assembly.new_interview()
    if prepare:
        prepare(interview)
    face, saves = FakeFace(lines), []
    face.live = live

    def save() -> None:
        saves.append({p.id: a.said for p, a in interview.answers.items()})

    held = Held(face, interview, saves)
    try:
        Talk(interview, face, save, manner).run()
    except Left as left:
        held.left = left
    return held


def demo(name: str) -> Interview:
    """A demo setup as an interview."""
    return _copy(_demo(name))


def up_to(name: str, changed: Mapping[str, str] | None = None) -> Interview:
    """The musk turtle's interview with everything answered before a question."""
    return _copy(_up_to(name, tuple((changed or {}).items())))


def _copy(made: Interview) -> Interview:
    copy = assembly.new_interview()
    copy.answers = dict(made.answers)
    return copy


@cache
def _demo(name: str) -> Interview:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(demo_folder() / f"{name}.yaml", interview.questionnaire))
    return interview


@cache
def _up_to(name: str, changed: tuple[tuple[str, str], ...]) -> Interview:
    source, interview = _demo("musk_turtle"), assembly.new_interview()
    said = {place: answer.said for place, answer in source.answers.items()}
    while (place := interview.next()) is not None and place.id != name:
        interview.record(place, dict(changed).get(place.id, said.get(place, "not sure")))
    assert place is not None, f"{name} is never asked"
    return interview
