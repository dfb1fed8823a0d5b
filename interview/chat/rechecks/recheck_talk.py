"""The talk of a recheck: what changed, then only what that touches."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from interview.chat.faces.face import Asked, Left
from interview.chat.hearing.asked_instead import says_much_changed
from interview.chat.hearing.changes import Change, changes_in, left_at
from interview.chat.hearing.in_doubt import AS_NEW
from interview.chat.hearing.replies import NO, asks_back, says, word_of
from interview.chat.hearing.turtles.gone import has_died, tells_of_one_gone
from interview.chat.hearing.turtles.newcomer import another_told
from interview.chat.rechecks.joining import (
    NEWCOMERS,
    OF_NEWCOMERS,
    as_newcomer,
    count_told,
    doubts_newcomers,
    is_of_no_turtle,
    keep_joined,
    one_more,
)
from interview.chat.rechecks.offered import HOW, UNSURE, WHAT
from interview.chat.rechecks.offering import Offering
from interview.chat.rechecks.place_meant import (
    belongs_elsewhere,
    other_meant,
    place_meant,
)
from interview.chat.rechecks.prediction import AGES
from interview.chat.rechecks.turtle_gone import take_out, which_is_gone
from interview.chat.rechecks.waiting import Untaken, Waiting
from interview.chat.talks.asking import with_offer
from interview.graph.interview import Place, Recorded
from interview.words.choices.absence import is_unsure
from interview.words.intents.changes import Told
from interview.words.intents.people import heard_in
from interview.words.mentions.clauses import whole_clause

__all__ = ["RecheckTalk"]

_COUNT = "animal_count"
_MONTH = datetime.timedelta(days=30)
_DONE = ("", *NO, "nothing", "done", "that is all")


@dataclass(kw_only=True)
class RecheckTalk(Offering):
    """A talk that asks first what changed, then only what that touches.

    What is read off one thing is asked in one go, as in a whole talk; a list of faults is not.
    """

    _open_before: set[Place] = field(default_factory=set, init=False)
    _told_of: list[Place] = field(default_factory=list, init=False)
    _seen: set[Place] = field(default_factory=set, init=False)
    """What this recheck has asked, for its number of questions."""
    _has_joined: bool = field(default=False, init=False)
    """Whether this recheck counts a turtle more."""
    _joined: dict[str, str] = field(default_factory=dict, init=False)
    """What was told of a turtle that joined, until it is counted."""
    _waiting_lines: Waiting = field(init=False)
    """Lines that tell of another turtle, or a move, at another question: taken behind it."""
    _untaken: list[Untaken] = field(default_factory=list, init=False)
    """Changes told whose questions were not answered yet."""
    _way: list[Place] = field(default_factory=list, init=False)
    """What this recheck has asked, in order, for “back”."""

    def __post_init__(self) -> None:
        """With nothing that waits."""
        super().__post_init__()
        self._waiting_lines = Waiting(self.interview, self.face, self.prediction)

    def let_pass(self, time: datetime.timedelta) -> None:
        """After a month what ages is asked again: the filter, and the lamp by its lit hours."""
        if time < _MONTH:
            return
        self.prediction.let_pass(time)
        self.interview.doubtful |= {Place(name) for name in self.prediction.aged}
        if self.prediction.aged:
            self.face.say(f"That was {time.days} days ago, so ages are asked again too.")

    def run(self) -> None:
        """Take the changes, then go through what they made doubtful; what was told is kept."""
        try:
            self._go_through()
        except Left:
            if self._waiting_lines.settle(self._untaken, self._joined):
                self.save()
            raise

    def _go_through(self) -> None:
        self._open_before = set(self._open())
        self._at_once.is_known(self.prediction.before)
        while changes := self._what_changed(first=not self._way):
            self._take_changes(changes)
        while self._jumped:  # signs of illness told where nothing else changed
            self._change_told(self._jumped.pop())
        self.prediction.work_out()
        while (place := self._next_to_ask()) is not None:
            self._visit(place)
            if place not in self._told_of and place not in self.interview.doubtful:
                for sentence in self.prediction.surprises(place):
                    self.face.say(sentence)
            if self._jumped:
                while self._jumped:
                    self._change_told(self._jumped.pop())
                self.prediction.work_out()
            while line := self._waiting_lines.next():
                self._take_changes(self._told_in(line))
                self.prediction.work_out()
        old_kit = self.prediction.of_old_kit() if Place("nitrate") not in self._seen else ""
        for said in filter(None, (self.prediction.of_food(), old_kit)):
            self.face.say(said)

    def _take_changes(self, changes: list[tuple[Change, list[Place]]]) -> None:
        """Ask of each change by itself."""
        self._told_of = [change.places[0] for change, _ in changes]
        held = self.interview.answers
        self._untaken = [
            Untaken(change, len(others) > 1, held.get(change.places[0]))
            for change, others in changes
        ]
        for self._change_meant, self._others in changes:
            self._change_told(self._change_meant.places[0])

    def _visit(self, place: Place) -> None:
        if place not in self._way:
            self._way.append(place)
        super()._visit(place)

    def _back(self, place: Place, steps: int = 1) -> bool:
        """To what this recheck asked before; then this place comes again."""
        if not (number := self._way.index(place)):
            self.face.say("This is the first question of this recheck.")
            return False
        earlier = self._way[max(0, number - steps)]
        self.interview.skipped.discard(earlier)
        self._jumped += [place, earlier]
        return True

    def _change_told(self, place: Place) -> None:
        """Visit what was changed, and where “change” or a number leads from there."""
        about = {place, *self._others}
        self._offered(place)
        turtles = self.interview.animal_count
        self._visit(place)
        self._untaken = self._untaken[1:]
        if self.interview.animal_count > turtles:
            self._has_joined |= doubts_newcomers(self.interview)
        if self._joined and self.interview.animal_count > turtles:
            rows = keep_joined(self.interview, self._joined)
            self.face.listing(f"Of turtle {self.interview.animal_count} I take:", rows)
            self._joined = {}
            self.save()
        while self._jumped:
            place, self._others, self._offer = self._jumped.pop(), [], None
            if place in about:
                self._offered(place)
            self._visit(place)
        self._change_meant, self._others, self._offer = None, [], None

    def _what_changed(self, *, first: bool) -> list[tuple[Change, list[Place]]]:
        asked = Asked(
            "What did you change or measure anew?" if first else "Anything else?",
            "Name it, as “lamp to platform” or “I raised the lamp 5 cm”; Enter when that is all.",
            help=HOW,
        )
        while line := self._waiting_lines.next():
            if changes := self._told_in(line):
                return changes
        while True:
            line = self.hear(asked)
            word = word_of(line)
            if word in _DONE or self._says_no_more(line):
                return []
            if is_unsure(line):
                self.face.say(UNSURE)
                return []
            if says_much_changed(line):
                self.face.say(WHAT)
                continue
            if asks_back(line):
                self.face.say(HOW, "help")
                continue
            self.hear_of_illness(line)
            if changes := self._amount_told(line) or self._told_in(line):
                return changes

    def _amount_told(self, line: str) -> list[tuple[Change, list[Place]]]:
        """An amount alone, of what is to be asked again, else of anything it may be."""
        clause, ready = whole_clause(line), self.interview.takes
        if clause is None or not clause.amounts or len(clause.words) > 1:
            return []
        fit = [place for place in self._waiting() if ready(place, line)]
        fit = fit or [place for place in self.interview.answers if ready(place, line)]
        place = self._which(fit) if len(fit) > 1 else next(iter(fit), None)
        told = place and Told(place.id, line, clause.start, clause.stop)
        return [(Change(clause, (place,), told), [])] if place else []

    def _told_in(self, line: str) -> list[tuple[Change, list[Place]]]:
        """The changes a line tells of, each with what else its words fit, itself included."""
        told: list[tuple[Change, list[Place]]] = []
        changes = changes_in(self.interview, line.removeprefix("change ").strip())
        if tells_of_one_gone(line):
            changes = [*self._gone_told(line), *filter(is_of_no_turtle, changes)]
        elif (joined := another_told(self.interview, line)) is not None:
            self._joined = joined
            changes = [*one_more(line), *filter(is_of_no_turtle, changes)]
        heard, lost = heard_in(line), False
        of_people = self.tells_of_people(line) and not any(one.place for one in changes)
        if of_people:
            self.notes_people(line)
        for change in changes:
            if of_people or (not change.places and (heard.ill or heard.electric or lost)):
                continue  # it was answered, or said once that it is not understood
            place, others = place_meant(self, change)
            lost = lost or place is None
            is_new = len(change.places) > 1 and change.told is None and "new" in change.clause.words
            if is_new and place and place.id in AGES:  # the lamp is new, and it is the UVB lamp
                change = replace(change, told=Told(place.id, AS_NEW[-1], 0, 0))
            if place is not None:
                told.append((replace(change, places=(place,)), others))
        return told

    def _says_no_more(self, line: str) -> bool:
        """Whether nothing else changed, whatever is said of it: nothing really, just looking."""
        first, comma, _ = line.partition(",")
        if says(line, "no_more") or says(line, "thanks"):
            return True
        ended = comma and (word_of(first) in _DONE or says(first, "no_more"))
        if not ended or heard_in(line).ill or tells_of_one_gone(line):
            return False
        return not any(one.places for one in changes_in(self.interview, line))

    def _gone_told(self, line: str) -> Iterator[Change]:
        """Count a turtle less that is there no more; where it was alone, ask of the stage."""
        sorry = "I'm sorry." if has_died(line) else ""
        if self.interview.animal_count > 1:
            if sorry:
                self.face.say(sorry)
            gone = which_is_gone(self, line)
            if gone is None:
                self.face.say("Then all of them stay.")
                return
            doubtful = take_out(self.interview, gone)
            self.face.say(f"Then I count {self.interview.animal_count} now.")
            if doubtful:
                self._say_doubtful(doubtful)
            self.save()
        elif clause := whole_clause(line):
            self.face.say(f"{sorry} Then how far along the tank is now:".lstrip())
            yield Change(clause, (Place("stage"),))

    def _take(self, place: Place, line: str) -> bool:
        """An answer, or the number or the name of the other thing that was moved.

        What is told of another turtle or another move is no answer: it is taken up behind it.
        """
        if place.id == _COUNT:
            line, joins = count_told(self.interview, line, more=self._is_more_told(place))
            self._joined |= joins
        elif belongs_elsewhere(self.interview, place, line):
            self._waiting_lines.add(line)
            return False
        held = self.interview.answers.get(place)
        line = self._moved_here(place, line) or line
        if is_unsure(line):
            line = self._told_here(place) or self._reckoned(place) or line
        if held and says(line, "as_before"):
            line = held.said
        other = other_meant(self.interview, self._others, line) if self._others else None
        if other is None:
            return super()._take(place, line)
        if other == place:
            self.face.say("Then type its distance now.")
            return False
        self._jumped.append(other)
        return True

    def _moved_here(self, place: Place, line: str) -> str:
        """Where what is told as a move at its own question leaves it: poured in 5 cm of water."""
        for change in changes_in(self.interview, line):
            if change.told and change.told.way and change.place == place:
                left = left_at(self.interview, change, self.prediction.now(place))
                if left.by and not left.at:
                    self.face.say(f"Then that makes {left.by}.")
                    return left.by
        return ""

    def _reckoned(self, place: Place) -> str:
        """What moved along, for whoever can't tell it anew: better than what is usual anywhere."""
        expected = self.prediction.expected(place) if place in self.interview.doubtful else None
        if expected is None or not self.interview.question(place).unsure.assume:
            return ""
        self.face.say(f"Then I take what it should be now: about {expected}.")
        return f"about {expected}"

    def _heard_story(self, line: str, asked: Place | None, *, single: bool = False) -> bool:
        """A story; the change it was typed at is asked about again, unless it tells that."""
        held = self.interview.answers.get(asked) if asked else None
        heard = super()._heard_story(line, asked, single=single)
        if heard and asked and self._change_meant and self.interview.answers.get(asked) is held:
            self._lead_to(asked)
        return heard

    def _is_more_told(self, place: Place) -> bool:
        """Whether it is asked how many there are because there is one more."""
        told = self._change_meant.told if self._change_meant else None
        return told is not None and told.id == place.id and told.way > 0

    def _look(self, first: Place) -> list[Place]:
        """No list: of what a change touches each is asked by itself."""
        return []

    def _together(self, first: Place) -> list[Place]:
        """What came up together; what was left open before stays open."""
        return [p for p in super()._together(first) if p == first or p not in self._open_before]

    def _open(self) -> Iterator[Place]:
        """Questions of the usual path that have no answer."""
        interview, relevant = self.interview, self.interview.relevance()
        settled = {*interview.answers, *interview.skipped}
        for place in interview.places():
            if relevant[place] and interview.asked(place) and place not in settled:
                yield place

    def _next_to_ask(self) -> Place | None:
        """What became doubtful, or came up with the changes unless the keeper has enough."""
        ask = self._waiting() & self.interview.doubtful if self.enough else self._waiting()
        place = next((place for place in self.interview.places() if place in ask), None)
        return place or self._come_back()

    def _waiting(self) -> set[Place]:
        """What became doubtful and matters, and what came up with the changes."""
        relevant = self.interview.relevance()
        doubtful = {place for place in self.interview.doubtful if relevant.get(place)}
        return doubtful | (set(self._open()) - self._open_before)

    def _record(self, place: Place, said: str) -> Recorded:
        """Record an answer; what it moves is expected of the whole tank."""
        return self.interview.record(place, said)

    def _asked(self, place: Place) -> Asked:
        """A doubtful reading is asked with what is expected; Enter takes that, as an estimate."""
        asked = self._counted([place], self._with_move(place, super()._asked(place)))
        if place == NEWCOMERS and self._has_joined:
            return with_offer(asked, as_newcomer(self.interview), OF_NEWCOMERS)
        expected = self.prediction.expected(place)
        if expected is None or place not in self.interview.doubtful:
            return asked
        measure = "" if place.id in AGES else "Measure it; "
        return with_offer(asked, f"about {expected}", f"I expect {expected} now. {measure}")

    def _asked_of(self, group: list[Place]) -> Asked:
        """Of what is asked in one go the number counts once."""
        return self._counted(group, super()._asked_of(group))

    def _counted(self, group: list[Place], asked: Asked) -> Asked:
        """The number among what this recheck asks, and about how many that will be."""
        self._seen |= {*group}
        counted_as, touched = self.interview.counted_as, self.interview.touched_by(group[0])
        seen = set(map(counted_as, self._seen))
        coming = set(map(counted_as, self._waiting().union(self._told_of, touched))) - seen
        return replace(asked, number=len(seen), about=len(seen) + len(coming))
