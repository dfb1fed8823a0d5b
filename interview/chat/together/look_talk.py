"""Faults asked of in a list: the numbers of what is so, and what is in doubt asked by itself."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from interview.chat.faces.face import Asked
from interview.chat.together.row_talk import RowTalk
from interview.graph.interview import AnswerRefused, Place
from interview.graph.order.look_round import LEAST_OPEN, LookRound
from interview.graph.staleness import same
from interview.words.choices.absence import is_unsure
from interview.words.choices.choice import SEPARATORS, Choice, read_choice, read_choices
from interview.words.lexicon.files import known_words
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

__all__ = ["LookTalk"]

_NUMBERS = "Type the numbers of what is so, as “2, 5”, or “none”; “not sure” asks one at a time."
_GONE = "{number} is no longer asked: {name} stands as “{said}”, and “change {name}” mends it."
_LEFT_OPEN = "{number} is no longer asked: {name} was left open, and “change {name}” asks of it."
_NOTED = "So I note, and “change …” mends it: {}."
_IN_DOUBT = re.compile(r"(\d+)\s*\?")
_NUMBER = re.compile(r"\b\d{1,2}\b")
_AROUND = {"so", "just", "only", "its", "it", "is", "yes", "yeah", "number", "also", "then"} | {
    *("i", "id", "would", "say", "the", "well", "um", "both")
}
"""What may stand beside a number that tells no more than that."""


@dataclass
class LookTalk(RowTalk):
    """A talk that asks of rare faults in lists, one line for all of a list.

    What a fault that was found brings up is asked right after it.
    """

    found: list[Place] = field(default_factory=list)
    """Faults of lists whose further questions are still to come."""
    _numbers: dict[Place, int] = field(default_factory=dict)
    """By which each goes in its list, from the first time on that it stood there."""

    def coming(self) -> Place | None:
        """What a fault of a list brings up; None where that is asked."""
        while self.found:
            if places := self.interview.brought_up_by(self.found[0]):
                return places[0]
            self.found.pop(0)
        return None

    def _next(self) -> Place | None:
        place = None if self._jumped or self.enough else self.coming()
        return place or super()._next()

    def look_at(self, group: list[Place]) -> LookRound | None:
        """The list that a group is asked in; None for a row of what goes together."""
        row = self.interview.row_of(group[0])
        in_row = row is not None and {place.id for place in group} <= {*row.ask}
        return None if in_row or len(group) < 2 else self.interview.look_of(group[0])

    def _look(self, first: Place) -> list[Place]:
        """What the list that a question belongs to asks of; nothing where too little is open."""
        interview, look = self.interview, self.interview.look_of(first)
        if look is None or first != interview.next():  # “change cords” asks of them alone
            return []
        relevant, lived_in = interview.relevance(), interview.known().get("stage")
        open_ = [
            place
            for place in (Place(item.ask) for item in look.items)
            if relevant[place] and (lived_in == "living" or interview.usual(place))
            if place not in interview.answers and place not in interview.skipped
        ]
        alone = sum(map(self._is_alone, open_))
        return open_ if first in open_ and len(open_) - alone >= LEAST_OPEN else []

    def _asked_of(self, group: list[Place]) -> Asked:
        look = self.look_at(group)
        if look is None:
            return super()._asked_of(group)
        items = {item.ask: item for item in look.items}
        numbers = self._numbers_of(look, group)
        group = sorted(group, key=numbers.__getitem__)
        topic, number, about = self.interview.progress(self.interview.next() or group[0])
        return Asked(
            label=look.label,
            hint=look.hint,
            topic=topic,
            number=number,
            about=about,
            choices=[(place.id, items[place.id].say) for place in group],
            numbers=[numbers[place] for place in group],
            completions=("none",),
            place=group[0],
            row=tuple(group),
            clear=[items[place.id].clear for place in group],
        )

    def _numbers_of(self, look: LookRound, group: list[Place]) -> dict[Place, int]:
        """The numbers of a list, of what was answered meanwhile too: none ever means another."""
        places = [Place(item.ask) for item in look.items]
        listed = {place: self._numbers[place] for place in places if place in self._numbers}
        for place in group:
            listed.setdefault(place, 1 + max(listed.values(), default=0))
        self._numbers.update(listed)
        return listed

    def _named_in(self, group: list[Place], name: str) -> Place | None:
        """In a list “why 3” has a number, too: it stands on the screen."""
        look = self.look_at(group)
        if look and name.isdecimal() and len(name) <= 2:
            numbers = self._numbers_of(look, group)
            return next((place for place in group if numbers[place] == int(name)), None)
        return super()._named_in(group, name)

    def take_row(self, group: list[Place], line: str) -> bool:
        """Record what a line says of a list, or of a row; False where it says nothing of it."""
        look = self.look_at(group)
        if look is None:
            return super().take_row(group, line)
        if is_unsure(line):
            self.face.say("Then I ask one thing at a time.")
            self._missed.update(dict.fromkeys(group, self.misses))
            return True
        return self._take_look(look, group, line)

    def _take_look(self, look: LookRound, group: list[Place], line: str) -> bool:
        items = {item.ask: item for item in look.items}
        try:
            found, doubted = _numbered(line, self._options(look, group))
        except NotUnderstood:
            self.hear_of_illness(line)
            if not self._heard_besides(group[0], line):
                self.face.say(_NUMBERS, "refusal")
                return False
            # an ill animal's signs are asked alone, lest the next “none” deny them
            return any(p in self.interview.answers or self._is_alone(p) for p in group)
        if gone := self._gone(look, group, found, doubted):
            self.face.say(gone, "refusal")
            return False
        clear: list[str] = []
        for place in group:
            item, is_so = items[place.id], place.id in found
            self.found += [place] if is_so else []
            told = item.found if is_so else item.clear
            if told and place.id not in doubted and self._noted(place, told):
                clear += [] if is_so else [f"{self.interview.question(place).short}: {told}"]
                continue
            if is_so or self.interview.usual(place):
                self._missed[place] = self.misses
                self._jumped.insert(0, place)
            else:
                self._leave_open(place)
        if clear and self.face.live:
            self.face.say(_NOTED.format("; ".join(clear)))
        self.save()
        if self.face.live:
            self.ahead.answered(self.interview)
        self._warn()
        return True

    def _options(self, look: LookRound, group: list[Place]) -> list[Choice]:
        """What a list offers, each at its number; what is gone goes by that alone."""
        items, numbers = {item.ask: item for item in look.items}, self._numbers_of(look, group)
        return [
            Choice(place.id, items[place.id].say, (self.interview.question(place).short,))
            if place in group
            else Choice(str(number), "")
            for place, number in sorted(numbers.items(), key=lambda one: one[1])
        ]

    def _gone(self, look: LookRound, group: list[Place], found: set[str], doubted: set[str]) -> str:
        """What to say of a number that is gone, and not because what it says was told, too."""
        clear = {Place(item.ask): item.clear for item in look.items}
        for place, number in self._numbers_of(look, group).items():
            if place in group or str(number) not in found | doubted:
                continue
            told, name = self.interview.answers.get(place), self.interview.question(place).short
            if told is None:
                return _LEFT_OPEN.format(number=number, name=name)
            denies = same(self.interview.try_answer(place, clear[place]).value, told.value)
            if denies or str(number) in doubted:
                return _GONE.format(number=number, name=name, said=told.said)
        return ""

    def _heard_besides(self, first: Place, line: str) -> bool:
        """Take what else is told at a list: of a turtle, a story, one fact, of a person."""
        if self._heard_of_turtles(first, line) is not None:
            return True
        told = self._heard_story(line, None) or self._heard_story(line, None, single=True)
        return told or self._heard_a_person(first, line)

    def _noted(self, place: Place, said: str) -> bool:
        """Whether an answer of the list fits the others, and is recorded."""
        try:
            self.interview.record(place, said)
        except (NotUnderstood, AnswerRefused):
            return False
        return True


def _numbered(line: str, options: list[Choice]) -> tuple[set[str], set[str]]:
    """What a line says is so, and what is in doubt: 2, 5? and 7.

    Raises NotUnderstood for a question too, as “none?” or “cords?”: only numbers are told in doubt.
    """
    doubted = {read_choice(number, options).name for number in _IN_DOUBT.findall(line)}
    told = (_IN_DOUBT.sub("", line) if doubted else line).strip(" ,;.")
    found, rest, doubts = set[str](), list[str](), known_words("doubts")
    for piece in filter(plain_words, SEPARATORS.split(told)):
        numbers, words = _NUMBER.findall(piece), {*plain_words(piece).split()}
        if len(numbers) == 1 and words - {numbers[0]} <= _AROUND | doubts:
            (doubted if words & doubts else found).add(read_choice(numbers[0], options).name)
        else:
            rest.append(piece)
    if found | doubted:
        rest = [piece for piece in rest if not {*plain_words(piece).split()} <= _AROUND]
    if rest and told.endswith("?"):
        raise NotUnderstood("", "", "")
    found |= {option.name for option in (read_choices(", ".join(rest), options) if rest else ())}
    return found - doubted, doubted
