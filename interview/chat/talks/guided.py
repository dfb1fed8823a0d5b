"""The conversation itself: what is asked next, and where it can end."""

from __future__ import annotations

from dataclasses import dataclass

from interview.chat.faces.face import Asked, Left
from interview.chat.hearing.in_context import in_context
from interview.chat.hearing.references import name_of
from interview.chat.hearing.replies import DONE, NO, says_yes, word_of
from interview.chat.hearing.told.story import read_story
from interview.chat.talks.answering import Answering
from interview.chat.talks.answers_so_far import left_open, show_known
from interview.chat.talks.asking import Manner
from interview.graph.interview import Place
from interview.words.mentions.parts import read_parts
from interview.words.text.refusal import NotUnderstood

__all__ = ["Left", "Manner", "Talk"]

_AUDIT = ("audit", "audit now", "ready")
_TANK, _LINE = Place("tank_size"), Place("water_line_below_rim")
_TAKES = "Enter or “yes” takes that; “no” doesn't."
_MANY_NEW = 9
"""Answers since the review listed them all, before it does so again."""
_MORE = ("more", "go on", "continue")
_LEFT = "You left this one for the end."
_NOT_READY = "Then what is to be changed? Tell me, or “change water line”; “stop” saves and leaves."
_AT_THE_END = "Type yes for the audit, or “grade”, “change water line”, “back” or “stop”."
_FIRST_LOOK = "Enter goes on; “done” ends with the audit of what is known, “grade” tells more."
_FIRST_LOOK_AT_COUNTER = "Enter ends with the audit of what is known; “more” asks the rest."


@dataclass
class Talk(Answering):
    """One conversation over one interview.

    `run` returns when nothing is left to ask and the keeper wants the audit; raises Left when
    they leave.
    """

    _round: int = -1
    """The furthest round of questions this talk came to; below 0 before the first."""
    _listed: int | None = None
    """How many answers the review listed last: a few mended there are not worth it again."""
    _is_fixed: bool = False
    """Whether it was said that what is left can't move the grade."""

    def run(self) -> None:
        """Ask until nothing is left, review, and return."""
        self.interview.skipped.clear()
        self.go_on()

    def go_on(self) -> None:
        """Ask what is still to ask, without what was skipped; review, and return."""
        while True:
            self._take_up_depth()
            place = self._next()
            if place == _TANK:
                self._take_up_volume()
            if place is not None:
                self._visit(place)
            elif self._reviewed():
                return

    def _take_up_depth(self) -> None:
        """Offer how deep the water is, once the tank is known, where it was told before."""
        interview = self.interview
        if not self._waits or _TANK not in interview.answers:
            return
        waits, self._waits = self._waits, []
        for phrase in waits:
            told = dict(read_story(interview, phrase).answers)
            said = in_context(interview, _LINE, phrase) or told.get(_LINE, "")
            label = f"You told “{phrase}”. {name_of(interview, _LINE)}: {said}?"
            if said and _LINE not in interview.answers and self._agrees(Asked(label, _TAKES)):
                self._answer_back(_LINE, interview.record(_LINE, said))
                self.save()

    def _take_up_volume(self) -> None:
        """Say at the tank why a volume told before is no answer to it."""
        for phrase in [one for one in self._waits if _is_volume(one)]:
            self._waits.remove(phrase)
            try:
                self.interview.try_answer(_TANK, phrase)
            except NotUnderstood as problem:
                self.face.say(f"You told “{phrase}”. {problem}")

    def _next(self) -> Place | None:
        """Where to go next; after a round only if the keeper wants to."""
        if self._jumped:
            return self._jumped.pop()
        place = self.interview.next()
        if self.enough:
            doubtful = self.interview.doubtful
            return next((p for p in self.interview.open_places() if p in doubtful), None)
        if place is None or self.interview.order.round_of(place.id):
            place = self._come_back() or place
        if place is None or not self.face.live:
            return place
        ended, now = self._round, self.interview.order.round_of(place.id)
        self._round = max(ended, now)
        if ended == 0 < now or (0 < ended < now and self._is_fixed_now()):
            self.enough = not self._goes_on(first=ended == 0)
            return self._next()
        return place

    def _come_back(self) -> Place | None:
        """What was left for the end, once the first look is through."""
        place = self.put_off.come_back()
        if place is not None:
            self.face.say(_LEFT)
        return place

    def _is_fixed_now(self) -> bool:
        """Whether it turns out, for the first time, that what is left can't move the grade."""
        if self._is_fixed:
            return False
        from interview.chat.pace.enough import open_names, rest_can_move  # heavy: not before

        names = open_names(self.interview)
        self._is_fixed = not rest_can_move(self.ahead.tank(self.interview), names)
        return self._is_fixed

    def _goes_on(self, *, first: bool) -> bool:
        """What the rest could change; False where the keeper has enough."""
        from interview.chat.pace.enough import can_move, offer_said, open_names  # heavy: not before

        counter = self.manner == "counter"
        with self.face.working("Judging what is known."):
            judged = self.ahead.judged(self.interview)
        self._is_fixed = not can_move(judged, open_names(self.interview))
        self.face.say(offer_said(self.interview, judged, first=first))
        asked = Asked(
            "Shall we go on?",
            _FIRST_LOOK_AT_COUNTER if counter else _FIRST_LOOK,
            completions=("more", "done", "grade", "stop"),
        )
        while True:
            line = self.hear(asked)
            word = word_of(line)
            if says_yes(line) or word in _MORE or (not word and not counter):
                return True
            if word in (*NO, *DONE, *_AUDIT, ""):
                return False
            if left := self.elsewhere(line):
                return True
            if left is None and (self.takes_told(line) or self.heard_correction(line)):
                return True
            if left is None:
                self.face.say(asked.hint)

    def _reviewed(self) -> bool:
        """The review before the audit; False when the keeper goes back to something."""
        interview = self.interview
        self.answer_what_waits()
        not_asked = sum(1 for _ in interview.open_places())
        unknown = left_open(interview) + not_asked
        is_news = self._listed is None or len(interview.answers) - self._listed > _MANY_NEW
        if is_news:
            show_known(interview, self.face)
            self._listed = len(interview.answers)
        else:
            self.face.say("“show” lists all of it again.")
        if unknown and is_news:
            self.face.say(f"{unknown} left open; the audit says what it can't judge without them.")
        offer = "" if interview.finer else " “finer” asks the finer questions too."
        if not_asked:
            offer = f" “more” asks the {not_asked} that are left."
        asked = Asked(
            "Ready for the audit?",
            f"Press Enter or type yes; “change water line” mends an answer.{offer}",
            completions=("yes", "finer", "show", "stop"),
        )
        if self.face.live:
            self.ahead.begin(interview)
        while True:
            line = self.hear(asked)
            word = word_of(line)
            if says_yes(line) or word in ("", *_AUDIT, *DONE):
                return True
            if word in NO:
                self.face.say(_NOT_READY)
                continue
            if word == "back" and (last := interview.previous(None)):
                self._jumped.append(last)
                return False
            if not_asked and word in _MORE:
                self.enough = False
                return False
            if word == "finer":
                interview.finer, self.enough = True, False
                self.save()
                return False
            left = self.elsewhere(line)
            if left or (left is None and (self.takes_told(line) or self.heard_correction(line))):
                return False
            if left is None:
                self.face.say(_AT_THE_END)


def _is_volume(phrase: str) -> bool:
    return any(part.kind == "volume" for part in read_parts(phrase))
