"""One sitting: picks up or starts a setup, talks, audits, offers to save the page."""

from __future__ import annotations

import datetime
import os
import sys
import threading
from pathlib import Path

from interview import assembly, setups
from interview.chat.face import Asked, Face, Interrupted
from interview.chat.talk import Left, Manner, Talk
from interview.graph.interview import Interview, Place
from interview.setups import Setup, SetupError

__all__ = ["choose_face", "sit_down"]


def choose_face(plain: bool) -> Face:
    """The terminal's face, or the plain one without a terminal, on a dumb one, or when asked."""
    no_screen = not (sys.stdin.isatty() and sys.stdout.isatty())
    if plain or no_screen or os.environ.get("TERM", "") in ("dumb", ""):
        from interview.chat.plain import PlainFace

        return PlainFace()
    from interview.chat.terminal import TerminalFace

    return TerminalFace()


def sit_down(face: Face, path: Path | None, manner: Manner) -> int:
    """Hold one conversation; returns the exit code.

    Raises SetupError if the named file can't be used or nothing can be saved.
    """
    interview = assembly.new_interview()
    threading.Thread(target=assembly.warm, daemon=True).start()
    path, title = _begin(face, interview, path)

    def save() -> None:
        _save(path, setups.of_interview(interview, title or auto_title(interview)))

    try:
        Talk(interview, face, save, manner).run()
        save()
        return _finish(face, interview, path, title)
    except Left as left:
        save()
        face.say(f"Saved in {path}. “tankside {path}” goes on from here.")
        return 130 if left.interrupted else 0


def _begin(face: Face, interview: Interview, path: Path | None) -> tuple[Path, str]:
    """Fill the interview from a setup to go on with; returns its path and title."""
    if path is None:
        path = _offer_to_go_on(face, interview)
    if path is None:
        path = _new_path()
        face.say(f"Your answers are kept in {path}, one by one.")
        face.say("Type “why”, “how”, “not sure”, “skip”, “back”, “show” or “stop” at any time.")
        return path, ""
    if not path.exists():
        return path, ""
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    face.say(f"Going on with {setup.title or path.name}.")
    return path, "" if setup.title == auto_title(interview) else setup.title


def _offer_to_go_on(face: Face, interview: Interview) -> Path | None:
    """The newest unfinished setup, if the keeper wants to go on with it."""
    unfinished = _newest_unfinished()
    if unfinished is None:
        return None
    path, setup = unfinished
    asked = Asked(
        f"Go on with “{setup.title or path.stem}”?",
        f"{len(setup.answers)} answers are saved. “no” starts a new tank and keeps this one.",
        completions=("yes", "no"),
    )
    face.show(asked)
    try:
        line = face.hear(asked).casefold().strip(" .!")
    except (EOFError, Interrupted):
        return None
    return None if line.startswith("n") else path


def _newest_unfinished() -> tuple[Path, Setup] | None:
    found = sorted(setups.folder().glob("*.yaml"), key=lambda p: p.stat().st_mtime_ns, reverse=True)
    for path in found:
        fresh = assembly.new_interview()
        try:
            setup = setups.read(path, fresh.questionnaire)
            setups.fill(fresh, setup)
        except SetupError:
            continue
        if fresh.next() is not None:
            return path, setup
    return None


def _new_path() -> Path:
    day = datetime.date.today().isoformat()
    names = [f"tank-{day}", *(f"tank-{day}-{n}" for n in range(2, 1000))]
    return next(p for n in names if not (p := setups.folder() / f"{n}.yaml").exists())


def auto_title(interview: Interview) -> str:
    """A title from the first animal and the tank, until the keeper gives one."""
    species = interview.answers.get(Place("species", 0))
    tank = interview.answers.get(Place("tank_size"))
    parts = []
    if species and isinstance(species.value, str):
        options = interview.lists.options["species"]
        parts.append(next(o.label for o in options if o.name == species.value).split(" (")[0])
    if tank:
        parts.append(tank.said)
    return ", ".join(parts) or "New tank"


def _save(path: Path, setup: Setup) -> None:
    try:
        setups.write(path, setup)
    except OSError as problem:
        raise SetupError(
            f"Nothing can be saved in {path.parent} ({problem.strerror}). Set TANKSIDE_FOLDER "
            "to a folder you may write to, as TANKSIDE_FOLDER=/tmp/tanks."
        ) from problem


def _finish(face: Face, interview: Interview, path: Path, title: str) -> int:
    from interview.report.markdown import markdown

    audit = assembly.audit_of(interview, title or auto_title(interview))
    face.audit(audit)
    target = path.with_suffix(".md")
    asked = Asked(
        "Save this audit as Markdown?",
        f"Enter or yes saves {target}; type another file name, or no.",
        completions=("yes", "no"),
    )
    face.show(asked)
    try:
        line = face.hear(asked).strip()
    except (EOFError, Interrupted):
        line = "no"
    if line.casefold() not in ("no", "n"):
        if line.casefold() not in ("", "y", "yes"):
            target = Path(line).expanduser()
        _write_page(face, target, markdown(audit, datetime.date.today().isoformat()))
    return 1 if audit.grades.stop else 0


def _write_page(face: Face, target: Path, text: str) -> None:
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
    except OSError as problem:
        face.say(f"{target} can't be written: {problem.strerror}. The setup itself is saved.")
    else:
        face.say(f"Saved {target}.")
