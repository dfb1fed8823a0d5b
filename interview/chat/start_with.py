"""What a talk starts with: the tank that was last left, a look at a finished one, or a new one."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from interview import assembly, setups
from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.agreed.changes_told import rows_told
from interview.chat.hearing.asked_instead import asks
from interview.chat.hearing.replies import NO, YES, agreed_in, word_of
from interview.chat.talks.asides import named_in
from interview.chat.talks.listening import hear_aside
from interview.graph.interview import Interview
from interview.setups import Setup, SetupError
from interview.setups.saved_files import saved_in
from interview.words.text.tokens import plain_words

__all__ = ["Start", "start_with"]

_LATEST = 5
_LEAST_WORDS = 3
"""From so many on a line tells something, be it about which tank."""
_NO_AND_MORE = re.compile(r"\s*\w+\s*[,.;:!]")
"""“no, it's a new one”, but not “no heater, …”, which tells of a tank."""
_SURELY = ("y", "yes", "yep", "yeah", "yea", "yup")
_NEW = (
    *("new", "new tank", "a new tank", "new one", "a new one", "next", "another tank"),
    *("another one", "a different tank", "not this one", "other tank"),
)
_OTHER = re.compile(
    r"\b(?:(?:my|our|the|a|this|that) )?(?:an)?(?:other|different|second|third) "
    r"(tank|set-?up|aquarium)\b",
    re.IGNORECASE,
)
"""What a new tank is called beside the saved one."""
_LIST = ("others", "the others", "other", "which", "which others")
_RECHECK = ("recheck", "look again", "check again", "again")


@dataclass(frozen=True)
class Start:
    """The setup to take up, and what was already said of the tank at the offer."""

    path: Path | None = None
    said: str = ""
    recheck: bool = False
    agreed: bool = False
    """Whether the keeper agreed to what this changes."""


class _Saved(NamedTuple):
    """A file, and what it holds."""

    path: Path
    setup: Setup
    interview: Interview

    @property
    def title(self) -> str:
        """What it is called."""
        return self.setup.title or self.path.stem

    @property
    def is_unfinished(self) -> bool:
        """Whether a question is left."""
        return self.interview.next() is not None


def start_with(face: Face) -> Start:
    """Offer the newest unfinished setup, else a recheck of the newest finished one.

    A pipe doesn't know that there is an offer: a line that is neither yes nor no starts a
    new tank and is its first answer. A person's sentence is kept, and which tank it is about
    is asked.
    """
    saved = _readable()
    first = next((one for one in saved if one.is_unfinished), next(iter(saved), None))
    if first is None or not (first.is_unfinished or face.live):
        return Start()
    if first.is_unfinished:
        asked = Asked(
            f"Go on with “{first.title}”?",
            f"{_answers(first.setup)} saved. “no” starts a new tank and keeps this one.",
            completions=("yes", "no"),
        )
        ways = "Type yes to go on with it, no for a new tank, or stop."
        return _chosen(face, _with_others(asked, saved), first, ("", *YES), ways, saved)
    asked = Asked(
        f"Look again at “{first.title}”?",
        "“recheck” asks what has changed since. Enter starts a new tank and keeps this one.",
        completions=("recheck", "new"),
    )
    ways = "Type recheck, or Enter for a new tank, or stop."
    return _chosen(face, _with_others(asked, saved), first, (*YES, *_RECHECK), ways, saved)


def _with_others(asked: Asked, saved: Sequence[_Saved]) -> Asked:
    """The offer, with the way to the other tanks where there are some."""
    hint = f"{asked.hint} “list” shows the others." if len(saved) > 1 else asked.hint
    return replace(asked, hint=hint)


def _other_meant(saved: Sequence[_Saved], line: str) -> Start | None:
    """The tank that goes by its number in the list, or by its title."""
    word = word_of(line).strip("“”\"'")
    for number, one in enumerate(saved, 1):
        if word in (str(number), one.title.casefold(), one.path.stem.casefold()):
            return Start(one.path, recheck=not one.is_unfinished)
    return None


