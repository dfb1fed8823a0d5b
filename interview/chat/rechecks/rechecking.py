"""The recheck: what was moved, what that should do, what it did."""

from __future__ import annotations

import datetime
from pathlib import Path

from interview import assembly, setups
from interview.chat.afterwards import JUDGING, change_told, offer_page, show_advised
from interview.chat.faces.face import Face
from interview.chat.history import show_trends
from interview.chat.rechecks.prediction import Prediction
from interview.chat.rechecks.recheck_talk import RecheckTalk
from interview.chat.safekeeping import Safekeeping, auto_title
from interview.chat.talks.guided import Left
from interview.chat.talks.listening import say_unheard
from interview.setups.earlier import clock_was_wrong, keep_past, last_whole, written_at
from interview.setups.kept import old_file

__all__ = ["recheck"]

_BEGIN = "Let us see what is different now."
_GO_ON = "Last time you left before all was measured again; I go on from there."

_CLOCK = (
    "By its date this setup was last saved on {date}, so a clock was wrong, then or now. I count "
    "no time as passed: name “filter age” or “UVB lamp age” yourself if they are other by now."
)


def recheck(face: Face, path: Path, said: str = "") -> int:
    """Ask what changed, predict, measure what matters, compare; returns the exit code.

    What was already `said` of it is heard where it asks what changed.

    Raises Left where another tank is wanted; this one is saved then.
    """
    setups.refuse(path)
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    written = written_at(path)
    keeping = Safekeeping(face, interview, old_file(path), setup.title or auto_title(interview))
    title = keeping.title
    whole = last_whole(path, interview.questionnaire) if setup.doubtful else None
    start = interview
    if whole:  # a recheck was left half-way: its changes count from the tank before it
        start = assembly.new_interview()
        setups.fill(start, whole)
    before, earlier = assembly.audit_of(start, title), start.known()
    face.say(f"{title}: {before.grades.headline} {_GO_ON if whole else _BEGIN}")

    prediction = Prediction(interview, before, earlier)
    talk = RecheckTalk(interview, face, keeping.save, prediction=prediction)
    if said:
        talk.hear_later(said)
    if clock_was_wrong(written, datetime.datetime.now()):
        face.say(_CLOCK.format(date=written.date().isoformat()))
    else:
        talk.let_pass(datetime.datetime.now() - written)
    try:
        talk.run()
    except Left as left:
        say_unheard(face, talk.unheard())
        if interview.known() != earlier and not whole:
            _keep_past(face, path, setup, written)
        keeping.settle()
        face.say(f"Saved in {keeping.path}.")
        if left.anew:
            raise
        return 130 if left.interrupted else 0
    if not whole:
        _keep_past(face, path, setup, written)
    keeping.save()
    with face.working(JUDGING):
        after = assembly.audit_of(interview, title)
    face.compare(before, after)
    show_trends(face, path, interview)
    shown = show_advised(face, after)
    more = ""
    try:
        offer_page(face, talk, shown, keeping.path)
        if face.live:  # a page that names what else can be shown leaves nobody at a closed door
            more = change_told(face, talk, shown, keeping.path)
    except Left as left:
        say_unheard(face, talk.unheard())
        keeping.settle()
        face.say(f"The answers are in {keeping.path}.")
        if left.anew:
            raise
    keeping.settle()
    if more:
        return recheck(face, keeping.path, more)
    return 1 if after.grades.stop else 0


def _keep_past(face: Face, path: Path, setup: setups.Setup, written: datetime.datetime) -> None:
    try:
        keep_past(path, setup, written)
    except OSError as problem:
        face.say(f"The earlier answers can't be kept in the history: {problem.strerror}.")
