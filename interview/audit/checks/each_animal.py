"""Several animals, each judged by limits of its own: the worst-judged one is told by name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from interview.audit.animal import Animal
from interview.audit.checks.findings import Finding, OfAnimal
from interview.audit.tank import Tank
from interview.vocabulary.phrases import rounded

__all__ = ["worst"]

_Found = tuple[Animal, Finding]
_ORDER = ("good", "unmeasured", "close", "wrong", "danger")


def worst(found: Sequence[_Found], tank: Tank) -> Finding:
    """The finding of the animal that fares worst, with its name and what the others got.

    Where all fare alike nobody is named. Bands that exclude each other are told.
    """
    animal, finding = max(found, key=lambda pair: _gravity(pair[1]))
    if all(_alike(other, finding) for _, other in found):
        return finding
    each = tuple(OfAnimal(a, f.verdict, f.certainty, f.value, f.band) for a, f in found)
    if finding.verdict == "good":
        lead = f"Suits every animal. For the {animal.name}:"
    else:
        lead = f"For the {animal.name}:"
    said = f"{lead} {_going_on(finding.say)}"
    if finding.verdict not in ("good", "unmeasured") and (clash := _clash(found, tank)):
        said = f"{said} {clash}"
    return replace(finding, say=said, animal=animal, each=each)


def _gravity(finding: Finding) -> tuple[float, ...]:
    """What does not apply comes last; then the verdict, the chance of danger, how surely."""
    chance = 1.0 if finding.chance is None else finding.chance
    failed = chance if finding.verdict in ("wrong", "danger") else 1.0 - chance
    return finding.applies, _ORDER.index(finding.verdict), finding.warning, failed


def _alike(one: Finding, other: Finding) -> bool:
    """Whether two animals got the same: the words then hold for both."""
    return (one.verdict, one.say, one.applies) == (other.verdict, other.say, other.applies)


def _going_on(say: str) -> str:
    """A sentence after a colon; abbreviations and names of one letter keep their capitals."""
    return say[:1].lower() + say[1:] if say[1:2].islower() or say.startswith("A ") else say


def _clash(found: Sequence[_Found], tank: Tank) -> str:
    """Two animals whose bands lie furthest apart; "" where all bands meet."""
    lows = [(f.band[0], a) for a, f in found if f.band and f.band[0] is not None]
    highs = [(f.band[1], a) for a, f in found if f.band and f.band[1] is not None]
    if not lows or not highs:
        return ""
    low, warm = max(lows, key=lambda pair: pair[0])
    high, cool = min(highs, key=lambda pair: pair[0])
    if low <= high:
        return ""
    finding = found[0][1]

    def shown(value: float) -> str:
        return rounded(value, finding.unit, tank.system, finding.measures)

    return (
        f"The {warm.name} wants at least {shown(low)}, the {cool.name} at most {shown(high)}: "
        "no one setting suits both."
    )
