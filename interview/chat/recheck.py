"""The recheck: what was moved, what that should do, what it did."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from interview import assembly, setups
from interview.chat.face import Asked, Face
from interview.chat.finding import matches, name_of
from interview.chat.keeping import old_file
from interview.chat.page import page_settled
from interview.chat.past import keep_past, last_whole, show_trends, written_at
from interview.chat.replies import LEAVE, NO, word_of
from interview.chat.session import auto_title
from interview.chat.talk import Left, Talk
from interview.chat.what_if import NotAnIf, change_of
from interview.graph.interview import Place
from interview.phrases import in_words
from interview.words.format import say
from interview.words.reading import Reading
from interview.words.refusal import NotUnderstood

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.judge import Tank

__all__ = ["recheck"]

_DAY = datetime.timedelta(days=1)
_MONTH = 30 * _DAY
_SPOKEN = {
    "duration": ("duration", "day"),
    "lit_time": ("duration", "hour"),
    "length": ("length", "cm"),
}
"""How a figure is read and in which unit it is told, where the core's own is not spoken."""
_HOW = (
    "Type what you changed by its name, as “lamp to platform”, “water line” or “nitrate”, and I "
    "ask that question. “show” lists what is known, “stop” saves and leaves, Enter goes on."
)
_FIGURES = re.compile(r"\d+\.\d+")
_MOVED = re.compile(r"\b(?:mov|rais|lift|lower|higher|clos|near|f[au]rther|drop|up|down|hung|hang)")
_BEGIN = "Let us see what is different now."
_GO_ON = "Last time you left before all was measured again; I go on from there."
_READ_AFTERWARDS = ("basking_temperature", "uvb_reading")
"""What is measured after a change: a reading, never part of the change."""
_DONE = ("", *NO, "nothing", "done", "that is all")


def recheck(face: Face, path: Path) -> int:
    """Ask what changed, predict, measure what matters, compare; returns the exit code."""
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    kept, written = old_file(path), written_at(path)
    title = setup.title or auto_title(interview)
    whole = last_whole(path, interview.questionnaire) if setup.doubtful else None
    start = interview
    if whole:  # a recheck was left half-way: its changes count from the tank before it
        start = assembly.new_interview()
        setups.fill(start, whole)
    before, earlier = assembly.audit_of(start, title), start.known()
    face.say(f"{title}: {before.grades.headline} {_GO_ON if whole else _BEGIN}")

    def save() -> None:
        kept.save(setups.of_interview(interview, title))

    talk = _Recheck(interview, face, save, before=before, earlier=earlier)
    talk.let_pass(datetime.datetime.now() - written)
    try:
        talk.run()
    except Left as left:
        if interview.known() != earlier and not whole:
            keep_past(path, setup, written)
        save()
        face.say(f"Saved in {kept.path}.")
        return 130 if left.interrupted else 0
    if not whole:
        keep_past(path, setup, written)
    save()
    after = assembly.audit_of(interview, title)
    face.compare(before, after)
    show_trends(face, path, interview)
    advice = assembly.advice_of(after)
    face.audit(after, advice)
    try:
        while not page_settled(face, after, advice, kept.path.with_suffix(".md")):
            pass
    except Left:
        face.say(f"The answers are in {kept.path}.")
    return 1 if after.grades.stop else 0


