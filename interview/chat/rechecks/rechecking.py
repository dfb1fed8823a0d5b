"""The recheck: what was moved, what that should do, what it did."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from interview import assembly, setups
from interview.chat.faces.face import Face
from interview.chat.history import keep_past, last_whole, show_trends, written_at
from interview.chat.rechecks.prediction import Prediction
from interview.chat.rechecks.recheck_talk import RecheckTalk
from interview.chat.saving_page import page_settled
from interview.chat.session import auto_title
from interview.chat.talks.guided import Left
from interview.setups.kept import old_file

if TYPE_CHECKING:
    pass

__all__ = ["recheck"]

_BEGIN = "Let us see what is different now."
_GO_ON = "Last time you left before all was measured again; I go on from there."


def recheck(face: Face, path: Path) -> int:
    """Ask what changed, predict, measure what matters, compare; returns the exit code."""
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    kept, written = old_file(path), written_at(path)
    title = setup.title or auto_title(interview)
    whole = last_whole(path, interview.questionnaire) if setup.doubtful else None
    start = interview
    if whole:  # a recheck was left half-way: its changes count from the tank before it
        start = assembly.new_interview()
        setups.fill(start, whole)
    before, earlier = assembly.audit_of(start, title), start.known()
    face.say(f"{title}: {before.grades.headline} {_GO_ON if whole else _BEGIN}")

    def save() -> None:
        kept.save(setups.of_interview(interview, title))

    talk = RecheckTalk(interview, face, save, prediction=Prediction(interview, before, earlier))
    talk.let_pass(datetime.datetime.now() - written)
    try:
        talk.run()
    except Left as left:
        if interview.known() != earlier and not whole:
            keep_past(path, setup, written)
        save()
        face.say(f"Saved in {kept.path}.")
        return 130 if left.interrupted else 0
    if not whole:
        keep_past(path, setup, written)
    save()
    after = assembly.audit_of(interview, title)
    face.compare(before, after)
    show_trends(face, path, interview)
    advice = assembly.advice_of(after)
    face.audit(after, advice)
    try:
        while not page_settled(face, after, advice, kept.path.with_suffix(".md")):
            pass
    except Left:
        face.say(f"The answers are in {kept.path}.")
    return 1 if after.grades.stop else 0
