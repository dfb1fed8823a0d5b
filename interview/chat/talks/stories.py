"""What is told beside a question: a story, an ill animal, somebody at home; taken once agreed."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass, field

from interview.chat.faces.face import Asked
from interview.chat.hearing.agreed import story_agreed
from interview.chat.hearing.agreed.told_before import OF_ANY, may_be_asked, not_told_yet
from interview.chat.hearing.asked_instead import asks, asks_of_life, names_another
from interview.chat.hearing.nearly import nearly
from interview.chat.hearing.people import (
    home_told,
    is_sentence,
    offers,
    said_of_illness,
    said_of_life,
    said_to,
)
from interview.chat.hearing.replies import DONE, word_of
from interview.chat.hearing.told import story
from interview.chat.hearing.told.elsewhere import denies_it
from interview.chat.hearing.told.signs_told import SIGNS, ToldSigns, signs_in, with_signs
from interview.chat.hearing.told.taken import Story
from interview.chat.hearing.turtles.known_turtles import WHOSE, others_in, told_of
from interview.chat.talks.commands import Commands
from interview.chat.talks.said_at_once import SaidAtOnce
from interview.graph.interview import Place
from interview.words.intents.of_whom import names_an_animal
from interview.words.intents.people import Heard, heard_in
from interview.words.lexicon.files import sayings

__all__ = ["Stories"]

_LEAST_OF_STORY = 2
"""One word is an answer, or a slip of the finger."""
_READING = "Reading that."
_OF_OTHER = "That is of turtle {other}; here I ask of turtle {here}."
_LEFT_OUT = "That leaves out what you told before: {}. “also …” adds to it, “back” mends it."


@dataclass
class Stories(Commands):
    """A talk, as far as it hears what is told beside its questions."""

    _forgotten: str = ""
    """The last line of which nothing was to be kept."""
    _at_once: SaidAtOnce = field(default_factory=SaidAtOnce)
    _told_ill: list[str] = field(default_factory=list)
    """Lines that told of an ill animal."""
    _waits: list[str] = field(default_factory=list)
    """What was told and not used: how deep the water is, before the tank is known."""
    _signs: ToldSigns = field(init=False)
    """What these told of the signs to choose from."""

    def __post_init__(self) -> None:
        """Remember the signs that are told."""
        super().__post_init__()
        self._signs = ToldSigns(self.interview)

    def _heard_of_turtles(self, place: Place, line: str) -> bool | None:
        """Take what a line tells that calls another turtle than is asked of.

        Whether the question is answered by that too; None where the line tells of no other.
        """
        others = others_in(self.interview, line, place)
        if not others or asks(line):
            return None
        told, whose = told_of(self.interview, line, place)
        held = self.interview.answers.get(place)
        if place.animal is None and not (
            whose or any(at.animal is not None for at, _ in told.answers)
        ):
            return None
        if (told.answers or whose) and line != self._forgotten:
            self.hear_of_illness(line)
            self._heard_of(line, told, whose=whose)
        elif place.animal is None or heard_in(line) or not nearly(self.interview, place, line):
            return None
        elif others[0] is None:
            self._tell(place, WHOSE, "refusal")
        else:  # what is offered here would be the other's
            self._tell(place, _OF_OTHER.format(other=others[0] + 1, here=place.animal + 1))
        return self.interview.answers.get(place) is not held

    def _heard_whose(self, place: Place, line: str) -> bool:
        """Say so where a line tells of a turtle, and not of which."""
        told, whose = told_of(self.interview, line, place)
        if (
            place.animal is None
            or not whose
            or any(at.animal is not None for at, _ in told.answers)
        ):
            return False
        self.face.say(WHOSE, "refusal")
        return True

    def _read(self, line: str) -> None:
        """Read a story before anything is made of it, as who told it waits for a second or two."""
        if len(line.split()) >= story.LEAST_WORDS_OF_STORY:
            with self.face.working(_READING):
                story.read_story(self.interview, line)

    def _heard_story(self, line: str, asked: Place | None, *, single: bool = False) -> bool:
        """Take several answers from a few sentences, or a single one, once the keeper agrees."""
        words = len(line.split())
        if words < (story.LEAST_WORDS_OF_FACT if single else _LEAST_OF_STORY):
            return False
        told, whose = self._what_is_told(line, asked)
        said = dict(told.answers)
        if asked and said and asked not in said and denies_it(line, said.values()):
            return False  # “nothing over it” is of what is asked
        if not whose:
            sure = len(told.answers) - len(told.heard)  # guesses alone are no story
            many = sure > 1 or (len(told.answers) > 1 and words >= story.LEAST_WORDS_OF_STORY)
            sure = sure or may_be_asked(self.interview, told, asked, words, single=single)
            if not sure or many is single:
                return False
        return self._heard_of(line, told, whose=whose)

    def _what_is_told(self, line: str, asked: Place | None) -> tuple[Story, bool]:
        """What a line tells, and whether something in it may be of either turtle."""
        return told_of(self.interview, line, asked)

    def _heard_of(self, line: str, told: Story, *, whose: bool) -> bool:
        """Show what a line told, and keep what is agreed to; False where it is forgotten."""
        if whose:
            nothing = {at.id for at, _ in told.answers} <= OF_ANY
            self.face.say(WHOSE, "refusal" if nothing else "note")
            if nothing:
                return True
        heard = heard_in(line)
        told = not_told_yet(self.interview, with_signs(self.interview, told, heard.signs))
        if not told.answers:
            if asks(line) or asks_of_life(line):
                return False
            if not self.heard_correction(line):
                self.face.say("All that I took from that stands already; “show” lists it.")
            return True
        if heard.newcomer and {at.id for at, _ in told.answers} <= OF_ANY:
            return False  # that there is a turtle says nothing of the tank
        for sentence in said_to(heard, ""):
            self.face.say(sentence)
        agreed = story_agreed.agreed(self, told)
        if agreed is None:
            self._forgotten = line
            return False
        for sentence in story.keep(self.interview, agreed):
            self.face.say(sentence, "refusal")
        self._waits += told.unused
        self._signs.forget({*signs_in(self.interview, told)} - {*signs_in(self.interview, agreed)})
        if self._signs.news:
            self._lead_to(SIGNS)
        elif SIGNS in self.interview.answers and SIGNS in self._jumped:
            self._jumped.remove(SIGNS)
        self.save()
        self._warn()
        self._offer_to_note(heard)
        return True

    @abstractmethod
    def heard_correction(self, line: str) -> bool:
        """Offer to mend the answers that a line tells otherwise; True if that was asked."""

    def _stands_told(self, place: Place) -> bool:
        """Whether signs that were told in passing stand at a question, to be agreed to."""
        return place == SIGNS and bool(self._signs.news)

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
        again a word says that it was heard. Who asks whether it will live is answered too.
        """
        heard = heard_in(line)
        said, of_life = said_of_illness(heard), asks_of_life(line)
        if said and any(line in told for told in self._told_ill):
            if line not in self._from_before:
                self.face.say(sayings().illness.heard)
        elif said:
            self._told_ill.append(line)
            self._signs.hear(heard.signs)
            self.face.say(said)
            self._ask_of_signs()
        if of_life:
            self.face.say(said_of_life(self._signs.labels))
        return bool(said) or of_life

    def _beyond(self, place: Place, line: str) -> str:
        """Of an animal that is ill a veterinarian tells more than its tank."""
        of_animal = names_an_animal(line) and not names_another(line)
        if (labels := self._signs.labels) and of_animal:
            return said_of_life(labels)
        return super()._beyond(place, line)

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

    def tells_of_people(self, line: str) -> bool:
        """Whether a line tells of somebody at higher risk who isn't noted."""
        return any(offers(heard_in(line), "", self.interview))

    def notes_people(self, line: str) -> bool:
        """Note who is told of, where the keeper agrees; False where nothing is noted."""
        self._offer_to_note(heard_in(line))
        return not self.tells_of_people(line)

    def _offer_to_note(self, heard: Heard, home: str = "") -> None:
        """Note what a sentence says beside the question, where the keeper agrees."""
        for offer in offers(heard, home, self.interview):
            if self._agrees(Asked(offer.label, "Enter or “yes” notes it; “no” doesn't.")):
                self.interview.record(offer.place, offer.said)
                self.save()

    def _warn(self) -> None:
        """Say to somebody who is there what can't wait for the audit."""
        if self.face.live:
            for sentence in self._at_once.new(self.interview):
                self.face.say(sentence)
