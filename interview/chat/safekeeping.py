"""Saving after every answer: what can't be saved stays in mind, is shown and is tried again."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from interview import setups
from interview.chat.faces.face import Asked, Face, Left
from interview.chat.hearing.references import name_of
from interview.chat.hearing.replies import NO, word_of
from interview.chat.talks.answers_so_far import show_known
from interview.chat.talks.listening import hear_aside
from interview.graph.interview import Interview, Place
from interview.setups.kept import Kept, is_started, new_file

__all__ = ["Safekeeping", "auto_title"]

_SHOWN = 3
_KINDS = 2
"""Kinds that a title names."""


@dataclass
class Safekeeping:
    """What keeps the answers of one talk.

    Args:
        face: where it is told
        interview: the answers
        kept: the file they are kept in
        title: the keeper's own title; "" for one made from the answers
    """

    face: Face
    interview: Interview
    kept: Kept
    title: str = ""
    moved: bool = field(default=False, init=False)
    """Whether the answers had to go where the keeper said."""
    _saved: dict[Place, str] = field(init=False)
    """What the file is known to hold."""
    _was_missed: bool = field(default=False, init=False)

    def __post_init__(self) -> None:
        self._saved = self._said()

    @property
    def untouched(self) -> bool:
        """Whether a new file would hold nothing but what was known before the first question."""
        return self.kept.new and not self._missing()

    @property
    def path(self) -> Path:
        """The file the answers are in by now."""
        return self.kept.path

    def save(self) -> None:
        """Save, once there is something to save; a failure is told and ends nothing."""
        if not self.interview.answers:
            return
        try:
            self._write()
        except setups.SetupError as problem:
            self.face.say(f"{self._unsaved()} {_reason(problem)} I try again with the next answer.")

    def call_it(self, title: str) -> None:
        """Give the tank another title."""
        self.title = title
        self.save()

    def settle(self) -> None:
        """Save for the last time, elsewhere where it must be.

        Raises SetupError when it can't be; every answer was shown then.
        """
        try:
            if self.interview.answers and not self.untouched:
                self._write()
            return
        except setups.SetupError as problem:
            self.face.say(f"{self._unsaved()} {_reason(problem)}")
            reason = _reason(problem)
        if self.face.live and self._saved_elsewhere():
            return
        show_known(self.interview, self.face)
        raise setups.SetupError(f"The answers above are not all saved. {reason}")

    def _saved_elsewhere(self) -> bool:
        """Whether another file took the answers."""
        asked = Asked(
            "Where else may I save?",
            "Type a file in another folder; Enter gives up, and I show the answers once more.",
        )
        while True:
            try:
                line = hear_aside(self.face, asked)
                if word_of(line) in ("", *NO):
                    return False
                path = Path(line).expanduser()
                if not path.name:
                    self.face.say("Name a file, as /tmp/tank.yaml.", "refusal")
                    continue
                path = path if path.suffix else path.with_name(f"{path.name}.yaml")
                if is_started(path):
                    self.face.say(f"{path} exists, and I overwrite nothing.", "refusal")
                    continue
                self.kept = new_file(path)
                self._write()
                self.moved = True
                return True
            except Left:
                return False
            except (setups.SetupError, RuntimeError) as problem:
                self.face.say(_reason(problem), "refusal")

    def _write(self) -> None:
        before, missed = self.kept.path, self._was_missed
        title = self.title or auto_title(self.interview)
        if self.kept.save(setups.of_interview(self.interview, title)):
            self.face.say(f"Another talk has written {before}. This one goes on in {self.path}.")
        self._saved, self._was_missed = self._said(), False
        if missed:
            self.face.say(f"All answers are saved in {self.path} now.")

    def _unsaved(self) -> str:
        """The answers that are only in mind, shown again."""
        self._was_missed = True
        missing = self._missing()
        told = "; ".join(
            f"{name_of(self.interview, place)}: {self.interview.answers[place].said}"
            for place in missing[-_SHOWN:]
        )
        more = f" and {len(missing) - _SHOWN} before" if len(missing) > _SHOWN else ""
        return f"Not saved, but kept in mind: {told}{more}." if told else "Not saved."

    def _missing(self) -> list[Place]:
        said = self._said()
        return [place for place in said if said[place] != self._saved.get(place)]

    def _said(self) -> dict[Place, str]:
        return {place: answer.said for place, answer in self.interview.answers.items()}


def _reason(problem: Exception) -> str:
    return str(problem).partition(" Set TANKSIDE_FOLDER")[0]


def auto_title(interview: Interview) -> str:
    """A title from the kinds of animal and the tank as understood, until the keeper gives one."""
    labels = {o.name: o.label.split(" (")[0] for o in interview.lists.options["species"]}
    places = (Place("species", animal) for animal in range(max(1, interview.animal_count)))
    told = (interview.answers.get(place) for place in places)
    kinds = list(dict.fromkeys(labels[str(one.value)] for one in told if one and one.value))
    tank = interview.answers.get(Place("tank_size"))
    parts = [" and ".join(kinds[:_KINDS]) + (" and others" if len(kinds) > _KINDS else "")]
    if tank:
        parts.append(_sides(interview) or tank.said)
    title = ", ".join(filter(None, parts))
    return title[:1].upper() + title[1:] if title else "New tank"


def _sides(interview: Interview) -> str:
    """Length, width and height as a tank is labelled; "" where one isn't known."""
    known = interview.known()
    sides: list[Any] = [known.get(f"tank_{side}") for side in ("length", "width", "height")]
    inches = interview.system in ("us", "uk_inches")
    unit, step = (0.0254, 0.5) if inches else (0.01, 1.0)
    if any(side is None for side in sides):
        return ""
    shown = [f"{round(float(side) / unit / step) * step:g}" for side in sides]
    return f"{' × '.join(shown)} {'in' if inches else 'cm'}"
