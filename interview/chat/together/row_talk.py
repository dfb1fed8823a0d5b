"""Several questions in one go: a line is shared out over them, what is missed comes again."""

from __future__ import annotations

from abc import abstractmethod
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from interview.chat.faces.face import Asked, Tone
from interview.chat.hearing.people import is_sentence
from interview.chat.hearing.references import matches, name_of, turtle_of
from interview.chat.hearing.replies import word_of
from interview.chat.hearing.told.taken import Story
from interview.chat.talks.guided import Talk
from interview.chat.together.row_parts import ends_of_row, over, parts_of
from interview.chat.together.row_told import with_parts
from interview.graph.examples import example_in
from interview.graph.interview import Place
from interview.words.choices.absence import is_unsure, missing_tool

__all__ = ["RowTalk"]

_EACH_SHOWS = 60


@dataclass
class RowTalk(Talk):
    """A talk that asks what belongs together in one go.

    What of a row is not understood or left empty comes again; missed often enough, alone.
    """

    misses = 1
    """So often missed in rows, a question comes alone."""

    _in_row: bool = False
    _asked_for: Sequence[Place] = ()
    """The questions that a line is shared out over."""
    _missed: Counter[Place] = field(default_factory=Counter)

    @abstractmethod
    def _together(self, first: Place) -> list[Place]:
        """The open questions that may be asked with this one, itself included."""

    @abstractmethod
    def _worded(self, group: list[Place]) -> tuple[str, str]:
        """The question that stands for a row, and how to answer it."""

    def group(self, first: Place) -> list[Place]:
        """What is asked together with a question: itself alone once it was missed too often."""
        if self._is_alone(first) or first in self.interview.answers:
            return [first]
        return [p for p in self._together(first) if not self._is_alone(p)]

    def _is_alone(self, place: Place) -> bool:
        return self._missed[place] >= self.misses

    def _lead_to(self, place: Place) -> None:
        self._missed[place] = self.misses
        super()._lead_to(place)

    def _visit(self, place: Place) -> None:
        group = self.group(place)
        if len(group) > 1:
            self._visit_group(group)
        else:
            super()._visit(place)

    def _tell(self, place: Place, text: str, tone: Tone = "note") -> None:
        """In a row, each sentence says which answer it is about."""
        about = f"{self.interview.question(place).short}: " if self._in_row else ""
        super()._tell(place, f"{about}{text}", tone)

    def _asked_of(self, group: list[Place]) -> Asked:
        """The one question that stands for a group; opens its topic and shows what to type."""
        self._open_topic(group[0])
        self._shows_row(group)
        topic, number, about = self.interview.progress(group[0])
        label, hint = self._worded(group)
        return Asked(
            label=label,
            hint=hint,
            topic=topic,
            number=number,
            about=about,
            animal=turtle_of(self.interview, group[0]),
            place=group[0],
            row=tuple(group),
        )

    def _visit_group(self, group: list[Place]) -> None:
        """Stay at a group until a line answers some of it, or leads elsewhere."""
        asked = self._asked_of(group)
        while True:
            line = self.hear(asked)
            word = word_of(line)
            if word in ("why", "how"):
                self._explain_group(group, word)
                continue
            if (meant := self._meant_in(group, word)) is not None:
                self._explain(meant, word.split()[0])
                continue
            if word == "skip":
                self._skip_row(group)
                return
            leaves = self._command(group[0], line) if ";" not in line else None
            if leaves is None:
                leaves = self.take_row(group, line)
            if leaves:
                return

    def _take(self, place: Place, line: str) -> bool:
        """An answer; at one end of a range, as how cold it gets, both where both are told."""
        both = [] if self._in_row or is_unsure(line) else ends_of_row(self.interview, place, line)
        if not both:
            return super()._take(place, line)
        before = {one: held for one in both if (held := self.interview.answers.get(one))}
        taken = self.take_row(both, line)
        for one, held in before.items():
            now = self.interview.answers.get(one)
            if one != place and now and now.value != held.value:
                self._tell(one, f"{name_of(self.interview, one)}: {now.said}, {held.said} before.")
        return taken

    def _skip_row(self, group: list[Place]) -> None:
        """Leave open all of a row that may be left open; the rest comes again."""
        for place in group:
            if self.interview.question(place).required:
                self._missed[place] = self.misses
            else:
                self._leave_open(place)

    def _meant_in(self, group: list[Place], word: str) -> Place | None:
        """The one of the row that “why …” or “how …” names, before others of that name."""
        asked, _, name = word.partition(" ")
        return self._named_in(group, name) if asked in ("why", "how") and name else None

    def _named_in(self, group: list[Place], name: str) -> Place | None:
        found = [place for place in matches(self.interview, name, ahead=True) if place in group]
        return found[0] if len(found) == 1 else None

    def _explain_group(self, group: list[Place], word: str) -> None:
        """“why” or “how” alone is about every question of the row."""
        questions = [self.interview.question(place) for place in group]
        rows = [(q.short, q.help if word == "why" else q.hint) for q in questions]
        title = "Why these are asked" if word == "why" else "How to find these out"
        one = f"“{word} {questions[-1].short.lower()}”"
        self.face.listing(f"{title}; {one} tells of one alone:", rows)

    def _shows_row(self, group: list[Place]) -> None:
        """Say what can be typed for each of a row."""
        self.face.listing("In a row, with ; between:", [self._row(place) for place in group])

    def _row(self, place: Place) -> tuple[str, str]:
        """What can be typed for one of the group: its choices, or an example."""
        question = self.interview.question(place)
        if question.type == "yes_no":
            return question.short, "yes / no"
        if question.choices:
            offered = " / ".join(o.name.replace("_", " ") for o in question.choices)
            if len(offered) <= _EACH_SHOWS:
                return question.short, offered
        return question.short, f"e.g. {example_in(question, self.interview.system)}"

    def take_row(self, group: list[Place], line: str) -> bool:
        """Share a line out over the group; what fails or is left empty comes again."""
        if self._lacks_a_tool(line, group):
            return False
        parts = parts_of(self.interview, group, line)
        given_back = over(self.interview, group, parts)
        if len(parts) - len(given_back) > len(group):
            names = ", ".join(self.interview.question(place).short for place in group)
            self.face.say(
                f"I read {len(parts)} answers, but only {len(group)} are asked for here: {names}. "
                f"Type just {'these' if len(group) > 1 else 'this'}, with ; between answers only.",
                "refusal",
            )
            return False
        if given_back:
            phrases = "; ".join(f"“{phrase}”" for phrase in given_back)
            self.face.say(f"Not used: {phrases}. It is not asked for here.")
        alone = len(parts) == 1 and len(group) > 1

        def answered(places: list[Place]) -> bool:
            return any(place in self.interview.answers for place in places)

        self._in_row, self._asked_for = not alone, group
        for place, part in zip(group, [*parts, *[""] * len(group)], strict=False):
            if word_of(part) == "skip" and not self.interview.question(place).required:
                self._leave_open(place)
            elif part and self._take(place, part):
                if alone and (is_sentence(part) or not answered(group)):
                    break  # a story, perhaps of something else: what is open comes again
            elif place not in self.interview.answers:
                self._missed[place] += 1
        self._in_row, self._asked_for = False, ()
        self._warn()
        if tool := missing_tool(line):
            self._without(tool)
        return True

    def _what_is_told(self, line: str, asked: Place | None) -> tuple[Story, bool]:
        """With what the parts of a line tell by themselves, at a row."""
        told, whose = super()._what_is_told(line, asked)
        return (
            with_parts(self.interview, self._asked_for, told, line) if self._asked_for else told
        ), whose

    def _without(self, tool: str) -> None:
        """After a row, not within it."""
        if not self._in_row:
            super()._without(tool)

    def _warn(self) -> None:
        """After a row, not within it."""
        if not self._in_row:
            super()._warn()
