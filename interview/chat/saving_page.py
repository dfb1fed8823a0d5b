"""The audit as a page in a file, saved where the keeper says."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.replies import NO, YES, word_of
from interview.chat.talks.listening import hear_aside

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["page_settled"]

_FOR_LATER = ("what if", "change ", "show", "why", "how")


def page_settled(face: Face, audit: Audit, advice: Advice, usual: Path) -> bool:
    """Offer to save the page; False when it could not be and another name may help."""
    asked = Asked(
        "Save this audit as Markdown?",
        f"Enter or yes saves {usual}; type another file name, or no.",
        completions=("yes", "no"),
    )
    line = hear_aside(face, asked)
    if word_of(line) in (*NO, "skip"):
        return True
    if word_of(line) in ("", *YES):
        return _written(face, audit, advice, usual)
    if line.casefold().startswith(_FOR_LATER):
        face.say("That comes next. First the page: yes, no, or a name for its file.", "refusal")
        return False
    target = Path(line).expanduser()
    target = target if target.suffix else target.with_suffix(".md")
    if target.exists():
        face.say(f"{target} exists, and I overwrite nothing. Type another name.", "refusal")
        return False
    return _written(face, audit, advice, target)


def _written(face: Face, audit: Audit, advice: Advice, target: Path) -> bool:
    from interview.report.formats.markdown import markdown

    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        text = markdown(audit, datetime.date.today().isoformat(), advice)
        target.write_text(text, encoding="utf-8")
    except OSError as problem:
        face.say(f"{target} can't be written: {problem.strerror}. Type another name.", "refusal")
        return False
    face.say(f"Saved {target}.")
    return True
