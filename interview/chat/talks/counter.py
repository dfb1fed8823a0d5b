"""The counter manner: short wording, several answers in a row, for a customer at the till.

What of a row is not understood or left empty comes again, with what else is still open, as
another row; a second time it comes alone.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from interview.chat.faces.face import Asked, Tone
from interview.chat.hearing.references import matches, turtle_of
from interview.chat.hearing.replies import word_of
from interview.chat.talks.guided import Talk
from interview.graph.examples import example_in
from interview.graph.interview import Place

__all__ = ["CounterTalk"]

_TOGETHER = 5
_SHORT = 2
"""A row no longer than this goes on into the next topic, so that nothing is asked alone."""
_EACH_SHOWS = 60
_MISSES = 2
"""So often missed in rows, a question comes alone."""


@dataclass
class CounterTalk(Talk):
    """Asks what belongs together in one go."""

    _in_row: bool = False
    _missed: Counter[Place] = field(default_factory=Counter)

    def _visit(self, place: Place) -> None:
        group = self._group(place)
        if len(group) > 1:
            self._visit_group(group)
        else:
            super()._visit(place)

    def _take(self, place: Place, line: str) -> bool:
        """A row is taken even where one question stands alone."""
        row = self._row_from(place) if ";" in line and not self._in_row else []
        if len(row) > 1 and row[0] == place:
            return self._take_row(row, line)
        return super()._take(place, line)

    def _tell(self, place: Place, text: str, tone: Tone = "note") -> None:
        """In a row, each sentence says which answer it is about."""
        about = f"{self.interview.question(place).short}: " if self._in_row else ""
        super()._tell(place, f"{about}{text}", tone)

    def _group(self, first: Place) -> list[Place]:
        """What is asked together with a question: itself alone once it was missed too often."""
        if self._is_alone(first) or first in self.interview.answers:
            return [first]
        return [p for p in self._row_from(first) if not self._is_alone(p)]

    def _is_alone(self, place: Place) -> bool:
        return self._missed[place] >= _MISSES

    def _row_from(self, first: Place) -> list[Place]:
        """The open questions from this one on whose relevance is settled.

        They are of one topic; a short row goes on into the next, unless one of its own topic
        waits for what is answered here.
        """
        interview = self.interview
        topic_of, relevant = interview.questionnaire.topic_of, interview.relevance()
        topic, waits = topic_of[first.id], False
        places = list(relevant)
        group: list[Place] = []
        for place in places[places.index(first) :]:
            counts = bool(interview.question(place).count_of)
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

    def _visit_group(self, group: list[Place]) -> None:
        self._open_topic(group[0])
        self.face.listing("In a row, with ; between:", [self._row(place) for place in group])
        topic, number, about = self.interview.progress(group[0])
        names = "; ".join(self.interview.question(place).short for place in group)
        asked = Asked(
            label=names,
            hint="Leave one empty to come back to it; “why”, “why "
            f"{self.interview.question(group[-1]).short.lower()}”, “back” and “stop” work too.",
            topic=topic,
            number=number,
            about=about,
            animal=turtle_of(self.interview, group[0]),
            place=group[0],
        )
        while True:
            line = self._hear(asked)
            word = word_of(line)
            if word in ("why", "how"):
                self._explain_group(group, word)
                continue
            if (meant := self._meant_in(group, word)) is not None:
                self._explain(meant, word.split()[0])
                continue
            leaves = self._command(group[0], line) if ";" not in line else None
            if leaves is None:
                leaves = self._take_row(group, line)
            if leaves:
                return

    def _meant_in(self, group: list[Place], word: str) -> Place | None:
        """The one of the row that “why …” or “how …” names, before others of that name."""
        asked, _, name = word.partition(" ")
        if asked not in ("why", "how") or not name:
            return None
        found = [place for place in matches(self.interview, name, ahead=True) if place in group]
        return found[0] if len(found) == 1 else None

    def _explain_group(self, group: list[Place], word: str) -> None:
        """“why” or “how” alone is about every question of the row."""
        questions = [self.interview.question(place) for place in group]
        rows = [(q.short, q.help if word == "why" else q.hint) for q in questions]
        title = "Why these are asked" if word == "why" else "How to find these out"
        one = f"“{word} {questions[-1].short.lower()}”"
        self.face.listing(f"{title}; {one} tells of one alone:", rows)

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

    def _take_row(self, group: list[Place], line: str) -> bool:
        """Share a line out over the group; what fails or is left empty comes again."""
        parts = self._parts(line, len(group))
        if len(parts) > len(group):
            names = ", ".join(self.interview.question(place).short for place in group)
            self.face.say(
                f"I read {len(parts)} answers, but only {len(group)} are asked for here: {names}. "
                f"Type just {'these' if len(group) > 1 else 'this'}, with ; between answers only.",
                "refusal",
            )
            return False
        self._in_row = True
        for place, part in zip(group, parts, strict=False):
            if not (part and self._take(place, part)):
                self._missed[place] += 1
        self._in_row = False
        self._warn()
        return True

    def _warn(self) -> None:
        """After a row, not within it."""
        if not self._in_row:
            super()._warn()

    @staticmethod
    def _parts(line: str, expected: int) -> list[str]:
        """The answers of a line: between semicolons, or commas where their number fits."""
        if ";" not in line and line.count(", ") == expected - 1:
            return [part.strip() for part in line.split(", ")]
        return [part.strip() for part in line.split(";")]
