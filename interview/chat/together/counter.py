"""The counter manner: short wording, several answers in a row, for a customer at the till.

What of a row is not understood or left empty comes again, with what else is still open, as
another row; a second time it comes alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from interview.chat.faces.face import Asked
from interview.chat.hearing.replies import agreed_in
from interview.chat.talks.asides import aside_in
from interview.chat.talks.listening import listen
from interview.chat.together.row_talk import RowTalk
from interview.chat.together.shop_told import as_ours, customers_name, owner_first
from interview.graph.interview import Place

__all__ = ["CounterTalk"]

_TOGETHER = 5
_SHORT = 3
"""A row no longer than this goes on into the next topic, so that nothing is asked alone."""

_NAMED = 4
"""Faults that are named where a tank is left without its audit."""


@dataclass
class CounterTalk(RowTalk):
    """Asks what belongs together in one go, the gravest first."""

    misses = 2
    call_it: Callable[[str], None] = field(default=lambda name: None)
    """Gives the tank its name in the list."""
    is_named: bool = False
    """Whether it has one that somebody gave it."""

    def __post_init__(self) -> None:
        """Look at the gravest first, in fewer questions than at home."""
        super().__post_init__()
        self.interview.at_counter = True

    def hear(self, asked: Asked) -> str:
        """The line at a prompt; what a customer has is told as the tank's own."""
        while name := customers_name(line := super().hear(asked)):
            if not self._is_of_the_list(name, asked, line):
                return line
            self._goes_by(name)
        name, line = owner_first(line)
        if name and not self.is_named:
            self._goes_by(name)
        return as_ours(line)

    def _goes_by(self, name: str) -> None:
        """Give the tank a customer's name in the list."""
        self.is_named = True
        self.call_it(name)
        self.face.say(f"In the list this tank goes by “{name}”.")

    def aside(self, line: str, asked: Asked) -> bool:
        """What can be typed anywhere; “next” says first what an unaudited tank is like."""
        if aside_in(self.interview, asked, line) != "new" or not self.face.live:
            return super().aside(line, asked)
        if self.interview.answers == self.audited:
            return super().aside(line, asked)
        bad, is_danger = self._found_bad()
        if bad:
            self.face.say(f"This tank had no audit yet. So far: {bad}")
        if not is_danger:
            return super().aside(line, asked)
        label = "Go on with the next customer all the same?"
        hint = "Enter or “yes” goes on; “no” audits what is known first."
        while (goes_on := self._leaves(Asked(label, hint))) is None:
            self.face.say(hint)
        if goes_on:
            return super().aside(line, asked)
        self.hear_later("done")
        return True

    def _leaves(self, asked: Asked) -> bool | None:
        """Whether the tank is left all the same: by yes or no, or by “next” again."""
        line = listen(self.face, asked)
        return True if aside_in(self.interview, asked, line) == "new" else agreed_in(line)[0]

    def _found_bad(self) -> tuple[str, bool]:
        """What is dangerous or wrong of what is known, "" for nothing; whether it is a danger."""
        from interview.audit.gravity import gravity
        from interview.report.naming import fault_of

        judged = self.ahead.judged(self.interview).findings
        bad = [one for one in sorted(judged, key=gravity) if one.verdict in ("danger", "wrong")]
        names = ", ".join(fault_of(one) for one in bad[:_NAMED])
        more = f" and {len(bad) - _NAMED} more" if len(bad) > _NAMED else ""
        return f"{names}{more}." if bad else "", any(one.verdict == "danger" for one in bad)

    def _is_of_the_list(self, name: str, asked: Asked, line: str) -> bool:
        """Whether a name is the customer's: a turtle may have one too, and be asked about."""
        answers = asked.place is not None and self.interview.takes(asked.place, line)
        if not (self.is_named or answers):
            return True
        label = f"Shall this tank go by “{name}” in the list?"
        return self._agrees(Asked(label, "Enter or “yes” names it so; “no” doesn't."))

    def _take(self, place: Place, line: str) -> bool:
        """A row is taken even where one question stands alone."""
        row = self._together(place) if ";" in line and not self._in_row else []
        if len(row) > 1 and row[0] == place:
            return self.take_row(row, line)
        return super()._take(place, line)

    def _worded(self, group: list[Place]) -> tuple[str, str]:
        shorts = [self.interview.question(place).short for place in group]
        hint = "Leave one empty to come back to it; “why”, “why "
        return "; ".join(shorts), f"{hint}{shorts[-1].lower()}”, “back” and “stop” work too."

    def _together(self, first: Place) -> list[Place]:
        """The open questions from this one on whose relevance is settled.

        They are of one round and one topic; a short row goes on into the next topic, unless
        one of its own waits for what is answered here.
        """
        interview = self.interview
        topic_of, relevant = interview.questionnaire.topic_of, interview.relevance()
        topic, waits = topic_of[first.id], False
        places = list(interview.in_asking_order())
        group: list[Place] = []
        for place in places[places.index(first) :]:
            counts = bool(interview.question(place).count_of)
            if interview.is_first_look(place) is not interview.is_first_look(first):
                break
            if topic_of[place.id] is not topic:
                if waits or len(group) > _SHORT:
                    break
                topic = topic_of[place.id]
            if len(group) == _TOGETHER or (counts and place != first):
                break
            asked = interview.asked(place)
            waits = waits or (asked and relevant[place] is None)
            open_ = place not in interview.answers and place not in interview.skipped
            if relevant[place] and asked and open_:
                if place.animal != first.animal:
                    break
                group.append(place)
                if counts:
                    break
        return group or [first]
