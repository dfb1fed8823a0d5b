"""One number as this keeper reads it, by its name: a word, or a number with its unit."""

from __future__ import annotations

import math
from fractions import Fraction

from interview.base import show
from interview.base.templates import number_and_label
from interview.vocabulary.entries import Entry, Showing
from interview.vocabulary.rounding import as_on_a_tape, step_of, to_step, two_digits
from interview.vocabulary.vocabulary import vocabulary

__all__ = ["exact_number", "fine_number", "round_number", "shown_as", "usual_number", "why_a_word"]

_NO_LAMP_BURNS = 10 * 31557600.0  # s; hours by the hundred thousand say nothing
_HOUR = 3600.0
_FAINT = 0.1
"""A UV index from here up is said to one decimal."""
_PLAIN = Entry(unit="1")


def _entry(name: str) -> Entry:
    return vocabulary().get(name, _PLAIN)


def shown_as(name: str, unit: str) -> Showing | None:
    """What a number is where its unit alone does not tell how people speak of it.

    The vocabulary says it; else the name does, as limits have no entry: `…_count` is a count,
    `…share…` a share and `uv…` a UV index.
    """
    if (own := _entry(name).shown) or unit != "1":
        return own
    if name.endswith("_count"):
        return "count"
    if "share" in name:
        return "share"
    return "uv_index" if name.startswith("uv") else None


def why_a_word(value: object, name: str) -> str:
    """Why a value is put into a word and not a number, as a clause; "" for a plain number."""
    if not isinstance(value, float) or math.isnan(value):
        return ""
    entry = _entry(name)
    if value == math.inf:
        return entry.endless.because if entry.endless else ""
    found = entry.word_for(value)
    return found.because.replace("{value}", f"{value:.3g}") if found else ""


def _word_for(value: float, name: str, *, spoken: bool) -> str:
    """The word a value of this quantity goes by; "" for a plain number."""
    entry = _entry(name)
    if value == math.inf and entry.endless:
        return entry.endless.word
    if found := entry.word_for(value, spoken=spoken):
        return found.word
    numbers = range(len(entry.named))
    return entry.named[int(value)] if value in numbers else ""


def usual_number(value: float, unit: str, system: str, name: str, *, spoken: bool = False) -> str:
    """To the digits of a table; lit hours as hours, whose sentence says that they are lit."""
    if word := _word_for(value, name, spoken=spoken):
        return word
    kind = shown_as(name, unit)
    if kind == "lit" and math.isfinite(value):
        if value == 0 and not spoken:
            return "new"
        if value > _NO_LAMP_BURNS:
            return f"{show.to_show(value, unit, system)} lit"
        return f"{float(f'{value / _HOUR:.3g}'):,.0f} {'hours' if spoken else 'lit hours'}"
    return show.to_show(value, unit, system, kind=kind)


def fine_number(value: float, unit: str, system: str, name: str, digits: int) -> str:
    """With more digits than usual, in the same unit."""
    return show.to_show(value, unit, system, kind=shown_as(name, unit), digits=digits)


def exact_number(value: float, unit: str, system: str, name: str) -> str:
    """With more digits where the usual ones would be another number."""
    usual = usual_number(value, unit, system, name)
    full = fine_number(value, unit, system, name, digits=6)
    said, meant = number_and_label(usual), number_and_label(full)
    if said is None or meant is None or said[1] != meant[1]:
        return usual
    return usual if math.isclose(_read(said[0]), _read(meant[0]), rel_tol=1e-3) else full


def _read(number: str) -> float:
    """A shown number: “18 1/2”, “1,200” or “0.28”."""
    return float(sum(Fraction(part) for part in number.replace(",", "").split()))


def round_number(value: float, unit: str, system: str, name: str) -> str:
    """As people speak of it: whole degrees, quarter inches, two digits."""
    if word := _word_for(value, name, spoken=True):
        return word
    kind = shown_as(name, unit)
    if kind == "lit" and math.isfinite(value):
        return f"{to_step(value / _HOUR, two_digits(value / _HOUR)):,.0f} hours"
    fine = usual_number(value, unit, system, name, spoken=True)
    if value == 0 or not math.isfinite(value):
        return fine
    amount, label = show.magnitude(value, unit, system, kind)
    step = step_of(abs(amount), label, unit)
    if kind == "uv_index" and amount >= _FAINT:
        step = max(step, 0.1)
    near = to_step(amount, step)
    if near == 0 and unit != "degC":
        return fine
    number = as_on_a_tape(near) if label == "in" else f"{near:.10g}"
    if unit == "s" and number == "1":
        label = {"days": "day", "weeks": "week", "months": "month", "years": "year"}.get(
            label, label
        )
    return show.with_label(number, label)