@dataclass(kw_only=True)
class _Recheck(Talk):
    """A talk that asks first what changed, then only what that touches."""

    before: Audit
    earlier: dict[str, Any]
    _predicted: Tank | None = field(default=None, init=False)
    _aged: dict[str, float] = field(default_factory=dict, init=False)
    _open_before: set[Place] = field(default_factory=set, init=False)
    _others: list[Place] = field(default_factory=list, init=False)
    """What else the words of a move fit, the place itself included."""
    _moved: str = field(default="", init=False)
    """The words of a move, which may say how far."""

    def let_pass(self, time: datetime.timedelta) -> None:
        """After a month what ages is asked again: the filter, and the lamp by its lit hours."""
        if time < _MONTH:
            return
        lit = float(self.before.tank.lookup("day_length")) / _DAY.total_seconds()
        for name, share in (("filter_age", 1.0), ("uvb_lamp_age", lit)):
            if Place(name) in self.interview.answers and name in self.earlier:
                self._aged[name] = self.earlier[name] + share * time.total_seconds()
                self.interview.doubtful.add(Place(name))
        if self._aged:
            self.face.say(f"That was {time.days} days ago, so ages are asked again too.")

    def run(self) -> None:
        """Take the changes, then go through what they made doubtful."""
        first, self._open_before = True, set(self._open())
        while place := self._what_changed(first):
            self._change_told(place)
            first = False
        self._predict()
        while (place := self._next_to_ask()) is not None:
            self._visit(place)
            self._surprised(place)
            if self._jumped:
                while self._jumped:
                    self._change_told(self._jumped.pop())
                self._predict()

    def _change_told(self, place: Place) -> None:
        """Visit what was changed, and where “change” or a number leads from there."""
        self._visit(place)
        self._others = []
        while self._jumped:
            self._visit(self._jumped.pop())
        self._moved = ""

    def _what_changed(self, first: bool) -> Place | None:
        asked = Asked(
            "What did you change or measure anew?" if first else "Anything else?",
            "Name it, as “lamp to platform” or “I raised the lamp 5 cm”; Enter when that is all.",
        )
        while True:
            line = self._hear(asked)
            word = word_of(line)
            if word in _DONE and not line.startswith("?"):
                return None
            if line.startswith("?") or word == "help":
                self.face.say(_HOW, "help")
                continue
            if word in LEAVE:
                raise Left
            if word == "show":
                self.show()
            elif place := self._told(line.removeprefix("change ").strip()):
                return place

    def _told(self, line: str) -> Place | None:
        """The place meant; where several were moved alike, the first, with the others offered."""
        found = matches(self.interview, line)
        if _MOVED.search(line.casefold()):
            lengths = [p for p in found if self.interview.question(p).type == "length"]
            if lengths and lengths == found:
                self._moved, self._others = line.casefold(), found if len(found) > 1 else []
                return found[0]
        return self._find(line)

    def _take(self, place: Place, line: str) -> bool:
        """An answer, or the number or the name of the other thing that was moved."""
        other = self._other(line) if self._others else None
        if other is None:
            return super()._take(place, line)
        if other == place:
            self.face.say("Then type its distance now.")
            return False
        self._jumped.append(other)
        return True

    def _other(self, line: str) -> Place | None:
        if line.strip(" .#").isdecimal():
            number = int(line.strip(" .#"))
            return self._others[number - 1] if 1 <= number <= len(self._others) else None
        if any(letter.isdigit() for letter in line):
            return None
        meant = [place for place in matches(self.interview, line) if place in self._others]
        return meant[0] if len(meant) == 1 else None

    # ---- what the changes should have done

    def _predict(self) -> None:
        """Work out the tank as the changes should have left it."""
        from interview.advice.suppose import changed

        known = self.interview.known()
        fresh = {
            name: value
            for name, value in known.items()
            if name not in _READ_AFTERWARDS
            and value != self.earlier.get(name)
            and not isinstance(value, tuple)
        }
        self._predicted = changed(self.before.tank, {**self._aged, **fresh})

    def _open(self) -> Iterator[Place]:
        """Questions of the usual path that have no answer."""
        interview, relevant = self.interview, self.interview.relevance()
        settled = {*interview.answers, *interview.skipped}
        for place in interview.places():
            if relevant[place] and interview.asked(place) and place not in settled:
                yield place

    def _next_to_ask(self) -> Place | None:
        """What became doubtful, or came up with the changes."""
        interview, relevant = self.interview, self.interview.relevance()
        doubtful = {place for place in interview.doubtful if relevant[place]}
        ask = doubtful | (set(self._open()) - self._open_before)
        return next((place for place in interview.places() if place in ask), None)

    def _asked(self, place: Place) -> Asked:
        """A doubtful reading is asked with what is expected; Enter takes that, as an estimate."""
        asked = self._with_move(place, super()._asked(place))
        expected = self._expected(place)
        if expected is None or place not in self.interview.doubtful:
            return asked
        ask = "Enter takes that." if place.id in self._aged else "Measure it; Enter takes that."
        hint = f"I expect {expected} now. {ask} {asked.hint}"
        estimate = f"about {expected}"
        return replace(asked, hint=hint, prefill=estimate, before="", keeps=estimate)

    def _with_move(self, place: Place, asked: Asked) -> Asked:
        """How far it was said to be moved as what Enter takes; other things to be meant."""
        if self._others:
            names = [name_of(self.interview, other) for other in self._others]
            number = names.index(name_of(self.interview, place)) + 1
            hint = f"I take it you mean number {number}; the number of another one goes to that. "
            asked = replace(asked, hint=hint + asked.hint, choices=[(name, name) for name in names])
        after = self._after_move(place)
        if not after:
            return asked
        hint = f"It was {asked.before}, so it should be {after} now. Enter takes that. {asked.hint}"
        return replace(asked, hint=hint, prefill=after, before="", keeps=after)

    def _after_move(self, place: Place) -> str:
        """Where the words of a move put something: 22 cm and 5 cm up are 27 cm."""
        if not self._moved or not isinstance(self.interview.known().get(place.id), float):
            return ""
        question = self.interview.question(place)
        try:
            new, moves = change_of(self.interview, question, self._moved)
        except (NotUnderstood, NotAnIf):
            return ""
        now = self.interview.known()[place.id]
        value = new.get(place.id, now + moves.get(place.id, 0.0))
        if value <= 0 or value == now:
            return ""
        exact = float(value)
        said = say(Reading(exact, exact, exact, "", "cm"), "length", self.interview.system)
        return _FIGURES.sub(_three_digits, said)

    def _expected(self, place: Place) -> str | None:
        from interview.advice.recheck import expected_answer

        if self._predicted is None or place.animal is not None:
            return None
        value = expected_answer(self.before.tank, self._predicted, place.id)
        if value is None or value == self.earlier.get(place.id):
            return None
        question = self.interview.question(place)
        kind, unit = _SPOKEN.get(question.type, (question.type, question.unit))
        exact = float(value)
        said = say(Reading(exact, exact, exact, "", unit), kind, self.interview.system)
        return _FIGURES.sub(_three_digits, said)

    def _surprised(self, place: Place) -> None:
        """Say so when a reading does not fit the prediction."""
        from interview.advice.recheck import surprises

        answer = self.interview.answers.get(place)
        if self._predicted is None or place.animal is not None:
            return
        if place.id in self._aged or place.id == "uvb_reading":
            return
        if not answer or not isinstance(answer.value, Reading):
            return
        for surprise in surprises(self._predicted, {place.id: answer.value.best}):
            read = in_words(surprise.read, surprise.unit, self.interview.system, place.id)
            expected = in_words(surprise.predicted, surprise.unit, self.interview.system, place.id)
            self.face.say(
                f"{read} is not what I expected ({expected}). Was it measured at the same place, "
                "an hour after the lamp came on? “change” mends it."
            )


def _three_digits(number: re.Match[str]) -> str:
    """A figure that nobody would type, in three digits or whole."""
    value = float(number[0])
    return f"{round(value, max(0, 2 - math.floor(math.log10(value)))):g}" if value else "0"
