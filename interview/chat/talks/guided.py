"""The conversation itself: asks, listens, answers back, never loses an answer."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from interview import assembly
from interview.base.bug_log import at_answer
from interview.chat.faces.face import LEAST_WORDS, Asked, Face, Left, Tone
from interview.chat.hearing import story, story_agreed
from interview.chat.hearing.changes import new_answer
from interview.chat.hearing.choosing import comes_later, find
from interview.chat.hearing.in_context import also_recorded, in_context, with_only_unit
from interview.chat.hearing.people import (
    instead_of_a_refusal,
    is_sentence,
    offers,
    said_of_illness,
    said_to,
)
from interview.chat.hearing.references import name_of
from interview.chat.hearing.replies import LEAVE, NO, YES, word_of
from interview.chat.pace.review import DONE, goes_on, reviewed
from interview.chat.talks.ahead import Ahead
from interview.chat.talks.answers_so_far import left_open, show_known, shown_answer
from interview.chat.talks.asides import aside_in, carry_out
from interview.chat.talks.asking import Manner, asked_at, remark_on
from interview.chat.talks.listening import listen
from interview.chat.talks.said_at_once import SaidAtOnce
from interview.chat.talks.trying_out import try_out
from interview.chat.talks.unlikely import newly_unlikely
from interview.graph.interview import AnswerRefused, Interview, Place, Recorded
from interview.words.intents.people import Heard, heard_in
from interview.words.text.refusal import NotUnderstood

if TYPE_CHECKING:
    from interview.audit.audit import Audit

__all__ = ["Left", "Manner", "Talk"]

_IS_QUESTION = re.compile(r"(?:do|does|is|are|should|would|can|could|to|that|this|it|did)\b")
"""“why do you ask” and “how do I measure it” name no other question."""


@dataclass
class Talk:
    """One conversation over one interview.

    `save` is called after every answer. `run` returns when nothing is left to ask and
    the keeper wants the audit; raises Left when they leave.
    """

    interview: Interview
    face: Face
    save: Callable[[], None]
    manner: Manner = "guided"
    ahead: Ahead = field(default_factory=Ahead)
    """Audits of the answers as they stand."""
    enough: bool = False
    """Whether the keeper wants the audit of what is known."""
    _looked: bool = False
    """Whether this talk has asked any of the first look."""
    _has_offered: bool = False
    _topic: str = ""
    _opened: set[str] = field(default_factory=set)
    _jumped: list[Place] = field(default_factory=list)
    _doubted: set[str] = field(default_factory=set)
    _meant: str = ""
    _at_once: SaidAtOnce = field(default_factory=SaidAtOnce)

    def run(self) -> None:
        """Ask until nothing is left, review, and return."""
        self.interview.skipped.clear()
        self.go_on()

    def go_on(self) -> None:
        """Ask what is still to ask, without what was skipped; review, and return."""
        while True:
            place = self._next()
            if place is not None:
                self._visit(place)
            elif reviewed(self):
                return

    def _next(self) -> Place | None:
        """Where to go next; after the first look only if the keeper wants to."""
        if self._jumped:
            return self._jumped.pop()
        place = self.interview.next()
        if self.enough:
            doubtful = self.interview.doubtful
            return next((p for p in self.interview.open_places() if p in doubtful), None)
        if place is None or not self.face.live or self._has_offered:
            return place
        if self.interview.is_first_look(place):
            self._looked = True
        elif self._looked:
            self._has_offered = True
            self.enough = not goes_on(self)
            return self._next()
        return place

    @property
    def at_counter(self) -> bool:
        """Whether a customer waits."""
        return self.manner == "counter"

    def judged(self) -> Audit:
        """The audit of the answers as they stand."""
        return self.ahead.audit(self.interview, "")

    def judge_ahead(self) -> None:
        """Begin on that audit."""
        self.ahead.begin(self.interview)

    def left_open(self) -> int:
        """How many questions that matter here have no value."""
        return left_open(self.interview)

    def jump(self, place: Place) -> None:
        """Ask at a place before what comes next."""
        self._jumped.append(place)

    # ---- one question

    def _visit(self, place: Place) -> None:
        """Stay at one question until it is answered, skipped or left."""
        self._open_topic(place)
        prefill = True
        while True:
            asked = self._asked(place)
            line = self.hear(asked if prefill else replace(asked, prefill=""))
            prefill = False
            if self._meant and word_of(line) in YES:
                line = self._meant
            self._meant = ""
            with at_answer(place.id):
                leaves = self._command(place, line)
                if leaves is None:
                    leaves = self._take(place, line)
            if leaves:
                return

    def _take(self, place: Place, line: str) -> bool:
        """Read an answer; True when it was recorded."""
        if self.face.live:
            self._at_once.begin(self.interview, self.ahead)
        try:
            in_full = with_only_unit(self.interview, place, line)
            in_full = in_full or in_context(self.interview, place, line)
            in_full = in_full or story.told_at(self.interview, place, line)
            recorded = self.interview.record(place, in_full or line)
            if in_full:
                self._tell(place, f"I took {line} as {shown_answer(self.interview, place)}.")
        except NotUnderstood as problem:
            self.hear_of_illness(line)
            if self._heard_story(line):
                return True
            if self._heard_a_person(place, line):
                return place in self.interview.answers
            self._meant = problem.meant
            if is_sentence(line) and not problem.meant:
                self._tell(place, instead_of_a_refusal(problem))
            else:
                self._tell(place, str(problem), "refusal")
        except AnswerRefused as problem:
            self._tell(place, problem.alert, "refusal")
        else:
            self._take_beside(place, line)
            self.save()
            if self.face.live:
                self.ahead.prepare()
            self._answer_back(place, recorded)
            if is_sentence(line):
                self.hear_of_illness(line)
            return True
        return False

    def _take_beside(self, place: Place, line: str) -> None:
        """Record what a line says beside its own answer: a quarter, every week."""
        if other := also_recorded(self.interview, place, line):
            self._tell(place, f"I took “{name_of(self.interview, other)}” from that too.")

    def _heard_story(self, line: str) -> bool:
        """Take several answers from a few sentences, once the keeper agrees."""
        if len(line.split()) < LEAST_WORDS:
            return False
        told = story.read_story(self.interview, line)
        if len(told.answers) < story.LEAST_FACTS:
            return False
        agreed = story_agreed.agreed(self.interview, self.face, self.hear, told)
        if agreed is None:
            return False
        for sentence in story.keep(self.interview, agreed):
            self.face.say(sentence, "refusal")
        self.save()
        self._warn()
        self._offer_to_note(heard_in(line))
        return True

    def hear_of_illness(self, line: str) -> None:
        """Say where an ill animal goes, before anything else is made of the line."""
        if said := said_of_illness(heard_in(line)):
            self.face.say(said)

    def _heard_a_person(self, place: Place, line: str) -> bool:
        """Answer what was said as a person; True when something in it was noticed."""
        heard = heard_in(line)
        for sentence in said_to(heard, place.id):
            self.face.say(sentence)
        self._offer_to_note(heard)
        return bool(heard)

    def _offer_to_note(self, heard: Heard) -> None:
        """Note what a sentence says beside the question, where the keeper agrees."""
        for offer in offers(heard, self.interview):
            reply = word_of(self.hear(Asked(offer.label, "Enter or “yes” notes it; “no” doesn't.")))
            if reply in ("", *YES):
                self.interview.record(offer.place, offer.said)
                self.save()

    def hear(self, asked: Asked) -> str:
        """The line at a prompt, once it is no aside."""
        while self.aside(line := listen(self.face, asked), asked):
            asked = replace(asked, prefill="")
        return line

    def aside(self, line: str, asked: Asked) -> bool:
        """Carry out what can be typed anywhere, as “?”; False when the line is something else."""
        aside = aside_in(self.interview, asked, line)
        if aside is None:
            return False
        with at_answer(asked.place.id if asked.place else aside):
            carry_out(aside, self.interview, self.face, asked)
        return True

    def _open_topic(self, place: Place) -> None:
        topic = self.interview.questionnaire.topic_of[place.id]
        if topic.name != self._topic:
            self._topic = topic.name
            new = self.manner == "guided" and topic.name not in self._opened
            self.face.topic(topic.name, topic.about if new else "")
            self._opened.add(topic.name)

    def _asked(self, place: Place) -> Asked:
        return asked_at(self.interview, place, self.manner)

    # ---- what comes back

    def _tell(self, place: Place, text: str, tone: Tone = "note") -> None:
        """Say something about the answer at a place."""
        self.face.say(text, tone)

    def _answer_back(self, place: Place, recorded: Recorded) -> None:
        question = self.interview.question(place)
        if recorded.answer.understood:
            self._tell(place, recorded.answer.understood)
        for sentence in recorded.read_anew:
            self._tell(place, sentence)
        if recorded.answer.how == "assumed":
            self._tell(place, question.unsure.say or question.unsure.leave)
        if recorded.doubtful:
            names = ", ".join(dict.fromkeys(assembly.label_of(p.id) for p in recorded.doubtful))
            self.face.say(f"That may have changed: {names}. I'll ask again.")
        if said := remark_on(self.interview, question):
            self.face.say(said, "remark")
        self._misfits(place)
        self._warn()

    def _warn(self) -> None:
        """Say to somebody who is there what can't wait for the audit."""
        if self.face.live:
            for sentence in self._at_once.new(self.interview):
                self.face.say(sentence)

    def _misfits(self, place: Place) -> None:
        """Say what this answer does not fit together with; ask somebody there to confirm it."""
        asks = self.manner == "guided" and self.interview.question(place).type != "yes_no"
        for said in newly_unlikely(self.interview, place, self._doubted):
            if not (asks and self.face.live):
                self.face.say(f"{said} If it is right, go on; “back” mends it.")
                continue
            self.face.say(said)
            if not self._confirmed(place):
                return

    def _confirmed(self, place: Place) -> bool:
        """Whether an unlikely answer is right; else it is put right, or asked again."""
        label = f"Is “{self.interview.answers[place].said}” right?"
        line = self.hear(Asked(label, "Enter or “yes” keeps it; or type what it should be."))
        word = word_of(line)
        if word in ("", *YES):
            return True
        if word not in NO:
            left = self._command(place, line)
            if left or (left is None and self._take(place, line)):
                return False
        self._jumped.append(place)
        return False

    # ---- commands

    def _command(self, place: Place, line: str) -> bool | None:
        """Carry out a command: True when the question is left, None when it is no command."""
        word = word_of(line)
        if word.split()[0:1] in (["why"], ["how"]):
            return self._explain(place, word)
        if word == "skip":
            return self._skip(place)
        if word == "back":
            return self._back(place)
        if word == "change" or word.startswith("change "):
            return self.change(word.removeprefix("change").strip())
        if word.startswith("what if"):
            self.what_if(line)
        elif word in LEAVE:
            raise Left
        elif word in DONE:
            self.enough = True
            if place not in self.interview.doubtful:
                return True
            self.face.say("This may have changed: type it anew, or “skip” leaves it open.")
        elif not line:
            self.face.say("Type an answer, “not sure” or “skip”; “?” lists what else works.")
        else:
            return None
        return False

    def _explain(self, place: Place, word: str) -> bool:
        """“why” and “how”, of this question or of the one named behind it."""
        asked, _, name = word.partition(" ")
        if name and not _IS_QUESTION.match(name):
            found = self._find(name, ahead=True)
            if found is None:
                return False
            place = found
        question = self.interview.question(place)
        if name:
            self.face.say(f"{question.short}: {question.label}", "help")
        if asked == "how":
            self.face.say(question.hint, "help")
        else:
            from interview.chat.talks.why_asked import reasons  # heavy: not before it is asked

            for line in reasons(question):
                self.face.say(line, "help")
        return False

    def _skip(self, place: Place) -> bool:
        question = self.interview.question(place)
        if question.required:
            self.face.say("The audit can't do without this one. “not sure” or “stop” also work.")
            return False
        self.interview.skip(place)
        return True

    def _back(self, place: Place) -> bool:
        earlier = self.interview.previous(place)
        if earlier is None:
            self.face.say("This is the first question.")
            return False
        self.interview.skipped.discard(earlier)
        self._jumped.append(earlier)
        return True

    def change(self, name: str) -> bool:
        """Take the answer told, or go to the one named next; False when none is meant."""
        if told := new_answer(self.interview, name):
            place, said = told
            self._tell(place, f"{name_of(self.interview, place)}: {said}.")
            if not self._take(place, said):
                self._jumped.append(place)
            return True
        if comes_later(self.interview, self.face, name) or not (target := self._find(name)):
            return False
        self._jumped.append(target)
        return True

    def what_if(self, line: str) -> None:
        """Audit the tank as it would be, and show what moves; nothing is recorded."""
        try_out(self.interview, self.face, self.ahead, line)

    def _find(self, name: str, *, ahead: bool = False) -> Place | None:
        """The place meant by a few words."""
        return find(self.interview, self.face, self.hear, name, ahead=ahead)

    def show(self) -> None:
        """List what is known so far."""
        show_known(self.interview, self.face)
