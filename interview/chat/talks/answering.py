"""One question at a time: asks it, takes its answer or what else was told, and answers back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from interview.base.bug_log import at_answer
from interview.chat.faces.face import Asked, Tone
from interview.chat.hearing.agreed.corrected import corrections_in, names_sides
from interview.chat.hearing.agreed.told_at import told_at, told_beside
from interview.chat.hearing.asked_instead import asks, asks_of_life, beside_life, opens, says_mended
from interview.chat.hearing.changes import changes_in, left_at, number_now
from interview.chat.hearing.in_context import (
    also_recorded,
    in_context,
    no_such_depth,
    with_only_unit,
)
from interview.chat.hearing.nearly import nearly, offered
from interview.chat.hearing.own_words import NOT_FOUND, hold_to_what_is_told, meant_by
from interview.chat.hearing.people import is_sentence
from interview.chat.hearing.references import name_of
from interview.chat.hearing.replies import NO, YES, agreed_in, says_yes, word_of
from interview.chat.hearing.told.elsewhere import answered_elsewhere, is_of_others
from interview.chat.hearing.told.emergencies import said_before_all
from interview.chat.hearing.told.signs_told import SIGNS
from interview.chat.hearing.told.story import LEAST_WORDS_OF_FACT, LEAST_WORDS_OF_STORY
from interview.chat.hearing.turtles.known_turtles import told_of
from interview.chat.hearing.turtles.newcomer import joins
from interview.chat.pace.moved_along import MovedAlong
from interview.chat.talks.answers_so_far import shown_answer
from interview.chat.talks.asked_back import AskedBack
from interview.chat.talks.asking import asked_at, remark_on, with_offer
from interview.chat.talks.said_at_once import newly_unlikely
from interview.graph.interview import AnswerRefused, Place, Recorded
from interview.words.choices.absence import missing_tool
from interview.words.choices.choice import ask_which
from interview.words.forms.around import OtherSide
from interview.words.intents.accidents import tells_of
from interview.words.intents.people import heard_in
from interview.words.lexicon.files import sayings
from interview.words.text.refusal import NotUnderstood

__all__ = ["Answering"]

_MOST_LISTED = 9
_SIZES = ("length", "size")
_WHICH_OFFER = "Enter alone takes nothing here: “yes” takes “{}”, or type what it is."
_NO_SUCH_TOOL = "This one needs none of that. "
_OTHER_WORDS = "Then in other words, please; “skip” leaves it open, “none” says there is none."


@dataclass
class Answering(AskedBack):
    """A talk at one of its questions."""

    _topic: str = ""
    _opened: set[str] = field(default_factory=set)
    _doubted: set[str] = field(default_factory=set)
    _meant: str = ""
    """What “yes” would answer, where a slip of the finger is likely."""
    _offered_at: Place | None = None
    """Where an answer was offered last: “no” is said of the offer there, not of the question."""
    _moved: MovedAlong = field(default_factory=MovedAlong)
    _refused_at: Place | None = None
    """Where an answer was tried last and not taken: what was offered before is not meant."""

    def _visit(self, place: Place) -> None:
        """Stay at one question until it is answered, skipped or left."""
        self._open_topic(place)
        yes_is_answer = self.interview.question(place).type == "yes_no"
        while True:
            is_offered = self._offered_at == place
            offer = self._meant if is_offered else ""
            asked = self._asked(place)
            stands = asked.prefill
            if self._refused_at == place:
                asked = _after_a_try(asked, offered=bool(offer))
                stands = stands if asked.keeps else ""
            line = self.hear(asked)
            if self._stands_told(place) and self._notes_signs(line):
                return
            if offer and says_yes(line):
                line = offer
            elif stands and not yes_is_answer and self._says_yes(place, line):
                line = stands
            if offer and not line:
                self._tell(place, _WHICH_OFFER.format(offer))
                continue
            self._offered_at = None
            if is_offered and word_of(line) in NO and not yes_is_answer:
                self._tell(place, _OTHER_WORDS)
                continue
            with at_answer(place.id):
                leaves = self._command(place, line)
                if leaves is None:
                    self._refused_at = None
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
        if self._lacks_a_tool(line, [place]):
            return False
        self._read(line)
        if (answered := self._heard_of_turtles(place, line)) is not None:
            return answered
        named = self.interview.question(place).type == "names"
        if place == SIGNS:
            line = self._signs.added(line) or line
        try:
            ill = heard_in(line).ill or asks_of_life(line)
            if named and (ill or asks(line)):  # a name may be any words, but not these
                raise NotUnderstood("", "", "")
            in_full = with_only_unit(self.interview, place, line)
            in_full = worded = in_full or in_context(self.interview, place, line)
            not_used = ""
            if not in_full:
                in_full, not_used = told_at(self.interview, place, line)
            if not in_full and (wrong := no_such_depth(self.interview, place, line)):
                raise wrong
            ask_which(line, self.interview.lists.options_of(self.interview.question(place)))
            if not worded:
                hold_to_what_is_told(self.interview, place, line, in_full or line)
            recorded = self._record(place, in_full or line)
            if in_full:
                taken = f"I took “{line}” as {shown_answer(self.interview, place)}."
                self._tell(place, f"{taken} {not_used}".rstrip())
        except NotUnderstood as problem:
            if self.hear_of_illness(line) and asks_of_life(line):
                rest = beside_life(line)
                if self.interview.question(place).type != "yes_no" and self._answers(place, rest):
                    return self._take(place, rest)
                if len(rest.split()) < LEAST_WORDS_OF_FACT:
                    return False
            if self._heard_whose(place, line) or self._heard_moved(line):
                return False
            if place.id == "species" and tells_of("of_land", line):
                if not said_before_all(line):
                    self._tell(place, sayings().emergencies.in_water)
                return False
            if self._heard_story(line, place):
                return True
            held = self.interview.answers.get(place)
            if self._heard_a_person(place, line):
                return self.interview.answers.get(place) is not held
            self._meant = problem.meant
            question = self.interview.question(place)
            mends = says_mended(line) or is_of_others(question, line)
            mends |= question.type not in _SIZES and names_sides(line)
            if mends and self.heard_correction(line):
                return False
            plain = named or bool(problem.meant)
            heard = plain or line == self._forgotten
            own = None if heard else meant_by(self.interview, place, line)
            found = [own.said] if own else [] if plain else nearly(self.interview, place, line)
            said = own.said if own else found[0] if len(found) == 1 else problem.meant
            told = None if named or asks(line) else told_beside(self.interview, place, line, said)
            if told and line != self._forgotten and self._heard_of(line, told, whose=False):
                return self.interview.answers.get(place) is not held
            if asks(line) and (opens(line) or not (self._meant or found)):
                self._meant = ""  # it is not said, so “yes” must not take it
                self._tell(place, self._beyond(place, line))
            elif own and own.is_sure:
                self._tell(place, f"I take that as “{own.said}”; “back” mends it.")
                return self._take(place, own.said)
            elif found:
                self._meant = found[0] if len(found) == 1 else ""
                self._offered_at = place
                self._refuse(place, offered(found))
            elif not plain and self._heard_story(line, place, single=True):
                return True
            elif line == self._forgotten:
                pass  # its list was just put aside, which says enough
            elif not problem.meant and (
                self.heard_correction(line) or self._heard_of_another(line)
            ):
                return False
            elif is_sentence(line) and not problem.meant and not isinstance(problem, OtherSide):
                self._refuse(place, f"{NOT_FOUND}. {self._way_to_answer(place, problem.example)}")
            else:
                self._offered_at = place if self._meant else None
                self._refuse(place, str(problem), "refusal")
        except AnswerRefused as problem:
            self._refuse(place, problem.alert, "refusal")
        else:
            self._jumped = [one for one in self._jumped if one != place]  # a sign told here
            if beside := also_recorded(self.interview, place, line):
                self._tell(place, f"I took “{name_of(self.interview, beside)}” from that too.")
            self.save()
            if self.face.live:
                self.ahead.answered(self.interview)
            self._answer_back(place, recorded)
            if tool := missing_tool(line):
                self._without(tool)
            if place == SIGNS:
                self._settle_signs(line)
            elif is_sentence(line):
                self.hear_of_illness(line)
            return True
        return False

    def _refuse(self, place: Place, text: str, tone: Tone = "note") -> None:
        self._refused_at = place
        self._tell(place, text, tone)

    def _heard_of_another(self, line: str) -> bool:
        """Offer to take a line as the answer to the one question it is a choice of."""
        place = answered_elsewhere(self.interview, line)
        if place is None or not self.interview.takes(place, line):
            return False
        label = f"{name_of(self.interview, place)}: {line}?"
        if self._agrees(Asked(label, "Enter or “yes” takes that; “no” leaves it for later.")):
            self._answer_back(place, self.interview.record(place, line))
            self.save()
        return True

    def _without(self, tool: str) -> None:
        """Ask once for all that a missing tool would tell: the type or a trade name of these."""
        others = [at for at in self.interview.open_places() if self._is_read_with(at, tool)]
        named = ", ".join(dict.fromkeys(name_of(self.interview, at) for at in others))
        label = f"Shall I take “not sure” for what else it would tell: {named}?"
        hint = "Enter or “yes” does; “no” asks each in its turn."
        if not others or not self._agrees(Asked(label, hint)):
            return
        for at in others:
            self.interview.record(at, "not sure")
            unsure = self.interview.question(at).unsure
            self._tell(at, f"{name_of(self.interview, at)}: {unsure.say or unsure.leave}")
        self.save()

    def _lacks_a_tool(self, line: str, places: Sequence[Place]) -> bool:
        """Whether a line only says that a tool is missing that none of some questions is for."""
        tool = missing_tool(line)
        meant = [at for at in self.interview.places() if tool and self._is_read_with(at, tool)]
        if not meant or not set(meant).isdisjoint(places):
            return False
        if set(meant).isdisjoint(self.interview.open_places()):  # these are answered
            self._tell(places[0], _NO_SUCH_TOOL + self.interview.question(places[0]).hint)
        else:
            self._without(tool)
        return True

    def _is_read_with(self, place: Place, tool: str) -> bool:
        question = self.interview.question(place)
        return question.type == tool or tool in question.trade_names

    def heard_correction(self, line: str) -> bool:
        """Offer to mend the answers that a line tells otherwise; True if that was asked."""
        if not is_sentence(line) and len(line.split()) < LEAST_WORDS_OF_FACT:
            return False
        found = corrections_in(self.interview, line)
        for place, said in found:
            self._offer_in_place(place, said)
        return bool(found)

    def _heard_moved(self, line: str) -> bool:
        """Offer what a line that tells of moves alone leaves answers at: the big one grew 2 cm."""
        left: list[tuple[Place, str]] = []
        heard = changes_in(self.interview, line) if len(line.split()) < LEAST_WORDS_OF_STORY else []
        for one in heard:
            found = self._told_by(one) if one.told and one.told.way else None
            if not found or found[0] not in self.interview.answers:
                return False
            left.append(found[:2])
        for place, said in left:
            self._offer_in_place(place, said)
        return bool(left)

    def takes_so(self, line: str) -> bool:
        """Take all that a line tells, as it was agreed that it is so; what isn't sure is asked."""
        story, whose = told_of(self.interview, line)
        if joins(self.interview, story) and self._heard_of(line, story, whose=whose):
            return True
        heard = [one for one in changes_in(self.interview, line) if one.told and one.places]
        for change in heard:
            place, told = change.places[0], change.told
            fit = self._may_be_of(change) if change.place else [*change.places]
            if fit and (not change.place or (told and told.way)):
                self.face.say(f"Of “{change.clause.text}”:")
                if (chosen := self._which(fit)) is None:
                    continue
                place = chosen
            change = replace(change, places=(place,))
            left = left_at(self.interview, change, number_now(self.interview, place))
            moved = bool(told and told.way)
            if said := self._moved_to(change) if moved else left.at or left.amount:
                self._put(place, said, is_sure=moved or bool(left.at))
            else:
                self._jumped.append(place)
        return bool(heard) or self._change(line)

    def takes_told(self, line: str) -> bool:
        """Take what a line tells otherwise at a prompt that asks of nothing; False if nothing."""
        is_told = any(one.told and one.place for one in changes_in(self.interview, line))
        return is_told and not asks(line) and self.takes_so(line)

    def _offer_in_place(self, place: Place, said: str) -> None:
        """Take other words for what was answered before, where the keeper agrees."""
        held = self.interview.answers[place].said
        label = f"{name_of(self.interview, place)}: {said} in place of {held}?"
        asked = Asked(label, "Enter or “yes” takes that; “no” keeps what was told.")
        if said := self._agreed(asked, said, place):
            self._answer_back(place, self._record(place, said))
            self.save()

    def _way_to_answer(self, place: Place, example: str) -> str:
        """What to type; where there are too many choices to list, how the answer is found."""
        question = self.interview.question(place)
        many = len(self.interview.lists.options_of(question)) > _MOST_LISTED
        return question.hint if many else f"Type {example}."

    def _open_topic(self, place: Place) -> None:
        topic = self.interview.questionnaire.topic_of[place.id]
        if topic.name != self._topic:
            self._topic = topic.name
            new = self.manner == "guided" and topic.name not in self._opened
            self.face.topic(topic.name, topic.about if new else "")
            self._opened.add(topic.name)

    def _asked(self, place: Place) -> Asked:
        asked = asked_at(self.interview, place, self.manner)
        if now := self._moved.offered(self.interview, place):
            return with_offer(asked, f"about {now}", f"By that it should be {now} now. ")
        return self._signs.shown_at(asked) if self._stands_told(place) else asked

    def _record(self, place: Place, said: str) -> Recorded:
        """Record an answer, and what it moves along."""
        return self._moved.record(self.interview, place, said)

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
        agrees, rest = agreed_in(line)
        if agrees and not (rest and self.interview.takes(place, rest)):
            if rest:
                self.hear_later(rest)
            return True
        if word_of(line) not in NO:
            left = self._command(place, line)
            if left or (left is None and self._take(place, line)):
                return False
        self._jumped.append(place)
        return False


def _after_a_try(asked: Asked, *, offered: bool) -> Asked:
    """The question where an answer was tried and not taken: what Enter took before is not meant.

    An earlier answer, which is shown again, stands where no other is offered.
    """
    kept = asked if asked.before and not offered else replace(asked, before="", keeps="")
    return replace(kept, prefill="")
