"""The picture of an audited tank: to scale, with what is known and what was found of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from interview.report.marks import Mark
from interview.report.naming import MAY_BE, spoken, verdict_of
from interview.report.pictures.characters.tank import tank_lines
from interview.report.pictures.scene.arranging import Look, scene_of
from interview.report.pictures.scene.notes import Teller, key_of, measures_of, notes_of
from interview.report.pictures.scene.plate import Note, Pin, Plate, place_of
from interview.report.pictures.scene.things import Scene
from interview.vocabulary.phrases import ranged
from interview.vocabulary.vocabulary import in_picture

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.audit.tank import Tank

__all__ = ["TankPicture", "tank_picture"]

_MOST_MARKS = 5
_LAMP = ("uvb_lamp_kind", "uvb_strength", "uvb_lamp_age")
_WORST = {"danger": 0, MAY_BE: 1, "wrong": 2, "close": 3}


@dataclass(frozen=True)
class TankPicture:
    """The tank from the side and, where asked for, from above."""

    plate: Plate
    from_above: bool = True
    most_lines: int | None = None
    title: str = "The tank, to scale"

    @property
    def name(self) -> str:
        """One picture is in files beside the other."""
        return "tank" if self.from_above else "tank_side"

    @property
    def words(self) -> str:
        """Everything that is written at the picture."""
        plate = self.plate
        parts = [
            *([f"the tank is {plate.outside} outside"] if plate.measures else []),
            *(note.text.replace(" · ", ", ") for note in plate.notes),
        ]
        key = f" ({'; '.join(plate.key)})" if plate.key else ""
        return f"{plate.scale}: {'; '.join(parts) or 'nothing is known yet'}.{key}"

    @property
    def brief(self) -> str:
        """Of what is written at the picture, what is marked or changes."""
        plate = self.plate
        told = [n.text for n in plate.notes if n.number or "→" in n.text]
        key = " (→ after the plan)" if any("→" in text for text in told) else ""
        size = f"{plate.scale}, {plate.outside} outside" if plate.measures else plate.scale
        return f"{size}{': ' if told else ''}{'; '.join(told)}{key}."

    def lines(self, width: int, *, plain_letters: bool = False) -> tuple[str, ...]:
        """In characters, no line longer than `width`; () below 30 columns."""
        return tank_lines(
            self.plate,
            width,
            plain_letters=plain_letters,
            from_above=self.from_above,
            most_lines=self.most_lines,
        )

    def svg(self) -> str:
        """As one SVG file."""
        from interview.report.pictures.svg.tank import tank_svg

        return tank_svg(self.plate, self.title, self.words, from_above=self.from_above)


def tank_picture(
    audit: Audit,
    after: Tank | None = None,
    marks: Sequence[Mark] | None = None,
    *,
    listed: Tank | None = None,
    from_above: bool = True,
    most_lines: int | None = None,
) -> TankPicture:
    """Draw an audited tank; whatever isn't known of it is left out.

    Args:
        audit: the tank and what was found
        after: the tank after the steps that are told, outlined too
        marks: the findings to mark, numbered as the page numbers them; the gravest five if None
        listed: the tank that a list describes; drawn in place of a planned one, without marks
        from_above: whether the view from above is drawn too
        most_lines: how many lines of characters it may take; the least telling notes give way
    """
    look = _look(listed or audit.tank)
    later = _look(after) if after else None
    scene = scene_of(look)
    wanted = {} if listed else dict(_ranges(audit))
    teller = Teller(audit.system, look, lambda name: _how(audit, name, listed), later, wanted)
    marks = _gravest(audit) if marks is None else marks
    pins = _pins(audit, scene, () if listed else marks)
    notes = _lamp_renewed(notes_of(scene, teller, pins), look, later)
    plate = Plate(
        scene,
        notes,
        pins,
        measures_of(teller),
        scene_of(later) if later else None,
        tuple(key_of(scene, notes, tuple(_told(audit, look, scene, listed, later)))),
    )
    return TankPicture(plate, from_above, most_lines)


def _look(tank: Tank) -> Look:
    def look(name: str) -> Any:
        return tank.best.get(name)

    return look


def _told(
    audit: Audit, look: Look, scene: Scene, listed: Tank | None, later: Look | None
) -> Iterator[str]:
    """Whose figures they are where nothing is measured; which lamp is to come, what is twice."""
    if later and look("uvb_lamp_kind") == "none" and later("uvb_lamp_kind") != "none":
        yield "UVB lamp to come in outline"
    if listed:
        yield "as the list has it"
    elif audit.tank.lookup("stage") == "planning":
        others = ", the rest as the list has it" if audit.tank.decided else ""
        yield f"as you decided{others}; not measured"
    elif later is None and not audit.tank.several and scene.first("basking_animal"):
        yield "one turtle, drawn twice"


def _ranges(audit: Audit) -> Iterator[tuple[str, str]]:
    """The range that is wanted of each quantity that is inside it."""
    for finding in audit.findings:
        low, high = finding.band or (None, None)
        value = finding.value
        if low is None or high is None or not isinstance(value, float) or not finding.applies:
            continue
        if low <= value <= high:
            yield finding.measures, _range(audit, finding, low, high)


def _lamp_renewed(notes: Sequence[Note], look: Look, later: Look | None) -> tuple[Note, ...]:
    """The notes; of a UVB lamp that the plan puts a new one in place of, that it is new."""
    if later is None or not any(later(name) != look(name) for name in _LAMP):
        return tuple(notes)

    def said(text: str) -> str:
        return f"{text}{', ' if '→' in text else ' → '}a new lamp"

    return tuple(replace(n, text=said(n.text)) if n.at == "uvb_lamp" else n for n in notes)


def _how(audit: Audit, name: str, listed: Tank | None) -> str:
    if listed:
        return "measured" if name in listed.best.known else "computed"
    figure = audit.figures.get(name)
    if figure:
        return figure.how
    return "assumed" if name in audit.tank.assumed else "measured"


def _gravest(audit: Audit) -> tuple[Mark, ...]:
    """The findings that want a change the most, of those that have a place in the picture."""
    placed = [f for f in audit.findings if f.applies and f.measures in in_picture()]
    judged = [(verdict_of(f), f) for f in placed]
    found = [(word, f) for word, f in judged if word in _WORST]
    found.sort(key=lambda one: (_WORST[one[0]], -one[1].weight))
    told = [one for one in found if one[0] != "close" or one[1].certainty != "open"]
    return tuple(
        Mark(number, f.check, spoken(f.check), word, f.measures)
        for number, (word, f) in enumerate(told[:_MOST_MARKS], 1)
    )


def _pins(audit: Audit, scene: Scene, marks: Sequence[Mark]) -> tuple[Pin, ...]:
    """The marks by place and number: those that share both share a pin."""
    places = in_picture()
    found: dict[tuple[int, str], Pin] = {}
    for mark in marks:
        row = places.get(mark.measures)
        if row is None or mark.verdict not in _WORST or place_of(scene, row.at) is None:
            continue
        new = Pin(mark.number, row.at, mark.word, (mark.measures,), mark.verdict, "")
        old = found.get((mark.number, row.at))
        found[mark.number, row.at] = (
            _joined(old, new) if old else replace(new, wanted=_wanted(audit, mark))
        )
    return tuple(found.values())


def _joined(one: Pin, other: Pin) -> Pin:
    worst = min(one.verdict, other.verdict, key=_WORST.__getitem__)
    called = f"{one.called}, {other.called}"
    return Pin(one.number, one.at, called, (*one.measures, *other.measures), worst)


def _wanted(audit: Audit, mark: Mark) -> str:
    """The range that is wanted, where there is one with two ends."""
    finding = next((f for f in audit.findings if f.check == mark.check), None)
    low, high = (finding and finding.band) or (None, None)
    if finding is None or low is None or high is None or low < 0:
        return ""
    return _range(audit, finding, low, high)


def _range(audit: Audit, finding: Finding, low: float, high: float) -> str:
    return ranged(low, high, finding.unit, audit.system, finding.measures, spoken=True)
