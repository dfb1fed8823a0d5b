"""The talk of a recheck: what changed, then only what that touches."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from interview.chat.faces.face import Asked
from interview.chat.hearing.asked_instead import says_much_changed, says_no_more, thanks
from interview.chat.hearing.changes import Change, changes_in, left_at, spoken
from interview.chat.hearing.in_doubt import AS_NEW
from interview.chat.hearing.references import name_of, thing_of
from interview.chat.hearing.replies import NO, asks_back, word_of
from interview.chat.rechecks.another_turtle import (
    NEWCOMERS,
    OF_NEWCOMERS,
    another_told,
    as_newcomer,
    doubts_newcomers,
    is_of_newcomer,
    is_of_no_turtle,
    keep_joined,
    one_more,
)
from interview.chat.rechecks.at_or_by import at_or_by
from interview.chat.rechecks.each_turtle import of_each_turtle
from interview.chat.rechecks.offered import HOW, UNSURE, WHAT, with_offer
from interview.chat.rechecks.place_meant import other_meant, place_meant
from interview.chat.rechecks.prediction import AGES, Prediction
from interview.chat.rechecks.turtle_gone import (
    has_died,
    take_out,
    tells_of_one_gone,
    which_is_gone,
)
from interview.chat.together.guided_talk import GuidedTalk
from interview.graph.interview import Place, Recorded
from interview.words.choices.absence import is_unsure
from interview.words.intents.people import heard_in
from interview.words.lexicon.rules import is_said
from interview.words.mentions.clauses import whole_clause
from interview.words.text.tokens import plain_words

__all__ = ["RecheckTalk"]

_COUNT = "animal_count"
_COMES_THEN = "I keep that, and take it up once this is answered."
_MONTH = datetime.timedelta(days=30)
_DONE = ("", *NO, "nothing", "done", "that is all")


@dataclass(kw_only=True)
class RecheckTalk(GuidedTalk):
    """A talk that asks first what changed, then only what that touches.

    What is read off one thing is asked in one go, as in a whole talk; a list of faults is not.
    """

    prediction: Prediction
    _open_before: set[Place] = field(default_factory=set, init=False)
    _others: list[Place] = field(default_factory=list, init=False)
    """What else the words of a move fit, the place itself included."""
    _change_meant: Change | None = field(default=None, init=False)
    """The change that is asked about, which may say how much."""
    _told_of: list[Place] = field(default_factory=list, init=False)
    _seen: set[Place] = field(default_factory=set, init=False)
    """What this recheck has asked, for its number of questions."""
    _offer: tuple[Place, str, str] | None = field(default=None, init=False)
    """Where, and what Enter takes there; and why."""
    _told_new: set[Place] = field(default_factory=set, init=False)
    """Ages of what was told to be new."""
    _has_joined: bool = field(default=False, init=False)
    """Whether this recheck counts a turtle more."""
    _joined: dict[str, str] = field(default_factory=dict, init=False)
    """What was told of a turtle that joined, until it is counted."""
    _comes_then: list[str] = field(default_factory=list, init=False)
    """Lines that tell of another turtle, or a move, at another question: taken behind it."""
    _at: Place | None = field(default=None, init=False)
    """The question that is answered."""
    _way: list[Place] = field(default_factory=list, init=False)
    """What this recheck has asked, in order, for “back”."""

    def let_pass(self, time: datetime.timedelta) -> None:
        """After a month what ages is asked again: the filter, and the lamp by its lit hours."""
        if time < _MONTH:
            return
        self.prediction.let_pass(time)
        self.interview.doubtful |= {Place(name) for name in self.prediction.aged}
        if self.prediction.aged:
            self.face.say(f"That was {time.days} days ago, so ages are asked again too.")

    def run(self) -> None:
        """Take the changes, then go through what they made doubtful."""
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
            while self._comes_then:
                self._take_changes(self._told_in(self._comes_then.pop(0)))
                self.prediction.work_out()
        old_kit = self.prediction.of_old_kit() if Place("nitrate") not in self._seen else ""
        for said in filter(None, (self.prediction.of_food(), old_kit)):
            self.face.say(said)

    def _take_changes(self, changes: list[tuple[Change, list[Place]]]) -> None:
        """Ask of each change by itself."""
        self._told_of = [change.places[0] for change, _ in changes]
        for self._change_meant, self._others in changes:
            self._change_told(self._change_meant.places[0])

    def unheard(self) -> list[str]:
        """What waits for its turn, another turtle or a move told at a question too."""
        return [*super().unheard(), *self._comes_then]

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
        while self._comes_then:
            if changes := self._told_in(self._comes_then.pop(0)):
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
            if changes := self._told_in(line):
                return changes

    def _told_in(self, line: str) -> list[tuple[Change, list[Place]]]:
        """The changes a line tells of, each with what else its words fit, itself included."""
        told: list[tuple[Change, list[Place]]] = []
        changes = changes_in(self.interview, line.removeprefix("change ").strip())
        if (joined := another_told(self.interview, line)) is not None:
            self._joined = joined
            changes = [*one_more(line), *filter(is_of_no_turtle, changes)]
        elif tells_of_one_gone(line):
            changes = list(self._gone_told(line))
        heard, lost = heard_in(line), False
        if each := list(of_each_turtle(self.interview, line)):
            told += ((change, []) for change in each)
            changes = [one for one in changes if is_of_no_turtle(one)]
        for change in changes:
            if not change.places and (heard.ill or heard.electric or lost):
                continue  # it was answered, or said once that it is not understood
            place, others = place_meant(self, change)
            lost = lost or place is None
            if place is not None:
                told.append((replace(change, places=(place,)), others))
        return told

    def _says_no_more(self, line: str) -> bool:
        """Whether nothing else changed, whatever is said of it: nothing really, just looking."""
        first, comma, _ = line.partition(",")
        if says_no_more(line) or thanks(line):
            return True
        ended = comma and (word_of(first) in _DONE or says_no_more(first))
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

    def _offered(self, place: Place) -> None:
        """Settle what Enter takes at a place, by what was told of it; ask where it is open."""
        self._offer, interview, change = None, self.interview, self._change_meant
        if change is None:
            return
        now = self.prediction.now(place)
        if change.told is None:
            if change.clause.amounts and now is not None:
                why = ": its unit may be missing." if change.has_bare_number else ", so I ask."
                self.face.say(f"I could not use the number in “{change.clause.text}”{why}")
            return
        change = replace(change, places=(place,))
        told = left_at(interview, change, now)
        if told.is_open and now is not None:
            told = at_or_by(self, place, told)
        if told.at:
            self._offer = place, told.at, f"I take it that this is {told.at} now."
            if place.id in AGES and told.at in AS_NEW:
                self._told_new.add(place)
        elif told.by and now is not None:
            why = f"It was {spoken(interview, place, now)}, so it should be {told.by} now."
            if interview.question(place).count_of:
                why = f"With another one that makes {told.by}."
            self._offer = place, told.by, why
        elif told.amount and not told.is_open:
            self.face.say(f"I can't tell what “{told.amount}” makes of it, so I ask.")

    def _leave_open(self, place: Place) -> None:
        """Skip a question, and say what counts now where it had an answer."""
        held = self.interview.answers.get(place)
        super()._leave_open(place)
        if held and place in self.interview.answers:
            self.face.say(f"Then it stays as it was told: {held.said}.")
        elif held:
            self.face.say(f"Then “{held.said}” no longer counts, and it is left open.")

    def _answer_back(self, place: Place, recorded: Recorded) -> None:
        """An age told as new stays so, whatever else is told of the new lamp."""
        known = self.interview.known()
        new = {one for one in self._told_new if known.get(one.id) == 0}
        self.interview.doubtful -= new
        doubtful = tuple(one for one in recorded.doubtful if one not in new)
        super()._answer_back(place, replace(recorded, doubtful=doubtful))

    def _take(self, place: Place, line: str) -> bool:
        """An answer, or the number or the name of the other thing that was moved.

        What is told of another turtle is no answer: the turtle is counted behind the question.
        """
        self._at, joins = place, another_told(self.interview, line)
        if joins is not None and place.id == _COUNT:
            self._joined |= joins
            line = str(self.interview.animal_count + 1)
        elif joins is not None and not is_of_newcomer(self.interview, place, line):
            self._comes_then.append(line)
            self.face.say(_COMES_THEN)
            return False
        held = self.interview.answers.get(place)
        if is_unsure(line) and self._offer and self._offer[0] == place and place in self._told_new:
            line = self._offer[1]
            self.face.say(f"Then it stays as you told it: {line}.")
        if held and is_said(plain_words(line), "asked_instead", "as_before"):
            line = held.said
        other = other_meant(self.interview, self._others, line) if self._others else None
        if other is None:
            return super()._take(place, line)
        if other == place:
            self.face.say("Then type its distance now.")
            return False
        self._jumped.append(other)
        return True

    def _heard_story(self, line: str, asked: Place | None, *, single: bool = False) -> bool:
        """A story; the change it was typed at is asked about again, unless it tells that."""
        held = self.interview.answers.get(asked) if asked else None
        heard = super()._heard_story(line, asked, single=single)
        if heard and asked and self._change_meant and self.interview.answers.get(asked) is held:
            self._lead_to(asked)
        return heard

    def _heard_correction(self, line: str) -> bool:
        """Mend an answer; what was moved, other than what is asked of, is taken up later."""
        if super()._heard_correction(line):
            return True
        moved = [one.place for one in changes_in(self.interview, line) if one.told and one.told.way]
        if not moved or None in moved or self._at in moved:
            return False
        self._comes_then.append(line)
        self.face.say(_COMES_THEN)
        return True

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
        return with_offer(asked, self._offer[1], f"{self._offer[2]} ")
