"""What can be typed in place of an answer, and leads elsewhere: why, back, change, what if."""

from __future__ import annotations

import re
from abc import abstractmethod
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from interview import assembly
from interview.base.bug_log import at_answer
from interview.chat.faces.face import Asked, Left, Tone
from interview.chat.hearing.asked_instead import asks_of_more, meaning_at, steps_back
from interview.chat.hearing.changes import Change, changes_in, left_at, number_now
from interview.chat.hearing.choosing import Choosing
from interview.chat.hearing.in_doubt import HANGING, is_much_nearer
from interview.chat.hearing.people import is_sentence
from interview.chat.hearing.references import matches, name_of
from interview.chat.hearing.replies import (
    AFTER_THAT,
    DONE,
    LEAVE,
    agreed_in,
    asks_back,
    says,
    word_of,
)
from interview.chat.pace.ahead import Ahead
from interview.chat.pace.put_off import PutOff
from interview.chat.pace.said_already import SaidAlready
from interview.chat.talks.asides import aside_in, carry_out
from interview.chat.talks.asking import Manner
from interview.chat.talks.listening import listen
from interview.graph.answers import Answer
from interview.graph.interview import AnswerRefused, Place
from interview.words.intents.which_turtle import leading_turtle
from interview.words.mentions.clauses import whole_clause
from interview.words.text.interjections import without_hold
from interview.words.text.refusal import NotUnderstood, either

__all__ = ["Commands"]

_IS_QUESTION = re.compile(
    r"(?:(?:do|does|did|is|are|was|were|has|have|should|would|could|wo|ca)(?:n'?t)?"
    r"|am|can|will|to|that|this|it)\b"
)
"""“why do you ask” and “how do I measure it” name no other question."""
_BY = re.compile(r"\bby ?([-−+]) ?(\d.*)")
"""“by −2 in” behind the name of an answer: so much less."""
_AMOUNT = re.compile(r"(?:^|\s)([-−+~]?\d.*)$")
"""What an answer shall be, or how far it moves, behind its name."""

_OTHER_NUMBERS = "“{}” was typed before what comes now was asked, so I don't use it."
_WHICH_NEXT = "“skip” goes on to the next question; “new tank” keeps this one and starts another."


def _by_how_much(told: re.Match[str]) -> str:
    return f"{told[2]} {'more' if told[1] == '+' else 'less'}"


