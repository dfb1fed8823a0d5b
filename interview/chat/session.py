"""One sitting: picks up or starts a setup, talks, audits, offers to save the page."""

from __future__ import annotations

import os
import shlex
import sys
import threading
from pathlib import Path

from interview import assembly, setups
from interview.chat.afterwards import audit_and_stay
from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.replies import NO, YES, word_of
from interview.chat.pace.before_start import before_start
from interview.chat.safekeeping import Safekeeping, auto_title
from interview.chat.talks.guided import Left, Manner
from interview.chat.talks.listening import hear_aside
from interview.chat.together.counter import CounterTalk
from interview.chat.together.guided_talk import GuidedTalk
from interview.graph.interview import AnswerRefused, Interview
from interview.setups import Setup, SetupError
from interview.setups.kept import is_started, new_file, old_file
from interview.setups.saved_files import saved_in
from interview.words.text.refusal import NotUnderstood

__all__ = ["choose_face", "has_screen", "sit_down"]

_LATEST = 5


def has_screen() -> bool:
    """Whether standard output is a terminal that can do more than print lines."""
    term = os.environ.get("TERM", "dumb" if os.name == "posix" else "console")
    return sys.stdout.isatty() and term not in ("dumb", "")


def choose_face(plain: bool) -> Face:
    """The terminal's face, or the plain one without a terminal, on a dumb one, or when asked."""
    if not plain and has_screen() and sys.stdin.isatty():
        from interview.chat.faces.screen_face import TerminalFace

        try:
            return TerminalFace()
        except Exception:
            # A Windows console that prompt_toolkit can't draw on; elsewhere it is a bug.
            if os.name != "nt":
                raise
    from interview.chat.faces.line_face import PlainFace

    return PlainFace()


def sit_down(face: Face, path: Path | None, manner: Manner) -> int:
    """Hold one conversation; returns the exit code.

    Raises SetupError if the named file can't be used or nothing can be saved.
    """
    if path is not None and is_started(path):
        setups.refuse(path)
    interview = assembly.new_interview()
    threading.Thread(target=assembly.warm, daemon=True).start()
    keeping: Safekeeping | None = None
    try:
        keeping = _begin(face, interview, path)
        talk = CounterTalk if manner == "counter" else GuidedTalk
        conversation = talk(interview, face, keeping.save, manner)
        conversation.run()
        keeping.save()
        return audit_and_stay(face, conversation, keeping)
    except (Left, KeyboardInterrupt) as left:
        _say_where(face, keeping)
        return 0 if isinstance(left, Left) and not left.interrupted else 130
    finally:
        if keeping:
            keeping.kept.drop_if_empty()


def _say_where(face: Face, keeping: Safekeeping | None) -> None:
    if keeping is None:
        face.say("Nothing was changed.")
    elif not keeping.interview.answers and keeping.kept.drop_if_empty():
        face.say("Nothing was answered, so nothing is kept.")
    else:
        keeping.settle()
        again = f"tankside talk {shlex.quote(str(keeping.path))}"
        if keeping.moved:
            face.say(f"Saved in {keeping.path}. “{again}” goes on.")
            return
        face.say(f"Saved in {keeping.path}. “tankside” offers to go on, and so does “{again}”.")


# ---- the beginning


def _begin(face: Face, interview: Interview, path: Path | None) -> Safekeeping:
    """Fill the interview from a setup to go on with; returns what keeps it."""
    first = ""
    if path is None:
        path, first = _offer_to_go_on(face)
    if path is None or not is_started(path):
        keeping = Safekeeping(face, interview, new_file(path))
        face.say(f"Your answers are kept in {keeping.path}, one by one.")
        for sentence in before_start(interview):
            face.say(sentence)
        _take_first(face, interview, first)
        return keeping
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    face.say(f"Going on with {setup.title or path.name}.")
    title = "" if setup.title == auto_title(interview) else setup.title
    return Safekeeping(face, interview, old_file(path), title)


def _offer_to_go_on(face: Face) -> tuple[Path | None, str]:
    """The newest unfinished setup if the keeper wants it; else what a pipe said instead.

    A pipe doesn't know that there is an offer: a line that is neither yes nor no starts a
    new tank and is its first answer.
    """
    unfinished = _newest_unfinished()
    if unfinished is None:
        return None, ""
    path, setup = unfinished
    asked = Asked(
        f"Go on with “{setup.title or path.stem}”?",
        f"{_answers(setup)} saved. “no” starts a new tank and keeps this one.",
        completions=("yes", "no"),
    )
    while True:
        word = hear_aside(face, asked)
        if not word.startswith("?") and word_of(word) in ("", *YES):
            return path, ""
        if word_of(word) in (*NO, "new"):
            return None, ""
        if not sys.stdin.isatty():
            return None, word
        face.say("Type yes to go on with it, no for a new tank, or stop.", "refusal")


def _answers(setup: Setup) -> str:
    number = len(setup.answers)
    return "1 answer is" if number == 1 else f"{number} answers are"


def _take_first(face: Face, interview: Interview, line: str) -> None:
    place = interview.next()
    if not line or place is None:
        return
    try:
        interview.record(place, line)
    except (NotUnderstood, AnswerRefused) as problem:
        face.say(str(problem), "refusal")


def _newest_unfinished() -> tuple[Path, Setup] | None:
    """The latest setup with an answer and with a question left, among the latest few."""
    for path in (saved.path for saved in saved_in(setups.folder())[:_LATEST]):
        fresh = assembly.new_interview()
        try:
            setup = setups.read(path, fresh.questionnaire)
            setups.fill(fresh, setup)
        except SetupError:
            continue
        if setup.answers and fresh.next() is not None:
            return path, setup
    return None
