"""The guided manner: one thing after the other, and in one go what one tool tells."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from interview.chat.faces.face import Asked
from interview.chat.hearing.replies import word_of
from interview.chat.together.row_talk import RowTalk
from interview.graph.examples import example_in
from interview.graph.interview import AnswerRefused, Place
from interview.graph.order.look_round import LEAST_OPEN, Glance, LookRound
from interview.words.choices.absence import is_unsure
from interview.words.choices.choice import Choice, read_choices
from interview.words.text.refusal import NotUnderstood

__all__ = ["GuidedTalk"]

_NUMBERS = "Type the numbers of what is so, as “2, 5”, or “none”; “not sure” asks one at a time."
_HOW = "Type them in one line with ; between, as “{}”. What you leave empty I ask by itself."


@dataclass
class GuidedTalk(RowTalk):
    """Asks one question at a time, or a few that belong together."""

    def __post_init__(self) -> None:
        """Count what is asked together as one question."""
        self.interview.in_groups = True

    def _together(self, first: Place) -> list[Place]:
        if look := self._look(first):
            return look
        row = self.interview.row_of(first)
        if row is None:
            return [first]
        open_ = set(self.interview.open_places())
        row_of_one = (Place(name, first.animal) for name in row.ask)
        found = [place for place in row_of_one if place in open_]
        return found if first in found else [first]

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

    def _visit_group(self, group: list[Place]) -> None:
        look = self.interview.look_of(group[0])
        if look is None:
            super()._visit_group(group)
        else:
            self._visit_look(look, group)

    def _visit_look(self, look: LookRound, group: list[Place]) -> None:
        """Ask which of a list is so; what is found and needs more is asked next."""
        items = {item.ask: item for item in look.items}
        asked = self._look_asked(look, group)
        options = [
            Choice(place.id, items[place.id].say, (self.interview.question(place).short,))
            for place in group
        ]
        while True:
            line = self.hear(asked)
            word = word_of(line)
            if word in ("why", "how"):
                self._explain_group(group, word)
                continue
            if word == "skip":
                self._skip_row(group)
                return
            leaves = self._command(group[0], line)
            if leaves is None and is_unsure(line):
                self.face.say("Then I ask one thing at a time.")
                self._missed.update(dict.fromkeys(group, self.misses))
                return
            if leaves is None:
                leaves = self._take_look(items, group, options, line)
            if leaves:
                return

    def _look_asked(self, look: LookRound, group: list[Place]) -> Asked:
        items = {item.ask: item for item in look.items}
        topic, number, about = self.interview.progress(self.interview.next() or group[0])
        return Asked(
            label=look.label,
            hint=look.hint,
            topic=topic,
            number=number,
            about=about,
            choices=[(place.id, items[place.id].say) for place in group],
            completions=("none",),
            place=group[0],
            row=tuple(group),
            clear=[items[place.id].clear for place in group],
        )

    def _take_look(
        self,
        items: Mapping[str, Glance],
        group: list[Place],
        options: list[Choice],
        line: str,
    ) -> bool:
        """Record what a line says of a list; False where it says nothing of it."""
        told, doubted = _doubted(line)
        try:
            if told.endswith("?"):  # “none?” and “cords?” ask; only numbers are told in doubt
                raise NotUnderstood("", "", "")
            found = {option.name for option in read_choices(told, options)}
            open_ = {option.name for option in read_choices(doubted, options)}
        except NotUnderstood:
            self.hear_of_illness(line)
            if not self._heard_story(line) and not self._heard_a_person(group[0], line):
                self.face.say(_NUMBERS, "refusal")
                return False
            return any(place in self.interview.answers for place in group)
        for place in group:
            item, is_so = items[place.id], place.id in found
            told = item.found if is_so else item.clear
            if told and place.id not in open_ and self._noted(place, told):
                continue
            if place.id in found or self.interview.usual(place):
                self._missed[place] = self.misses
                self._jumped.insert(0, place)
            else:
                self._leave_open(place)
        self.save()
        if self.face.live:
            self.ahead.prepare()
        self._warn()
        return True

    def _noted(self, place: Place, said: str) -> bool:
        """Whether an answer of the list fits the others, and is recorded."""
        try:
            self.interview.record(place, said)
        except (NotUnderstood, AnswerRefused):
            return False
        return True

    def _worded(self, group: list[Place]) -> tuple[str, str]:
        row = self.interview.row_of(group[0])
        if row is None:
            raise ValueError(f"{group[0].id} is asked by itself")
        names = "; ".join(self.interview.question(place).short for place in group)
        label = row.label if len(group) == len(row.ask) else f"{names}?"
        system = self.interview.shown_system
        examples = (_one(example_in(self.interview.question(p), system)) for p in group)
        return label, f"{row.hint} {_HOW.format('; '.join(examples))}"

    def _shows_row(self, group: list[Place]) -> None:
        """The question itself names what is asked."""


def _doubted(line: str) -> tuple[str, str]:
    """The numbers of a line without those in doubt, and these: 2, 5? and 7."""
    doubted = re.findall(r"(\d+)\s*\?", line)
    told = re.sub(r"\d+\s*\?", "", line).strip(" ,;.") if doubted else line
    return told or "none", ", ".join(doubted) or "none"


def _one(example: str) -> str:
    """The first of several examples."""
    return example.partition(" or ")[0].partition(",")[0]