def _chosen(
    face: Face,
    asked: Asked,
    first: _Saved,
    takes: Collection[str],
    ways: str,
    saved: Sequence[_Saved],
) -> Start:
    """The old tank by one of the words that take it, another, or a new one; with what was said."""
    said, old = "", Start(first.path, recheck=not first.is_unfinished)
    while True:
        line = hear_aside(face, asked)
        word = word_of(line) or line.strip()  # “?” asks for the ways
        if word in takes:
            return replace(old, said=said)
        if word in ("", *NO, *_NEW):
            return _new_tank(said)
        if face.live and (word in _LIST or named_in(line) == "show") and len(saved) > 1:
            rows = (_row(number, one) for number, one in enumerate(saved, 1))
            face.listing("Type the number or the name of one:", rows)
            continue
        if face.live and (other := _other_meant(saved, line)):
            return replace(other, said=said)
        if not face.live:
            return Start(said=line)
        agrees, rest = agreed_in(line)
        if rest and agrees and not _is_of_this_one(line):
            agrees = None
        if rest and (agrees or (agrees is False and _NO_AND_MORE.match(line))):
            more = _joined(said, rest) if len(rest.split()) >= _LEAST_WORDS else said
            return replace(old, said=more) if agrees else _new_tank(more)
        if not asks(line) and _agrees_to_changes(face, first, line):
            return replace(old, said=_joined(said, line), agreed=not said)
        said = _kept(face, line, said, ways)


def _is_of_this_one(line: str) -> bool:
    """Whether a line says yes to a tank; no “ok so we have …”, no “yes, a new one”."""
    first, *more = plain_words(line).split()
    rest = f" {' '.join(more)} "
    return first in _SURELY and not any(f" {way} " in rest for way in _NEW if " " in way)


def _agrees_to_changes(face: Face, first: _Saved, line: str) -> bool:
    """Whether what a line tells is different in the tank on offer, and the keeper agrees to it."""
    rows = () if _OTHER.search(line) else rows_told(first.interview, line)
    if not rows:
        return False
    face.listing(f"Of “{first.title}” I heard:", rows)
    asked = Asked(
        f"About “{first.title}”: take these changes?",
        "Enter or “yes” takes them up there; “no” keeps what you said for another tank.",
        completions=("yes", "no"),
    )
    while (agrees := agreed_in(hear_aside(face, asked))[0]) is None:
        face.say("Yes or no, please.", "refusal")
    return agrees


def _row(number: int, one: _Saved) -> tuple[str, str]:
    way = f"{_answers(one.setup)} saved" if one.is_unfinished else "finished, for a recheck"
    return f"{number}. {one.title}", way


def _new_tank(said: str) -> Start:
    """A new tank, which what was said of another one is about."""
    return Start(said=re.sub(rf"{_OTHER.pattern}(?=\W+\w)", r"my \1", said, flags=re.IGNORECASE))


def _joined(said: str, line: str) -> str:
    """What is said of a tank so far, with a line more."""
    return f"{said}. {line}" if said else line


def _kept(face: Face, line: str, said: str, ways: str) -> str:
    """What is said of a tank so far; the ways to say which tank it is."""
    if len(line.split()) >= _LEAST_WORDS and not asks(line):
        face.say(f"I keep what you said. Is it about this tank? {ways}")
        return _joined(said, line)
    face.say(ways, "refusal")
    return said


def _answers(setup: Setup) -> str:
    number = len(setup.answers)
    return "1 answer is" if number == 1 else f"{number} answers are"


def _readable() -> list[_Saved]:
    """The latest few setups that have answers, the newest first."""
    found = []
    for path in (saved.path for saved in saved_in(setups.folder())[:_LATEST]):
        fresh = assembly.new_interview()
        try:
            setup = setups.read(path, fresh.questionnaire)
            setups.fill(fresh, setup)
        except SetupError:
            continue
        if setup.answers:
            found.append(_Saved(path, setup, fresh))
    return found
