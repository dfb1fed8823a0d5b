"""One question at a time: asks it, takes its answer or what else was told, and answers back."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from interview.base.bug_log import at_answer
from interview.chat.faces.face import Asked
from interview.chat.hearing.asked_instead import asks, opens, reply_to, says_mended
from interview.chat.hearing.changes import changes_in
from interview.chat.hearing.in_context import also_recorded, in_context, with_only_unit
from interview.chat.hearing.nearly import nearly, offered
from interview.chat.hearing.own_words import NOT_FOUND, hold_to_what_is_told, meant_by
from interview.chat.hearing.people import (
    home_told,
    is_sentence,
    offers,
    said_of_illness,
    said_to,
)
from interview.chat.hearing.references import name_of
from interview.chat.hearing.replies import (
    DONE,
    NO,
    YES,
    says_yes,
    word_of,
)
from interview.chat.hearing.told import story, story_agreed
from interview.chat.hearing.told.known_turtles import WHOSE, of_known_turtles
from interview.chat.hearing.told.signs_told import SIGNS, ToldSigns, signs_in, with_signs
from interview.chat.talks.answers_so_far import shown_answer
from interview.chat.talks.asking import asked_at, remark_on
from interview.chat.talks.commands import Commands
from interview.chat.talks.said_at_once import SaidAtOnce, newly_unlikely
from interview.chat.talks.told_before import may_be_asked, not_told_yet
from interview.graph.interview import AnswerRefused, Place, Recorded
from interview.words.forms.around import OtherSide
from interview.words.intents.people import Heard, heard_in
from interview.words.text.refusal import NotUnderstood

__all__ = ["Answering"]

_MOST_LISTED = 9
_LEAST_WORDS = 4
"""Of a line that tells one thing beside the question."""
_LEAST_OF_STORY = 2
"""One word is an answer, or a slip of the finger."""
_HAS_ONE = {"stage", "animal_count"}
_HEARD_ILL = (
    "I heard that, and it stays so: a reptile veterinarian is the one to see. Here I go on."
)
_LEFT_OUT = "That leaves out what you told before: {}. “also …” adds to it, “back” mends it."
_OTHER_WORDS = "Then in other words, please; “skip” leaves it open, “none” says there is none."


@dataclass
class Answering(Commands):
    """A talk at one of its questions."""

    _topic: str = ""
    _opened: set[str] = field(default_factory=set)
    _doubted: set[str] = field(default_factory=set)
    _meant: str = ""
    """What “yes” would answer, where a slip of the finger is likely."""
    _offered_at: Place | None = None
    """Where an answer was offered last: “no” is said of the offer there, not of the question."""
    _forgotten: str = ""
    """The last line of which nothing was to be kept."""
    _at_once: SaidAtOnce = field(default_factory=SaidAtOnce)
    _told_ill: list[str] = field(default_factory=list)
    """Lines that told of an ill animal."""
    _signs: ToldSigns = field(init=False)
    """What these told of the signs to choose from."""

    def __post_init__(self) -> None:
        """Remember the signs that are told."""
        super().__post_init__()
        self._signs = ToldSigns(self.interview)

    def _visit(self, place: Place) -> None:
        """Stay at one question until it is answered, skipped or left."""
        self._open_topic(place)
        first = True
        yes_is_answer = self.interview.question(place).type == "yes_no"
        while True:
            asked = self._asked(place)
            stands = asked.prefill
            line = self.hear(asked if first else replace(asked, prefill=""))
            first = False
            is_offered = self._offered_at == place
            if self._stands_told(place) and self._notes_signs(line):
                return
            if is_offered and self._meant and says_yes(line):
                line = self._meant
            elif stands and not yes_is_answer and self._says_yes(place, line):
                line = stands
            self._offered_at = None
            if is_offered and word_of(line) in NO and not yes_is_answer:
                self._tell(place, _OTHER_WORDS)
                continue
            with at_answer(place.id):
                leaves = self._command(place, line)
                if leaves is None:
                    leaves = self._take(place, line)
            if leaves:
                return

    def _says_yes(self, place: Place, line: str) -> bool:
        """Whether a line agrees to what stands there; “fine” may be an answer."""
        return says_yes(line) and (word_of(line) in YES or not self.interview.takes(place, line))

    def _take(self, place: Place, line: str) -> bool:
        """Read an answer; True when it was recorded."""
        if self.face.live:
            self._at_once.begin(self.interview, self.ahead)
        named = self.interview.question(place).type == "names"
        if place == SIGNS:
            line = self._signs.added(line) or line
        try:
            if named and asks(line):  # a name may be any words, but no question
                raise NotUnderstood("", "", "")
            in_full = with_only_unit(self.interview, place, line)
            in_full = worded = in_full or in_context(self.interview, place, line)
            not_used = ""
            if not in_full:
                in_full, not_used = story.told_at(self.interview, place, line)
            if not worded:
                hold_to_what_is_told(self.interview, place, line, in_full or line)
            recorded = self.interview.record(place, in_full or line)
            if in_full:
                taken = f"I took “{line}” as {shown_answer(self.interview, place)}."
                self._tell(place, f"{taken} {not_used}".rstrip())
        except NotUnderstood as problem:
            self.hear_of_illness(line)
            if self._heard_of_other_turtle(place, line):
                return False
            if self._heard_story(line, place):
                return True
            held = self.interview.answers.get(place)
            if self._heard_a_person(place, line):
                return self.interview.answers.get(place) is not held
            self._meant = problem.meant
            if says_mended(line) and self._heard_correction(line):
                return False
            plain = named or bool(problem.meant)
            heard = plain or line == self._forgotten
            own = None if heard else meant_by(self.interview, place, line)
            found = [own.said] if own else [] if plain else nearly(self.interview, place, line)
            if asks(line) and (opens(line) or not (self._meant or found)):
                self._meant = ""  # it is not said, so “yes” must not take it
                self._tell(place, reply_to(self.interview, place, line))
            elif own and own.is_sure:
                self._tell(place, f"I take that as “{own.said}”; “back” mends it.")
                return self._take(place, own.said)
            elif found:
                self._meant = found[0] if len(found) == 1 else ""
                self._offered_at = place
                self._tell(place, offered(found))
            elif not plain and self._heard_story(line, place, single=True):
                return True
            elif not problem.meant and self._heard_correction(line):
                return False
            elif line == self._forgotten:
                pass  # its list was just put aside, which says enough
            elif is_sentence(line) and not problem.meant and not isinstance(problem, OtherSide):
                self._tell(place, f"{NOT_FOUND}. {self._way_to_answer(place, problem.example)}")
            else:
                self._offered_at = place if self._meant else None
                self._tell(place, str(problem), "refusal")
        except AnswerRefused as problem:
            self._tell(place, problem.alert, "refusal")
        else:
            self._jumped = [one for one in self._jumped if one != place]  # a sign told here
            if beside := also_recorded(self.interview, place, line):
                self._tell(place, f"I took “{name_of(self.interview, beside)}” from that too.")
            self.save()
            if self.face.live:
                self.ahead.answered(self.interview)
            self._answer_back(place, recorded)
            if place == SIGNS:
                self._settle_signs(line)
            elif is_sentence(line):
                self.hear_of_illness(line)
            return True
        return False

    def _heard_correction(self, line: str) -> bool:
        """Offer to mend the one answer that a line tells otherwise; True if that was asked."""
        if not is_sentence(line) and len(line.split()) < _LEAST_WORDS:
            return False
        told = [one for one in changes_in(self.interview, line) if one.told and one.place]
        place, change = (told[0].place, told[0].told) if len(told) == 1 else (None, None)
        held = self.interview.answers.get(place) if place else None
        if not (place and change and held) or change.way:
            return False
        if not self.interview.takes(place, change.said):
            return False
        label = f"{name_of(self.interview, place)}: {change.said} in place of {held.said}?"
        if self._agrees(Asked(label, "Enter or “yes” takes that; “no” keeps what was told.")):
            self._answer_back(place, self.interview.record(place, change.said))
            self.save()
        return True

    def _way_to_answer(self, place: Place, example: str) -> str:
        """What to type; where there are too many choices to list, how the answer is found."""
        question = self.interview.question(place)
        many = len(self.interview.lists.options_of(question)) > _MOST_LISTED
        return question.hint if many else f"Type {example}."

    def _heard_of_other_turtle(self, place: Place, line: str) -> bool:
        """Take what tells of another turtle than is asked of, or of one that can't be told."""
        if place.animal is None or self.interview.animal_count < 2:
            return False
        told, whose = of_known_turtles(
            self.interview, story.read_story(self.interview, line), line, place
        )
        others = {n for at, _ in told.answers if (n := at.animal) is not None and n != place.animal}
        if whose and not others:
            self.face.say(WHOSE, "refusal")
            return True
        if not others:
            return False
        heard = self._heard_story(line, place) or self._heard_story(line, place, single=True)
        if heard or line == self._forgotten:
            return True
        self.face.say(f"That is of turtle {min(others) + 1}; I ask of turtle {place.animal + 1}.")
        return True

    def _heard_story(self, line: str, asked: Place | None, *, single: bool = False) -> bool:
        """Take several answers from a few sentences, or a single one, once the keeper agrees."""
        words = len(line.split())
        if words < (_LEAST_WORDS if single else _LEAST_OF_STORY):
            return False
        told = story.read_story(self.interview, line)
        told, whose = of_known_turtles(self.interview, told, line, asked)
        if whose and {at.id for at, _ in told.answers} <= _HAS_ONE:
            self.face.say(WHOSE)
            return True
        sure = len(told.answers) - len(told.heard)  # guesses alone are no story
        many = sure > 1 or (len(told.answers) > 1 and words >= story.LEAST_WORDS_OF_STORY)
        sure = sure or may_be_asked(self.interview, told, asked, words, single=single)
        if not sure or many is single:
            return False
        if whose:
            self.face.say(WHOSE)
        heard = heard_in(line)
        told = not_told_yet(self.interview, with_signs(self.interview, told, heard.signs))
        if not told.answers:
            self.face.say("All that I took from that stands already; “show” lists it.")
            return True
        if heard.newcomer and {at.id for at, _ in told.answers} <= _HAS_ONE:
            return False  # that there is a turtle says nothing of the tank
        for sentence in said_to(heard, ""):
            self.face.say(sentence)
        agreed = story_agreed.agreed(self, told)
        if agreed is None:
            self._forgotten = line
            return False
        for sentence in story.keep(self.interview, agreed):
            self.face.say(sentence, "refusal")
        self._signs.forget({*signs_in(self.interview, told)} - {*signs_in(self.interview, agreed)})
        if self._signs.news:
            self._lead_to(SIGNS)
        elif SIGNS in self.interview.answers and SIGNS in self._jumped:
            self._jumped.remove(SIGNS)
        self.save()
        self._warn()
        self._offer_to_note(heard)
        return True

    def _notes_signs(self, line: str) -> bool:
        """Note the signs told before, where the talk is to end and the keeper agrees."""
        if word_of(line) not in DONE:
            return False
        label = f"Shall I note first: {self._signs.labels}?"
        if not self._agrees(Asked(label, "Enter or “yes” notes it; “no” doesn't.")):
            return False
        self.enough = True
        return self._take(SIGNS, self._signs.typed)

    def hear_of_illness(self, line: str) -> bool:
        """Say where an ill animal goes, before anything else is made of the line; True if said.

        Of a line that is heard again once its question stands it was said; of one that is typed
        again a word says that it was heard.
        """
        heard = heard_in(line)
        said = said_of_illness(heard)
        if said and any(line in told for told in self._told_ill):
            if line not in self._from_before:
                self.face.say(_HEARD_ILL)
        elif said:
            self._told_ill.append(line)
            self._signs.hear(heard.signs)
            self.face.say(said)
            self._ask_of_signs()
        return bool(said)

    def _ask_of_signs(self) -> None:
        """Ask next which signs are seen; what was answered before without these is in doubt."""
        answer, news = self.interview.answers.get(SIGNS), self._signs.news
        if answer is None or news:
            self._lead_to(SIGNS)
        if answer and (news or not answer.value):
            self.interview.doubtful.add(SIGNS)
            self._say_doubtful([SIGNS])
            self.save()

    def _settle_signs(self, line: str) -> None:
        """What is answered of signs stands for all that was told; what it leaves out is said."""
        offered = self._signs.typed
        if left_out := self._signs.settle():
            self.face.say(_LEFT_OUT.format(left_out))
        elif is_sentence(line) and line != offered:
            self.hear_of_illness(line)

    def _heard_a_person(self, place: Place, line: str) -> bool:
        """Answer what was said as a person; True when something in it was noticed."""
        heard, home = heard_in(line), home_told(self.interview, line)
        for sentence in said_to(heard, place.id):
            self.face.say(sentence)
        self._offer_to_note(heard, home)
        return bool(heard or home)

    def _offer_to_note(self, heard: Heard, home: str = "") -> None:
        """Note what a sentence says beside the question, where the keeper agrees."""
        for offer in offers(heard, home, self.interview):
            if self._agrees(Asked(offer.label, "Enter or “yes” notes it; “no” doesn't.")):
                self.interview.record(offer.place, offer.said)
                self.save()

    def _open_topic(self, place: Place) -> None:
        topic = self.interview.questionnaire.topic_of[place.id]
        if topic.name != self._topic:
            self._topic = topic.name
            new = self.manner == "guided" and topic.name not in self._opened
            self.face.topic(topic.name, topic.about if new else "")
            self._opened.add(topic.name)

    def _asked(self, place: Place) -> Asked:
        asked = asked_at(self.interview, place, self.manner)
        return self._signs.shown_at(asked) if self._stands_told(place) else asked

    def _stands_told(self, place: Place) -> bool:
        """Whether signs that were told in passing stand at a question, to be agreed to."""
        return place == SIGNS and bool(self._signs.news)

    def _answer_back(self, place: Place, recorded: Recorded) -> None:
        question = self.interview.question(place)
        if recorded.answer.understood:
            self._tell(place, recorded.answer.understood)
        for sentence in recorded.read_anew:
            self._tell(place, sentence)
        if recorded.answer.how == "assumed":
            self._tell(place, question.unsure.say or question.unsure.leave)
        if recorded.doubtful:
            self._say_doubtful(recorded.doubtful)
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
        line = self.hear_now(Asked(label, "Enter or “yes” keeps it; or type what it should be."))
        if not line or says_yes(line):
            return True
        if word_of(line) not in NO:
            left = self._command(place, line)
            if left or (left is None and self._take(place, line)):
                return False
        self._jumped.append(place)
        return False
