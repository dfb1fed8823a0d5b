"""One sitting: picks up or starts a setup, talks, audits, offers to save the page."""

from __future__ import annotations

import os
import shlex
import sys
import threading
from pathlib import Path

from interview import assembly, setups
from interview.base.output import has_screen
from interview.chat.afterwards import audit_and_stay
from interview.chat.faces.face import Face
from interview.chat.pace.before_start import before_start
from interview.chat.safekeeping import Safekeeping, auto_title
from interview.chat.start_with import Start, start_with
from interview.chat.talks.guided import Left, Manner, Talk
from interview.chat.talks.listening import say_unheard
from interview.chat.together.counter import CounterTalk
from interview.chat.together.guided_talk import GuidedTalk
from interview.chat.together.shop import customers_label, take_from_shop
from interview.graph.interview import Interview
from interview.setups.kept import is_started, new_file, old_file

__all__ = ["choose_face", "sit_down"]


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


def sit_down(face: Face, path: Path | None, manner: Manner, *, offers: bool = True) -> int:
    """Hold one conversation after the other until the keeper leaves; returns the exit code.

    Raises SetupError if the named file can't be used or nothing can be saved. Without a file it
    `offers` to go on with what was last left.
    """
    if path is not None and is_started(path):
        setups.refuse(path)
    threading.Thread(target=assembly.warm, daemon=True).start()
    offers = offers and path is None and manner == "guided"
    while (code := _one_talk(face, path, manner, offers=offers)) is None:
        path, offers = None, False
    return code


def _one_talk(face: Face, path: Path | None, manner: Manner, *, offers: bool) -> int | None:
    """One conversation; its exit code, None where another tank is wanted after it."""
    interview = assembly.new_interview()
    keeping: Safekeeping | None = None
    conversation: Talk | None = None
    try:
        start = start_with(face) if offers else Start(path)
        if start.recheck and start.path:
            from interview.chat.rechecks.rechecking import recheck

            return recheck(face, start.path, start.said)
        keeping, told = _begin(face, interview, start.path, manner)
        conversation = _talk(interview, face, keeping, manner)
        if start.agreed:
            conversation.takes_so(start.said)
        for line in filter(None, ("" if start.agreed else start.said, *told)):
            conversation.hear_later(line)
        conversation.run()
        keeping.save()
        return audit_and_stay(face, conversation, keeping)
    except (Left, KeyboardInterrupt) as left:
        say_unheard(face, conversation.unheard() if conversation else ())
        if isinstance(left, Left) and left.anew:
            if keeping:
                keeping.settle()
            return None
        _say_where(face, keeping, manner)
        return 0 if isinstance(left, Left) and not left.interrupted else 130
    finally:
        if keeping:
            keeping.kept.drop_if_empty()


def _talk(interview: Interview, face: Face, keeping: Safekeeping, manner: Manner) -> Talk:
    if manner == "counter":
        save, call_it, named = keeping.save, keeping.call_it, bool(keeping.title)
        return CounterTalk(interview, face, save, manner, call_it=call_it, is_named=named)
    return GuidedTalk(interview, face, keeping.save, manner)


def _say_where(face: Face, keeping: Safekeeping | None, manner: Manner) -> None:
    if keeping is None:
        face.say("Nothing was changed.")
    elif keeping.untouched and keeping.kept.drop_if_empty():
        face.say("Nothing was answered, so nothing is kept.")
    else:
        keeping.settle()
        how = "--manner counter " if manner == "counter" else ""
        again = f"tankside talk {how}{shlex.quote(str(keeping.path))}"
        if keeping.moved or manner == "counter":
            face.say(f"Saved in {keeping.path}. “{again}” goes on.")
            return
        face.say(f"Saved in {keeping.path}. “tankside” offers to go on, and so does “{again}”.")


# ---- the beginning


def _begin(
    face: Face, interview: Interview, path: Path | None, manner: Manner
) -> tuple[Safekeeping, list[str]]:
    """Fill the interview from a setup to go on with; returns what keeps it, and what was told."""
    if path is None or not is_started(path):
        label, told = "", list[str]()
        if manner == "counter" and face.live:
            told = take_from_shop(face, interview)
            label, told = customers_label(face, interview, told)
        keeping = Safekeeping(face, interview, new_file(path), label)
        face.say(f"Your answers are kept in {keeping.path}, one by one.")
        if manner == "guided":
            for sentence in before_start(interview):
                face.say(sentence)
        else:
            face.say("“why”, “not sure”, “skip”, “back”, “grade” and “done” work; so does “next”.")
        return keeping, told
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    face.say(f"Going on with {setup.title or path.name}.")
    title = "" if setup.title == auto_title(interview) else setup.title
    return Safekeeping(face, interview, old_file(path), title), []
