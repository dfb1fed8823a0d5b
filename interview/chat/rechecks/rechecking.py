"""The recheck: what was moved, what that should do, what it did."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias

from interview import assembly, setups
from interview.base.phrases import in_words
from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.changes import Told, another_animal, clauses_of, spoken, told_at
from interview.chat.hearing.clauses import FALLING
from interview.chat.hearing.references import matches, name_of, thing_of
from interview.chat.history import keep_past, last_whole, show_trends, written_at
from interview.chat.saving_page import page_settled
from interview.chat.session import auto_title
from interview.chat.talks.guided import Left, Talk
from interview.chat.talks.replies import LEAVE, NO, word_of
from interview.graph.interview import Interview, Place
from interview.setups.kept import old_file
from interview.words.amounts.reading import Reading

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.tank import Tank

__all__ = ["recheck"]

_DAY = datetime.timedelta(days=1)
_MONTH = 30 * _DAY
_HOW = (
    "Type what you changed by its name, as “lamp to platform”, “water line” or “nitrate”, and I "
    "ask that question. “show” lists what is known, “stop” saves and leaves, Enter goes on."
)
_MOVED = re.compile(r"\b(?:mov|rais|lift|lower|higher|clos|near|f[au]rther|drop|up|down|hung|hang)")
_BEGIN = "Let us see what is different now."
_GO_ON = "Last time you left before all was measured again; I go on from there."
_READ_AFTERWARDS = ("basking_temperature", "uvb_reading")
"""What is measured after a change: a reading, never part of the change."""
_Change: TypeAlias = tuple[Place, str, list[Place]]
"""What was changed, what was told of it, and what else that fits."""
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
    _clause: str = field(default="", init=False)
    """What was told of the change that is asked about, which may say how much."""
    _told_of: list[Place] = field(default_factory=list, init=False)
    _seen: set[Place] = field(default_factory=set, init=False)
    """What this recheck has asked, for its number of questions."""
    _offer: tuple[Place, str, str] | None = field(default=None, init=False)
    """Where, and what Enter takes there; and why."""

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
        while changes := self._what_changed(first):
            self._told_of = [changed for changed, _, _ in changes]
            for changed, clause, others in changes:
                self._clause, self._others = clause, others
                self._change_told(changed)
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
        about = {place, *self._others}
        self._offered(place)
        self._visit(place)
        while self._jumped:
            place, self._others, self._offer = self._jumped.pop(), [], None
            if place in about:
                self._offered(place)
            self._visit(place)
        self._clause, self._others, self._offer = "", [], None

    def _what_changed(self, first: bool) -> list[_Change]:
        asked = Asked(
            "What did you change or measure anew?" if first else "Anything else?",
            "Name it, as “lamp to platform” or “I raised the lamp 5 cm”; Enter when that is all.",
        )
        while True:
            line = self._hear(asked)
            word = word_of(line)
            if word in _DONE and not line.startswith("?"):
                return []
            if line.startswith("?") or word == "help":
                self.face.say(_HOW, "help")
                continue
            if word in LEAVE:
                raise Left
            if word == "show":
                self.show()
            elif changes := self._told(line.removeprefix("change ").strip()):
                return changes

    def _told(self, line: str) -> list[_Change]:
        """What a line tells of, the water first: it carries others along."""
        clauses = clauses_of(line)
        if len(clauses) > 1 and not re.search(r"\d", line):
            whole = all(matches(self.interview, clause) for clause in clauses)
            clauses = clauses if whole else [line]
        if len(clauses) < 2:
            clauses = [clauses[0] if clauses and re.search(r"\d", line) else line]
        changes: list[_Change] = []
        for clause in clauses:
            place, others = self._place_meant(clause)
            if place is not None:
                changes.append((place, clause.casefold(), others))
        return sorted(changes, key=lambda change: change[0].id not in FALLING)

    def _place_meant(self, clause: str) -> tuple[Place | None, list[Place]]:
        """The place meant; where several were moved alike, the first, with all of them."""
        if another_animal(self.interview, clause.casefold()):
            counter = next(q.id for q in self.interview.questionnaire if q.count_of)
            return Place(counter), []
        found = matches(self.interview, clause)
        if _MOVED.search(clause.casefold()):
            lengths = [p for p in found if _is_length(self.interview, p)]
            if lengths and lengths == found:
                return found[0], found if len(found) > 1 else []
        fit = [p for p in found if told_at(self.interview, p, clause.casefold(), None).at]
        if 1 < len(fit) < len(found) and all(_is_length(self.interview, p) for p in fit):
            return fit[0], fit
        return (fit[0] if len(fit) == 1 < len(found) else self._find(clause)), []

    def _offered(self, place: Place) -> None:
        """Settle what Enter takes at a place, by what was told of it; ask where it is open."""
        from interview.core.coupling import coupled

        self._offer = None
        if count := self.interview.question(place).count_of and another_animal(
            self.interview, self._clause
        ):
            self._offer = place, str(count), f"With another one that makes {count}."
            return
        interview = self.interview
        now = coupled(self.earlier, self._fresh()).get(place.id, interview.known().get(place.id))
        now = now if isinstance(now, float) else None
        told = told_at(interview, place, self._clause, now)
        if told.is_open and now is not None:
            told = self._at_or_by(place, told)
        before = "" if now is None else spoken(interview, place, now)
        if told.at:
            self._offer = place, told.at, f"I take it that this is {told.at} now."
        elif told.by:
            self._offer = place, told.by, f"It was {before}, so it should be {told.by} now."
        elif told.amount and not told.is_open:
            self.face.say(f"I can't tell what “{told.amount}” makes of it, so I ask.")
        elif not told.amount and now is not None and re.search(r"\d", self._clause):
            self.face.say(
                f"I could not use the number in “{self._clause}”: its unit may be missing."
            )

    def _at_or_by(self, place: Place, told: Told) -> Told:
        """Which of two readings of a move is meant; neither where only Enter is pressed."""
        thing = thing_of(self.interview, place)
        at, by = f"at {told.amount}", f"by {told.amount}, which makes {told.by}"
        asked = Asked(
            f"{thing[:1].upper()}{thing[1:]}: at {told.amount}, or by {told.amount}?",
            "Type 1 or 2; Enter for neither, then I ask for it.",
            choices=[("at", at), ("by", by)],
            completions=("at", "by"),
        )
        while True:
            word = word_of(self._hear(asked)).strip(" .#")
            if word in LEAVE:
                raise Left
            if word in ("1", "at", at):
                return replace(told, by="")
            if word in ("2", "by", by, f"by {told.amount}"):
                return replace(told, at="")
            if word in ("", *NO, "neither"):
                return Told()
            self.face.say("Type 1 for where it is now, or 2 for how far it was moved.", "refusal")

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
        from interview.advice.what_if.suppose import changed

        self._predicted = changed(self.before.tank, {**self._aged, **self._fresh()})

    def _fresh(self) -> dict[str, Any]:
        """What is known now and was not so before, readings aside."""
        return {
            name: value
            for name, value in self.interview.known().items()
            if name not in _READ_AFTERWARDS
            and value != self.earlier.get(name)
            and not isinstance(value, tuple)
        }

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
        asked = self._counted(place, self._with_move(place, super()._asked(place)))
        expected = self._expected(place)
        if expected is None or place not in self.interview.doubtful:
            return asked
        ask = "Enter takes that." if place.id in self._aged else "Measure it; Enter takes that."
        hint = f"I expect {expected} now. {ask} {asked.hint}"
        estimate = f"about {expected}"
        return replace(asked, hint=hint, prefill=estimate, before="", keeps=estimate)

    def _counted(self, place: Place, asked: Asked) -> Asked:
        """The number among what this recheck asks, and about how many that will be."""
        self._seen.add(place)
        interview, relevant = self.interview, self.interview.relevance()
        waiting = {p for p in interview.doubtful if relevant.get(p)}
        waiting |= set(self._open()) - self._open_before
        waiting |= set(self._told_of) | set(interview.touched_by(place))
        number = len(self._seen)
        return replace(asked, number=number, about=number + len(waiting - self._seen))

    def _with_move(self, place: Place, asked: Asked) -> Asked:
        """What was told of it as what Enter takes; other things to be meant."""
        if self._others:
            interview = self.interview
            names = [name_of(interview, other) for other in self._others]
            hint = f"I take this for {thing_of(interview, place)}; "
            ways = [
                f"for {thing_of(interview, other)} type {number}"
                for number, other in enumerate(self._others, start=1)
                if other != place
            ]
            hint += f"{', '.join(ways)}. "
            asked = replace(asked, hint=hint + asked.hint, choices=[(name, name) for name in names])
        if self._offer is None or self._offer[0] != place:
            return asked
        _, answer, why = self._offer
        hint = f"{why} Enter takes that. {asked.hint}"
        return replace(asked, hint=hint, prefill=answer, before="", keeps=answer)

    def _expected(self, place: Place) -> str | None:
        from interview.advice.what_if.comparison import expected_answer

        if self._predicted is None or place.animal is not None:
            return None
        value = expected_answer(self.before.tank, self._predicted, place.id)
        if value is None or value == self.earlier.get(place.id):
            return None
        return spoken(self.interview, place, value)

    def _surprised(self, place: Place) -> None:
        """Say so when a reading does not fit the prediction."""
        from interview.advice.what_if.comparison import surprises

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


def _is_length(interview: Interview, place: Place) -> bool:
    return interview.question(place).type == "length"
