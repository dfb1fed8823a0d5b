"""Fills the names in a sentence with values as this keeper sees them."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from interview.base import units

__all__ = [
    "NOT_ASKED",
    "STAGES",
    "STAGES_OF",
    "by_number",
    "exactly",
    "fill",
    "in_words",
    "names_in",
    "ranged",
    "rounded",
    "told_apart",
    "why_no_number",
]

NOT_ASKED = "not asked"
"""What stands for the words of an answer nobody was asked for."""

_NAME = re.compile(r"\{(\w+)\}")
_RANGE = re.compile(r"\{(\w+)\} to \{(\w+)\}")
_BY_NUMBER = re.compile(r"\[([^\[\]|]*)\|([^\[\]|]*)\]")
STAGES = ("hatchling", "juvenile", "adult")
"""The stages of life, which the core counts 0, 1 and 2."""
STAGES_OF = ("life_stage", "growth_stage")

_LIT_TIMES = ("uvb_lamp_age", "lit_time", "lamp_life")
_NO_LAMP_BURNS = 10 * 31557600.0  # s; hours by the hundred thousand say nothing
_HOUR = 3600.0
_DAY = 86400.0
_ENDLESS: Mapping[str, tuple[str, str]] = {
    "face_time": ("no limit", "there is no UV where the face is"),
    "heater_margin": ("no limit", "in that room nothing is lost"),
    "largest_fitting_length": ("no limit", "even the last row of the table fits"),
    "nitrate_peak": ("ever more", "nothing is ever changed, and the rise goes on"),
    "photokeratitis_margin": ("no limit", "no UVB reaches the shell"),
    "uv_exposure_limit": ("no limit", "there is no UV at the face"),
    "water_change_interval_needed": ("no change needed", "no nitrate is gained"),
    "water_change_share_needed": (
        "impossible",
        "the tap water itself is at the nitrate limit or over it",
    ),
}
"""What an infinite value of a quantity means, and why it is; other times are never reached."""

_NUMBER_AND_LABEL = re.compile(r"(-?(?:\d[\d.,]*(?: \d+/\d+)?|\d+/\d+))(\D*)")


def names_in(text: str) -> tuple[str, ...]:
    """The names a sentence holds in braces."""
    return tuple(_NAME.findall(text))


def by_number(text: str, several: bool) -> str:
    """The text with each [one|several] as it reads for one animal or for several."""
    return _BY_NUMBER.sub(r"\2" if several else r"\1", text)


def fill(
    text: str,
    lookup: Callable[[str], Any],
    unit_of: Callable[[str], str],
    system: str,
    stands_for: Mapping[str, str] | None = None,
    *,
    exact: bool = False,
) -> str | None:
    """The sentence with every `{name}` shown in the keeper's units; None if one is unknown.

    `stands_for` tells whose unit a short name such as `{value}` takes. Numbers are rounded
    as people speak of them, unless that would make two different ones look the same;
    `exact` keeps the digits of what somebody has typed.
    """
    meant: dict[str, tuple[Any, str, str]] = {}
    for name in names_in(text):
        value = lookup(name)
        if value is None:
            return None
        owner = (stands_for or {}).get(name, name)
        meant[name] = value, unit_of(owner), owner
    shown: dict[str, str] = {}
    for unit in {unit for _, unit, _ in meant.values()}:
        names = [name for name, row in meant.items() if row[1] == unit]
        rows = [(meant[name][0], meant[name][2]) for name in names]
        shown |= zip(names, _side_by_side(rows, unit, system, exact), strict=True)
    text = _RANGE.sub(lambda found: _unit_once(shown[found[1]], shown[found[2]]), text)
    return _NAME.sub(lambda found: shown[found[1]], text)


def told_apart(values: Sequence[Any], unit: str, system: str, name: str = "") -> list[str]:
    """Several values of one thing, rounded no further than that they can be told apart."""
    return _side_by_side([(value, name) for value in values], unit, system, False)


def _side_by_side(
    rows: Sequence[tuple[Any, str]], unit: str, system: str, exact: bool
) -> list[str]:
    """Values of one unit in one sentence: as round as keeps different ones different."""
    ways: list[Callable[[float, str], str]] = [
        lambda value, name: _usual(value, unit, system, name, spoken=True),
        lambda value, name: units.to_show(value, unit, system, kind=_kind(name, unit), digits=4),
    ]
    if not exact:
        ways.insert(0, lambda value, name: _rounded(value, unit, system, name))
    tried = [[_in_words(value, name, way) for value, name in rows] for way in ways]
    values = [value for value, _ in rows]
    return next((texts for texts in tried if not _clash(texts, values)), tried[0])


def _clash(texts: Sequence[str], values: Sequence[Any]) -> bool:
    """Whether two values that differ read the same."""
    return any(
        texts[one] == texts[two] and not _same(values[one], values[two])
        for one in range(len(texts))
        for two in range(one)
    )


def _same(one: Any, two: Any) -> bool:
    pair = [getattr(value, "tolist", lambda value=value: value)() for value in (one, two)]
    if all(isinstance(value, int | float) for value in pair):
        return math.isclose(*pair, rel_tol=1e-6, abs_tol=1e-12)
    return not any(isinstance(value, float) for value in pair)


def in_words(value: Any, unit: str, system: str, name: str = "") -> str:
    """One value in words: numbers with unit, yes/no, choices with spaces for underscores."""
    return _in_words(value, name, lambda number, _: _usual(number, unit, system, name))


def exactly(value: Any, unit: str, system: str, name: str = "") -> str:
    """One value in words, with more digits where the usual ones would be another number."""

    def show(number: float, _: str) -> str:
        usual = _usual(number, unit, system, name)
        full = units.to_show(number, unit, system, kind=_kind(name, unit), digits=6)
        said, meant = _NUMBER_AND_LABEL.fullmatch(usual), _NUMBER_AND_LABEL.fullmatch(full)
        if said is None or meant is None or said[2] != meant[2]:
            return usual
        return usual if math.isclose(_read(said[1]), _read(meant[1]), rel_tol=1e-3) else full

    return _in_words(value, name, show)


def _read(number: str) -> float:
    """A shown number: “18 1/2”, “1,200” or “0.28”."""
    return float(sum(Fraction(part) for part in number.replace(",", "").split()))


def rounded(value: Any, unit: str, system: str, name: str = "") -> str:
    """One value as people speak of it: whole degrees, quarter inches, two digits."""
    return _in_words(value, name, lambda number, _: _rounded(number, unit, system, name))


def ranged(
    low: Any, high: Any, unit: str, system: str, name: str = "", *, spoken: bool = False
) -> str:
    """A range, its unit once: “79 to 94 °F”; `spoken` rounds its ends."""
    if spoken:
        return _unit_once(*told_apart((low, high), unit, system, name))
    return _unit_once(*(in_words(value, unit, system, name) for value in (low, high)))


def _unit_once(low: str, high: str) -> str:
    ends = [_NUMBER_AND_LABEL.fullmatch(end) for end in (low, high)]
    if ends[0] and ends[1] and ends[0][2] == ends[1][2]:
        return f"{ends[0][1]} to {high}"
    return f"{low} to {high}"


def _in_words(value: Any, name: str, show: Callable[[float, str], str]) -> str:
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value.replace("_", " ")
    if isinstance(value, tuple | list):
        return ", ".join(_in_words(item, name, show) for item in value) or "none"
    if getattr(value, "ndim", 0):
        return ", ".join(_in_words(item, name, show) for item in value.ravel())
    return show(float(value), name)


def why_no_number(value: Any, name: str) -> str:
    """Why a value is put into a word and not a number, as a clause; "" for a plain number."""
    if not isinstance(value, float) or math.isnan(value):
        return ""
    if value == math.inf:
        return _ENDLESS.get(name, ("", ""))[1]
    if name == "water_change_share_needed" and value > 1:
        much = f"that is {value:.3g} times all the water, and no single change can do it"
        return f"{much}; change more often or feed less"
    if name == "water_change_interval_needed" and value <= 0:
        return "the tap water is at the nitrate limit or over it, or nothing is changed"
    return ""


def _word_for(value: float, name: str, *, spoken: bool) -> str:
    """The word a value of this quantity goes by; "" for a plain number."""
    if value == math.inf and name in _ENDLESS:
        return _ENDLESS[name][0]
    if why_no_number(value, name) and (value > 0 or not spoken):
        return "impossible"
    return STAGES[int(value)] if name in STAGES_OF and value in range(len(STAGES)) else ""


def _usual(value: float, unit: str, system: str, name: str, *, spoken: bool = False) -> str:
    """To the digits of a table; lit hours as hours, whose sentence says that they are lit."""
    if word := _word_for(value, name, spoken=spoken):
        return word
    if name in _LIT_TIMES and math.isfinite(value):
        if value == 0 and not spoken:
            return "new"
        if value > _NO_LAMP_BURNS:
            return f"{units.to_show(value, unit, system)} lit"
        return f"{float(f'{value / _HOUR:.3g}'):,.0f} {'hours' if spoken else 'lit hours'}"
    if name.startswith("outgrow_time") and value <= 0:
        return "already outgrown"
    return units.to_show(value, unit, system, kind=_kind(name, unit))


def _kind(name: str, unit: str) -> str | None:
    """What a number is where its unit alone does not tell how people speak of it."""
    if name == "evaporation_rate":
        return "water"
    if unit != "1":
        return None
    if name == "feeds_per_week":
        return "per_week"
    if name.endswith("_count"):
        return "count"
    if "share" in name or name in ("uvb_transmission", "uvb_lamp_output", "feed_protein"):
        return "share"
    return None


# ---- how people round


def _rounded(value: float, unit: str, system: str, name: str) -> str:
    if word := _word_for(value, name, spoken=True):
        return word
    if name in _LIT_TIMES and math.isfinite(value):
        return f"{_to_step(value / _HOUR, _two_digits(value / _HOUR)):,.0f} hours"
    if name == "outgrow_time" and value < _DAY:
        return "a day"
    kind = _kind(name, unit)
    fine = _usual(value, unit, system, name, spoken=True)
    if value == 0 or not math.isfinite(value):
        return fine
    amount, label = units.magnitude(value, unit, system, kind)
    step = _step(abs(amount), label, unit)
    if name.startswith("uv") and unit == "1" and not label and amount >= _FAINT:
        step = max(step, 0.1)
    near = _to_step(amount, step)
    if near == 0 and unit != "degC":
        return fine
    number = _mixed(near) if label == "in" else f"{near:.10g}"
    if unit == "s" and number == "1":
        label = {"days": "day", "weeks": "week", "months": "month", "years": "year"}.get(
            label, label
        )
    return units.with_label(number, label)


def _to_step(amount: float, step: float) -> float:
    return round(math.floor(amount / step + 0.5 + 1e-9) * step, 12)


def _mixed(amount: float) -> str:
    """Inches as on a tape measure: 7 3/4, 1/8."""
    exact = Fraction(amount)
    whole, rest = divmod(abs(exact), 1)
    sign = "-" if exact < 0 else ""
    return sign + " ".join(str(part) for part in (whole, rest) if part) if exact else "0"


_FAINT = 0.1
"""A UV index from here up is said to one decimal."""

_LADDERS: Mapping[str, tuple[tuple[float, float], ...]] = {
    "in": ((0.25, 1 / 16), (1, 1 / 8), (24, 1 / 4), (math.inf, 1)),
    "cm": ((10, 0.1), (30, 0.5), (math.inf, 1)),
    "m": ((2, 0.05), (10, 0.1), (math.inf, 1)),
    "h": ((3, 0.5), (math.inf, 1)),
    "days": ((3, 0.5), (math.inf, 1)),
    "weeks": ((math.inf, 1),),
    "months": ((6, 0.5), (math.inf, 1)),
    "min": ((math.inf, 1),),
    "V": ((math.inf, 1),),
    "°": ((math.inf, 1),),
    "W": ((1, 0.1), (100, 1), (math.inf, 5)),
    "%": ((1, 0.1), (2, 0.5), (math.inf, 1)),
}
"""For a label: up to which number, in what steps."""


def _step(amount: float, label: str, unit: str) -> float:
    if unit == "degC":
        return 1.0 if label == "°F" else 0.5
    if unit == "K":
        return 0.5 if amount < 10 else 1.0
    if unit == "1" and not label:
        return 1.0 if amount >= 20 else 0.5 if amount >= 10 else _two_digits(amount)
    for below, step in _LADDERS.get(label, ()):
        if amount < below:
            return step
    return _two_digits(amount)


def _two_digits(amount: float) -> float:
    """Steps of a twentieth or finer: 0.1 under 10, halves from 10 to 20, fives from 100 to 1000."""
    if amount == 0:
        return 1.0
    power = math.floor(math.log10(abs(amount)))
    if abs(amount) < 1:
        return 10.0 ** (power - 1)
    step = 10.0 ** (power - 1)
    return step / 2 if power >= 2 or (power == 1 and abs(amount) < 20) else step
