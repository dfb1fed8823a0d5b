"""What is written at a tank: the vocabulary's notes, filled in, each number saying what it is.

A plain number was measured or chosen, “= 34 °C” is worked out, “5 cm?” is assumed until somebody
looks, and “→ 26 cm” is how it would be after the plan.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from interview.base.show import magnitude, with_label
from interview.base.templates import filled_in, names_in
from interview.report.pictures.scene.arranging import Look, number_of
from interview.report.pictures.scene.plate import Note, Pin, place_of
from interview.report.pictures.scene.things import Scene
from interview.vocabulary.phrases import rounded
from interview.vocabulary.rounding import to_step
from interview.vocabulary.vocabulary import in_picture, vocabulary

__all__ = ["Teller", "key_of", "measures_of", "notes_of"]

_VERDICTS = {"close": "a little off"}
MEASURES = ("length", "width", "height")
"""Places that are measures of the tank, not things in it."""


@dataclass(frozen=True)
class Teller:
    """How values are told: their keeper's units, how each was got, the values after a plan."""

    system: str
    look: Look
    how_of: Callable[[str], str]
    after: Look | None = None
    wanted: Mapping[str, str] = field(default_factory=dict)
    """The range that is wanted of what is good, by name."""

    def amount(self, name: str) -> str:
        """One value with the sign of how it was got; "" for what there is nothing to say of."""
        said = self._said(self.look(name), name)
        if not said:
            return ""
        how = self.how_of(name)
        return f"= {said}" if how == "computed" else f"{said}?" if how == "assumed" else said

    def changed(self, name: str) -> str:
        """The value after the plan; "" where it stays what it is."""
        after = self.after(name) if self.after else None
        said = self._said(after, name)
        return "" if said == self._said(self.look(name), name) else said

    def _said(self, value: Any, name: str) -> str:
        if isinstance(value, str):
            return "" if value == "none" else value.replace("_", " ")
        try:
            number = float(value)
        except (TypeError, ValueError):
            return ""
        entry = vocabulary()[name]
        if not math.isfinite(number) or (number < 0 and entry.unit != "degC"):
            return ""
        nothing = {"m": 1e-4, "m**3": 1e-6}.get(entry.unit, 0.0)  # what sums leave over
        return rounded(
            0.0 if number < nothing and nothing else number, entry.unit, self.system, name
        )


def notes_of(scene: Scene, teller: Teller, pins: Sequence[Pin] = ()) -> tuple[Note, ...]:
    """The notes of what is drawn, from the top down, and of every finding that is pinned in it.

    A finding joins the note that tells what it measures; else it has one of its own.
    """
    found: list[tuple[float, Note]] = []
    left = list(pins)
    for row in in_picture().values():
        place = None if row.at in MEASURES else place_of(scene, row.at)
        text = _filled(row.say, teller) if row.say and place else ""
        if text and place:
            names = names_in(row.say)
            pin = next((one for one in left if set(one.measures) & set(names)), None)
            good = [teller.wanted[name] for name in names if name in teller.wanted]
            if good and pin is None and "→" not in text:
                text = f"{text} ({good[0]} wanted)"
            found.append((place[1], _pinned(Note(row.at, text), pin)))
            left = [one for one in left if one is not pin]
    for pin in left:
        if place := place_of(scene, pin.at):
            found.append((place[1], _pinned(Note(pin.at, pin.called), pin)))
    return tuple(note for _, note in sorted(found, key=lambda pair: -pair[0]))


def _pinned(note: Note, pin: Pin | None) -> Note:
    if pin is None:
        return note
    said = _VERDICTS.get(pin.verdict, pin.verdict)
    verdict = f"{said}, {pin.wanted} wanted" if pin.wanted else said
    now, arrow, after = note.text.partition(" → ")
    return Note(note.at, f"{now} ({verdict}){arrow}{after}", pin.number)


def _filled(say: str, teller: Teller) -> str:
    names = names_in(say)
    shown = {name: teller.amount(name) for name in names}
    if not all(shown.values()):
        return ""
    later = [text for text in map(teller.changed, names) if text]
    return filled_in(say, shown) + (f" → {', '.join(later)}" if later else "")


def measures_of(teller: Teller) -> Mapping[str, str]:
    """Length, width and height of the tank in words, as far as they are known, in one unit."""
    found: dict[str, float] = {}
    for row in in_picture().values():
        for name in names_in(row.say) if row.at in MEASURES else ():
            value = number_of(teller.look, name)
            if value is not None and value > 0:
                found[row.at] = value
    if not found:
        return {}
    least = min(found.values())
    amount, label = magnitude(least, "m", teller.system)
    each = {at: to_step(value * amount / least, 0.5) for at, value in found.items()}
    return {at: with_label(f"{value:g}", label) for at, value in each.items()}


def key_of(scene: Scene, notes: tuple[Note, ...], told: Sequence[str] = ()) -> Iterator[str]:
    """What the signs mean, as far as they are used; and what was guessed to draw at all.

    `told` is said besides, as whose figures they are where nothing is measured.
    """
    written = " ".join(note.text for note in notes)
    signs = {"=": "= worked out", "?": "? assumed", "→": "→ after the plan"}
    used = [meaning for sign, meaning in signs.items() if sign in written]
    used = [*told, *used]
    if used:
        yield "; ".join(used)
    if "water_line_below_rim" in scene.guessed:
        yield "water line not known"
    unknown = {n.partition("_")[2] for n in scene.guessed if n.startswith("tank_")}
    if unknown:
        yield f"{', '.join(m for m in MEASURES if m in unknown)} of the tank not known"
