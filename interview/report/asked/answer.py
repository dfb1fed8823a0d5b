"""What is told of a topic, or of some checks, from what is known of a tank: four lines of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from interview.audit.gravity import gravity
from interview.audit.notes import all_notes
from interview.report.asked.known_of import sentences_known, shown_of
from interview.report.first_page.sentences import beginning
from interview.report.naming import MAY_BE, capital, fault_of, inside, spoken, verdict_of
from interview.vocabulary.phrases import fill_known

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.report.asked.topics import Topic

__all__ = ["of_checks", "of_topic"]

_MOST = 298
"""Characters of four lines."""
_UNSEEN = "I go by what you told me and can't see the animal; a reptile vet can."
_NOT_YET = (
    "That is of the tank as you told it, not of what may come of it: “what if …” tries a change."
)


def of_topic(
    topic: Topic,
    audit: Audit,
    advice: Callable[[], Advice | None] | None,
    *,
    supposed: bool,
) -> str:
    """What is known of a topic.

    Who asks what may come is told what is wrong now, too; what is good now says nothing of that.
    What is dangerous in this tank goes before what holds of any.

    Args:
        topic: what is asked
        audit: the tank as it was told so far
        advice: finds plans and lists; None while the talk goes on
        supposed: whether it is asked what may be, and not what is
    """
    found = [one for one in audit.findings if one.check in topic.checks]
    said = [_told(one) for one in sorted(found, key=gravity) if _is_dangerous(one)]
    for what in topic.shows:
        said += shown_of(what, audit, advice() if advice else None)
    said += sentences_known(topic.says, audit)
    rest = [one for one in found if not _is_dangerous(one)]
    fine = topic.of_now or not (supposed or topic.only_off)
    parts = [*said, *_of_findings(rest, fine=fine, said=said or topic.lacking, more=bool(advice))]
    parts = [*parts, *_of_notes(topic, audit)] or [topic.lacking]
    return _in_four_lines(parts, *sentences_known((topic.ends,), audit))


def of_checks(
    checks: Collection[str], audit: Audit, *, supposed: bool, of_animal: bool, ends: bool
) -> str:
    """What some checks found; with `ends` also of what that tells nothing."""
    found = [one for one in audit.findings if one.check in checks]
    parts = [*_of_findings(found, fine=not supposed, said=(), more=ends)]
    if ends and of_animal and any(one.applies for one in found):
        parts.append(_UNSEEN)
    return _in_four_lines(parts, _NOT_YET if ends and found and supposed else "")


def _of_notes(topic: Topic, audit: Audit) -> Iterator[str]:
    tank = audit.tank
    for note in (note for note in all_notes() if note.note in topic.notes):
        said = fill_known(note.say, tank.lookup, tank.unit_of, tank.system)
        yield f"{said} Ask: {note.defers_to}."


def _of_findings(
    found: Sequence[Finding], *, fine: bool, said: Sequence[str], more: bool
) -> Iterator[str]:
    """What is off, the gravest first; what is good if `fine`; else why it is looked at at all.

    What isn't judged needs no word where something else is `said`; `more` tells how to ask on.
    """
    judged = [one for one in found if one.applies and one.verdict != "unmeasured"]
    off = sorted((one for one in judged if one.verdict != "good"), key=gravity)
    good = [one for one in judged if one.verdict == "good"] if fine else []
    yield from map(_told, off)
    if good:
        names = ", ".join(inside(spoken(one.check)) for one in good)
        alone = f" {good[0].say}" if len(good) == 1 else ""
        yield f"By your answers, judged good: {names}.{alone}"
    if found and not (off or good or said):
        one = next((one for one in found if one.applies), found[0])
        waits = "" if judged else f"{capital(spoken(one.check))} isn't judged yet."
        yield f"{waits if one.applies else one.say} {one.why}".strip()
    if more and (off or good):
        yield f"“why {spoken((off or good)[0].check)}” tells more."


def _is_dangerous(finding: Finding) -> bool:
    return finding.applies and finding.verdict == "danger"


def _told(finding: Finding) -> str:
    word = verdict_of(finding)
    judged_as = word if word == MAY_BE else f"{word}, {finding.certainty}"
    return f"{capital(fault_of(finding))} ({judged_as}): {finding.say} {finding.do}"


def _in_four_lines(parts: Iterable[str], ends: str = "") -> str:
    """The parts, each as far as it fits: of the first always a sentence."""
    told: list[str] = []
    room = _MOST - len(ends)
    for part in parts:
        if part and (not told or len(beginning(part, 0)) <= room):
            told.append(beginning(part.strip(), room))
            room -= len(told[-1]) + 1
    return " ".join([*told, ends] if ends else told)
