"""One line from the keeper, fit for a screen; leaving is always possible."""

from __future__ import annotations

from collections.abc import Sequence

from interview.base.rows.lines import printable
from interview.chat.faces.face import Asked, Face, Interrupted, Left
from interview.chat.hearing.asked_instead import meaning_in
from interview.chat.hearing.replies import LEAVE, NO, YES, word_of
from interview.chat.hearing.told.emergencies import said_before_all
from interview.words.lexicon.rules import is_said
from interview.words.text.interjections import without_hold
from interview.words.text.tokens import plain_words

__all__ = ["hear_aside", "listen", "say_unheard"]


def listen(face: Face, asked: Asked) -> str:
    """The line at a question; Ctrl-C once asks, the end of input leaves, saved."""
    while True:
        face.show(asked)
        try:
            return _clean(_heard(face, asked))
        except Interrupted:
            face.say("Leave now? Everything is saved. Ctrl-C again leaves; Enter goes on.")
        if line := _stays(face):
            return line


def _stays(face: Face) -> str:
    """What is typed after Ctrl-C: nothing to go on, or at once an answer; or leaves."""
    line = _clean(_heard(face, Asked("")))
    word = word_of(line)
    if word in (*YES, *LEAVE):
        raise Left(interrupted=True)
    return "" if word in NO else line


def hear_aside(face: Face, asked: Asked) -> str:
    """One line at a question that is not about the tank, where “stop” and Ctrl-C leave."""
    face.show(asked)
    word = _heard(face, asked).strip()
    while meaning := meaning_in(word):
        face.say(meaning, "help")
        face.show(asked)
        word = _heard(face, asked).strip()
    if word_of(word) in LEAVE or is_said(plain_words(word), "asides", "leave"):
        raise Left
    return without_hold(word)


def _heard(face: Face, asked: Asked) -> str:
    """The line, and at once what can't wait; at the end of input the keeper has left."""
    try:
        line = face.hear(asked)
    except EOFError:
        raise Left from None
    if said := said_before_all(line):
        face.say(said)
    return line


def _clean(line: str) -> str:
    """A line without what a terminal would take for a command."""
    return printable(" ".join(line.split()))


def say_unheard(face: Face, lines: Sequence[str]) -> None:
    """Say what was told and waited for its turn, where somebody leaves before that."""
    if lines:
        told = ", ".join(f"“{line}”" for line in lines)
        face.say(f"I didn't get to {told}: tell me again when you go on.")
