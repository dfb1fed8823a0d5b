"""A question after the audit, in a keeper's own words: why he doesn't bask."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.chat.faces.face import Face
from interview.words.intents.accidents import tells_of_electricity
from interview.words.lexicon.rules import said_as
from interview.words.text.tokens import plain_words

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["answered", "supposes"]

_UNSEEN = "I go by what you told me and can't see the animal; a reptile vet can."
_NOT_YET = (
    "The audit judges the tank as you told it, not what may come of it. “what if …” tries a "
    "change; “more” lists all that was judged."
)
_CLAUSE_ENDS = re.compile(r"[.,;:!?]")


def answered(face: Face, audit: Audit, line: str) -> bool:
    """Tell what was found of all that a question is about; False where it is about no check.

    Where electricity or fire is told of, what to do was said, and nothing may soothe behind it. Who
    asks what may come is told what is wrong now, too; what is good now says nothing of that.
    """
    from interview.audit.gravity import gravity  # heavy, both: not before there is an audit
    from interview.report.naming import MAY_BE, capital, fault_of, inside, spoken, verdict_of

    if tells_of_electricity(line):
        return True
    found = list(_about(audit, line))
    if not found:
        return False
    judged = [one for one in found if one.applies and one.verdict != "unmeasured"]
    off = sorted((one for one in judged if one.verdict != "good"), key=gravity)
    fine = [spoken(one.check) for one in judged if one.verdict == "good"]
    for one in off:
        told = " ".join(part for part in (one.say, one.do) if part)
        word = verdict_of(one)
        judged_as = word if word == MAY_BE else f"{word}, {one.certainty}"
        face.say(f"{capital(fault_of(one))} ({judged_as}): {told}")
    if is_supposed := supposes(line):
        face.say(_NOT_YET)
    elif fine:
        face.say(f"By your answers, judged good: {', '.join(map(inside, fine))}.")
    if open_ := [spoken(one.check) for one in found if one.verdict == "unmeasured" and one.applies]:
        face.say(f"Not judged, as answers are open: {', '.join(map(inside, open_))}.")
    if off or (judged and not is_supposed):
        face.say(f"{_UNSEEN} “why {spoken((off or judged)[0].check)}” tells more.")
    return True


def supposes(line: str) -> bool:
    """Whether it is asked what may be done, or what would come of it, and not what is."""
    clauses = (f" {plain_words(clause)} " for clause in _CLAUSE_ENDS.split(line))
    return any(said_as("asked_instead", "supposes").match(clause, 1) for clause in clauses)


def _about(audit: Audit, line: str) -> Iterator[Finding]:
    """The findings whose words stand in a line, of those with the most."""
    from interview.audit.checks.loader import checks_by_id

    spoken_ = f" {plain_words(line)} "
    said = {
        check.id: sum(f" {word} " in spoken_ for word in check.asked_of)
        for check in checks_by_id().values()
    }
    most = max(said.values(), default=0)
    return (one for one in audit.findings if most and said.get(one.check) == most)