@dataclass
class Commands(Choosing):
    """A talk over one interview, as far as commands go; `save` is called after every answer."""

    save: Callable[[], None]
    manner: Manner = "guided"
    ahead: Ahead = field(default_factory=Ahead)
    """Audits of the answers as they stand."""
    enough: bool = False
    """Whether the keeper wants the audit of what is known."""
    said_already: list[SaidAlready] = field(default_factory=list)
    """Lines said before their question stood there: heard at the next prompts."""
    audited: Mapping[Place, Answer] = field(default_factory=dict)
    """The answers of which an audit was shown last."""
    put_off: PutOff = field(init=False)
    _stands: Asked | None = None
    """The question that was shown last."""
    _from_before: str = ""
    """The line at hand, if it was said before its question stood there."""
    _jumped: list[Place] = field(default_factory=list)
    """Where commands lead, asked before what comes next."""

    def __post_init__(self) -> None:
        """Remember what is put off."""
        self.put_off = PutOff(self.interview)

    @abstractmethod
    def _take(self, place: Place, line: str) -> bool:
        """Read an answer; True when it was recorded."""

    def hear(self, asked: Asked) -> str:
        """The line at a prompt, once it is no aside; “stop” at one that is no question leaves."""
        while self.aside(line := self._line(asked), asked):
            pass
        if asked.place is None and word_of(line) in LEAVE:
            raise Left
        return line

    def hear_now(self, asked: Asked) -> str:
        """The line typed at a prompt; what was said before waits for the question behind it."""
        waiting, self.said_already = self.said_already, []
        try:
            return self.hear(asked)
        finally:
            self.said_already = [*waiting, *self.said_already]

    def hear_later(self, line: str) -> None:
        """Keep a line that belongs to the next question: it is heard there as if typed."""
        self.said_already.append(SaidAlready(line, self._stands))

    def unheard(self) -> list[str]:
        """What was told and waits for its turn, where somebody leaves."""
        return [waiting.line for waiting in self.said_already]

    def _agrees(self, asked: Asked) -> bool:
        """Yes or no; what else is said there is heard at the next question."""
        return bool(self._agreed(asked, "yes"))

    def _agreed(self, asked: Asked, offer: str, place: Place | None = None) -> str:
        """What is offered, where the keeper agrees; what they tell a place instead; else "".

        Enter agrees to what is asked as long as nothing else was said there.
        """
        is_first = True
        while True:
            line = self.hear_now(asked)
            agrees, rest = agreed_in(line)
            if agrees is not None and (line or is_first):
                if is_sentence(rest):
                    self.hear_later(rest)
                return offer if agrees else ""
            if place and line and self.interview.takes(place, line):
                return line
            if asks_back(line):
                self.face.say(asked.hint, "help")
                continue
            self.hear_of_illness(line)
            if line:
                self.hear_later(line)
            is_first = is_first and not line
            self.face.say(AFTER_THAT)

    def _line(self, asked: Asked) -> str:
        self._from_before = ""
        if asked.place:
            self._stands = asked
        while self.said_already:
            waiting = self.said_already.pop(0)
            if not waiting.is_meant_at(asked):
                self.hear_of_illness(waiting.line)
                self.face.say(_OTHER_NUMBERS.format(waiting.line), "refusal")
                continue
            self._from_before = line = waiting.line
            self.face.show(asked)
            self.face.heard(line)
            return line
        line = listen(self.face, asked)
        names = without_hold(line) != line and asked.place and self._answers(asked.place, "hang on")
        return without_hold(line, names=bool(names))

    def aside(self, line: str, asked: Asked) -> bool:
        """Carry out what can be typed anywhere, as “?”; False when the line is something else."""
        meaning = meaning_at(self.interview, asked.place, line)
        if meaning and (asked.place is None or asked.row):
            self.face.say(meaning, "help")
            return True
        aside = aside_in(self.interview, asked, line)
        if aside is None:
            return False
        if word_of(line) == "next" and asked.place and self.manner == "guided" and self.face.live:
            self.face.say(_WHICH_NEXT)
            return True
        with at_answer(asked.place.id if asked.place else aside):
            carry_out(aside, self.interview, self.face, asked)
        return True

    def _tell(self, place: Place, text: str, tone: Tone = "note") -> None:
        """Say something about the answer at a place."""
        self.face.say(text, tone)

    def _say_doubtful(self, places: Iterable[Place]) -> None:
        names = ", ".join(dict.fromkeys(assembly.label_of(place.id) for place in places))
        self.face.say(f"That may have changed: {names}. I'll ask again.")

    def _command(self, place: Place, line: str) -> bool | None:
        """Carry out a command: True when the question is left, None when it is no command."""
        word = word_of(line)
        if word.split()[0:1] in (["why"], ["how"]):
            return not self.hear_of_illness(line) and self._explain(place, word)
        if word == "skip" or says(line, "skip"):
            return self._skip(place)
        if steps := steps_back(line):
            return self._back(place, steps)
        if says(line, "waits") and not self._answers(place, line):
            self.face.say(self.put_off.waits_for(place))
            return False
        if (leaves := self.elsewhere(line)) is not None:
            return leaves
        if word in LEAVE:
            raise Left
        if word in DONE:
            self.enough = True
            if place not in self.interview.doubtful:
                return True
            self.face.say("This may have changed: type it anew, or “skip” leaves it open.")
        elif not line:
            self.face.say("Type an answer, “not sure” or “skip”; “?” lists what else works.")
        else:
            return None
        return False

    def _answers(self, place: Place, line: str) -> bool:
        """Whether a line is an answer, other than a name, which any words may be: hang on."""
        named = self.interview.question(place).type == "names"
        return not named and self.interview.takes(place, line)

    def _explain(self, place: Place, word: str) -> bool:
        """“why” and “how”, of this question or of the one named behind it."""
        asked, _, name = word.partition(" ")
        if name and not _IS_QUESTION.match(name):
            if asked == "how" and not matches(self.interview, name, ahead=True):
                self.face.say(self._beyond(place, word), "help")
                return False
            found = self.find(name, ahead=True)
            if found is None:
                return False
            place = found
        elif name and asked == "why" and asks_of_more(self.interview, place, name):
            self.face.say(self._beyond(place, word), "help")
            return False
        question = self.interview.question(place)
        if name:
            self.face.say(f"{question.short}: {question.label}", "help")
        if asked == "how":
            self.face.say(question.hint, "help")
        else:
            from interview.chat.asked.why_asked import reasons  # heavy: not before it is asked

            for line in reasons(question):
                self.face.say(line, "help")
        return False

    def _skip(self, place: Place) -> bool:
        if self.interview.question(place).required:
            if why := self.put_off.why_now(place):
                self.face.say(why)
                return False
            self.face.say(self.put_off.leave(place))
        self._leave_open(place)
        return True

    def _leave_open(self, place: Place) -> None:
        """Skip a question; an old answer in doubt, which goes with that, goes from the file too."""
        held = place in self.interview.answers
        self.interview.skip(place)
        if held and place not in self.interview.answers:
            self.save()

    def _back(self, place: Place, steps: int = 1) -> bool:
        """Go to the question before, or so many before; never beyond the first."""
        earlier = self.interview.previous(place)
        for _ in range(steps - 1):
            earlier = (earlier and self.interview.previous(earlier)) or earlier
        if earlier is None:
            self.face.say("This is the first question.")
            return False
        self.interview.skipped.discard(earlier)
        self._jumped.append(earlier)
        return True

    def elsewhere(self, line: str) -> bool | None:
        """Carry out “change …” and “what if …”: whether the talk goes there; None for others."""
        word = word_of(line)
        if word == "change" or word.startswith("change "):
            return self._change(line.strip(" .!?")[len("change") :].strip())
        if not word.startswith("what if"):
            return None
        self.what_if(line)
        return False

    def _change(self, name: str) -> bool:
        """Take the answer told, or go to the one named next; False when none is meant."""
        if self._took(name):
            return True
        if self.comes_later(name) or not (target := self.find(name)):
            return False
        self._say_why_not(target, name)
        self._jumped.append(target)
        return True

    def _say_why_not(self, place: Place, line: str) -> None:
        """Say why an amount told with “change” is not taken, before the answer is asked for."""
        clause = whole_clause(line)
        turtle = leading_turtle(clause) if clause else None
        if not (told := _AMOUNT.search(line[turtle.stop :] if turtle else line)):
            return
        moved = [one for one in changes_in(self.interview, _BY.sub(_by_how_much, line)) if one.told]
        said = told[1]
        if " by " in line or any(one.told and one.told.way for one in moved):
            held = self.interview.answers.get(place)
            start = f" from {held.said}" if held else ""
            example = self.interview.question(place).example
            ways = self._either_way(place, said) if " by " in line else ""
            problem = ways or f"I can't take “{said}”{start}. Type where it is now, as {example}."
            self._tell(place, problem, "refusal")
            return
        try:
            self.interview.try_answer(place, said)
        except NotUnderstood as problem:
            self._tell(place, str(problem), "refusal")
        except AnswerRefused as problem:
            self._tell(place, problem.alert, "refusal")

    def _either_way(self, place: Place, said: str) -> str:
        """The question which way an answer moved by an amount; "" where that is no question."""
        now = number_now(self.interview, place)
        named = f"{self.interview.question(place).short} is {said}"
        both = [
            left.by
            for word in ("more", "less")
            for change in changes_in(self.interview, f"{named} {word}")
            if change.place == place and (left := left_at(self.interview, change, now)).by
        ]
        return f"More or less? Type where it is now: {either(both)}." if len(both) > 1 else ""

    def _took(self, line: str) -> bool:
        """Take the answers a line tells, or ask where one is refused; False where it only names."""
        heard = changes_in(self.interview, _BY.sub(_by_how_much, line)) if line else []
        told = [found for change in heard if (found := self._told_by(change))]
        if not told or len(told) < len(heard):
            return False
        for place, said, is_sure in told:
            self._put(place, said, is_sure=is_sure)
        return True

    def _put(self, place: Place, said: str, *, is_sure: bool) -> None:
        """Record what a line tells of an answer, or ask where it is refused or unlikely."""
        takes = self.interview.takes(place, said)
        held = self.interview.answers.get(place)
        before = f", {held.said} before" if held else ""
        if takes:
            self._tell(place, f"{name_of(self.interview, place)}: {said}{before}.")
        hangs = takes and place.id in HANGING
        if (takes and not is_sure) or (hangs and is_much_nearer(self.interview, place, said)):
            self._tell(place, "That is less than half of what it was, so I ask.")
            self._jumped.append(place)
        elif not self._take(place, said):
            self._jumped.append(place)

    def _told_by(self, change: Change) -> tuple[Place, str, bool] | None:
        """Where a change leaves an answer: at what is told behind “to”, or moved by so much.

        And whether that is sure: less than half of a distance is asked about.
        """
        if not change.place or not change.told:
            return None
        place, told = change.place, change.told
        if told.way:
            said = "" if self._may_be_of(change) else self._moved_to(change)
            return (place, said, True) if said else None
        left = left_at(self.interview, change, number_now(self.interview, place))
        return (place, left.at or told.said, bool(left.at)) if change.clause.tells_goal else None

    def _moved_to(self, change: Change) -> str:
        """Where a move leaves its answer, as sure as it was before; "" where that is open."""
        place = change.places[0]
        left = left_at(self.interview, change, number_now(self.interview, place))
        held = self.interview.answers.get(place)
        about = "about " if held and held.how == "estimated" else ""
        return f"{about}{left.by}" if left.by and not left.at else ""

    def _may_be_of(self, change: Change) -> list[Place]:
        """The answers of which it isn't told which was moved: “the lamp” may be either."""
        if change.place and change.place.animal is not None:
            return []  # it is told which turtle grew
        fit = matches(self.interview, change.clause)
        return fit if len(fit) > 1 else []

    def what_if(self, line: str) -> None:
        """Audit the tank as it would be, and show what moves; nothing is recorded."""
        from interview.chat.hearing.what_if import NotAnIf, read_what_if, said_back
        from interview.report.before_and_after import in_a_word
        from interview.supposing import suppose

        try:
            changes = read_what_if(self.interview, line)
        except NotAnIf as problem:
            self.face.say(str(problem), "refusal")
            return
        self.face.say(said_back(self.interview, changes))
        before = self.ahead.audit(self.interview, "")
        after = suppose(before, self.interview.given(), changes)
        self.face.say(in_a_word(before, after))
        self.face.compare(before, after)
        self.face.say("That was only a what-if; your answers stand as they are.")

    def _lead_to(self, place: Place) -> None:
        """Ask of a place next, by itself."""
        if place not in self._jumped:
            self._jumped.append(place)
