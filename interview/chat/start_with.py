"""What a talk starts with: the tank that was last left, a look at a finished one, or a new one."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from pathlib import Path

from interview import assembly, setups
from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.asked_instead import asks
from interview.chat.hearing.replies import NO, YES, word_of
from interview.chat.talks.listening import hear_aside
from interview.setups import Setup, SetupError
from interview.setups.saved_files import saved_in

__all__ = ["Start", "start_with"]

_LATEST = 5
_LEAST_WORDS = 3
"""From so many on a line tells something, be it about which tank."""
_NEW = (
    *("new", "new tank", "a new tank", "new one", "a new one", "next", "another tank"),
    *("another one", "a different tank", "not this one", "other tank"),
)
_RECHECK = ("recheck", "look again", "check again", "again")


@dataclass(frozen=True)
class Start:
    """The setup to take up, and what was already said of the tank at the offer."""

    path: Path | None = None
    said: str = ""
    recheck: bool = False


def start_with(face: Face) -> Start:
    """Offer the newest unfinished setup, else a recheck of the newest finished one.

    A pipe doesn't know that there is an offer: a line that is neither yes nor no starts a
    new tank and is its first answer. A person's sentence is kept, and which tank it is about
    is asked.
    """
    saved = _readable()
    first = next((one for one in saved if one[2]), next(iter(saved), None))
    if first is None or not (first[2] or face.live):
        return Start()
    path, setup, is_unfinished = first
    if is_unfinished:
        asked = Asked(
            f"Go on with “{setup.title or path.stem}”?",
            f"{_answers(setup)} saved. “no” starts a new tank and keeps this one.",
            completions=("yes", "no"),
        )
        ways = "Type yes to go on with it, no for a new tank, or stop."
        return _chosen(face, asked, Start(path), ("", *YES), ways)
    asked = Asked(
        f"Look again at “{setup.title or path.stem}”?",
        "“recheck” asks what has changed since. Enter starts a new tank and keeps this one.",
        completions=("recheck", "new"),
    )
    ways = "Type recheck, or Enter for a new tank, or stop."
    return _chosen(face, asked, Start(path, recheck=True), (*YES, *_RECHECK), ways)


def _chosen(face: Face, asked: Asked, old: Start, takes: Collection[str], ways: str) -> Start:
    """The old tank by one of the words that take it, or a new one; with what was said of it."""
    said = ""
    while True:
        line = hear_aside(face, asked)
        word = word_of(line) or line.strip()  # “?” asks for the ways
        if word in takes:
            return replace(old, said=said)
        if word in ("", *NO, *_NEW):
            return Start(said=said)
        if not face.live:
            return Start(said=line)
        said = _kept(face, line, said, ways)


def _kept(face: Face, line: str, said: str, ways: str) -> str:
    """What is said of a tank so far; the ways to say which tank it is."""
    if len(line.split()) >= _LEAST_WORDS and not asks(line):
        face.say(f"I keep what you said. Is it about this tank? {ways}")
        return f"{said}. {line}" if said else line
    face.say(ways, "refusal")
    return said


def _answers(setup: Setup) -> str:
    number = len(setup.answers)
    return "1 answer is" if number == 1 else f"{number} answers are"


def _readable() -> list[tuple[Path, Setup, bool]]:
    """The latest few setups that have answers, the newest first, and whether a question is left."""
    found = []
    for path in (saved.path for saved in saved_in(setups.folder())[:_LATEST]):
        fresh = assembly.new_interview()
        try:
            setup = setups.read(path, fresh.questionnaire)
            setups.fill(fresh, setup)
        except SetupError:
            continue
        if setup.answers:
            found.append((path, setup, fresh.next() is not None))
    return found
