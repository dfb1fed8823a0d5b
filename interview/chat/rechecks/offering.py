"""What was told of a change stands at its question, for Enter to take."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from interview.chat.faces.face import Asked
from interview.chat.hearing.changes import Change, LeftAt, left_at, spoken
from interview.chat.hearing.choosing import Choosing
from interview.chat.hearing.in_doubt import AS_NEW
from interview.chat.hearing.references import name_of, thing_of
from interview.chat.hearing.replies import NO, word_of
from interview.chat.rechecks.prediction import AGES, Prediction
from interview.chat.talks.asking import with_offer
from interview.chat.together.guided_talk import GuidedTalk
from interview.graph.interview import Place, Recorded

__all__ = ["Offering"]


@dataclass(kw_only=True)
class Offering(GuidedTalk):
    """A recheck, as far as it knows what a change leaves at a question."""

    prediction: Prediction
    _others: list[Place] = field(default_factory=list, init=False)
    """What else the words of a move fit, the place itself included."""
    _change_meant: Change | None = field(default=None, init=False)
    """The change that is asked about, which may say how much."""
    _offer: tuple[Place, str, str] | None = field(default=None, init=False)
    """Where, and what Enter takes there; and why."""
    _told_new: set[Place] = field(default_factory=set, init=False)
    """Ages of what was told to be new."""

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
            told = _at_or_by(self, place, told)
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

    def _skip(self, place: Place) -> bool:
        """What the change itself told stays; else say what counts now where there was an answer."""
        if told := self._told_here(place):
            return self._take(place, told)
        return super()._skip(place)

    def _told_here(self, place: Place) -> str:
        """What a change told of a place, for whoever doesn't know better; said back."""
        if not self._offer or self._offer[0] != place:
            return ""
        self.face.say(f"Then it stays as you told it: {self._offer[1]}.")
        return self._offer[1]

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


def _at_or_by(talk: Choosing, place: Place, told: LeftAt) -> LeftAt:
    """Which of two readings of a move is meant; neither where only Enter is pressed."""
    thing = thing_of(talk.interview, place)
    at, by = f"at {told.amount}", f"by {told.amount}, which makes {told.by}"
    asked = Asked(
        f"{thing[:1].upper()}{thing[1:]}: at {told.amount}, or by {told.amount}?",
        "Type 1 or 2; Enter for neither, then I ask for it.",
        choices=[("at", at), ("by", by)],
        completions=("at", "by"),
    )
    while True:
        word = word_of(talk.hear(asked)).strip(" .#")
        if word in ("1", "at", at):
            return replace(told, by="")
        if word in ("2", "by", by, f"by {told.amount}"):
            return replace(told, at="")
        if word in ("", *NO, "neither"):
            return LeftAt()
        talk.face.say("Type 1 for where it is now, or 2 for how far it was moved.", "refusal")
