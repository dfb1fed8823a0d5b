"""Temperatures told by their ten: low 80s, mid 90s F, upper seventies."""

from __future__ import annotations

import re

from interview.base.units import convert
from interview.words.amounts.hedges import Spread
from interview.words.amounts.ranges import Measured
from interview.words.text.refusal import NotUnderstood, quoted

__all__ = ["read_decade"]

_TENS = {
    **dict.fromkeys(("twenties",), 20),
    **dict.fromkeys(("thirties",), 30),
    **dict.fromkeys(("sixties",), 60),
    **dict.fromkeys(("seventies",), 70),
    **dict.fromkeys(("eighties",), 80),
    **dict.fromkeys(("nineties",), 90),
    **dict.fromkeys(("hundreds",), 100),
}
_PARTS = {"low": (0, 3), "mid": (4, 6), "high": (7, 9), "": (0, 9)}
_SAME = {"lower": "low", "middle": "mid", "upper": "high"}
_WORD = r"low(?:er)?|mid(?:dle)?|high|upper"
_DECADE = re.compile(
    rf"^(?:in )?(?:the )?(?:(?P<first>{_WORD})[ -]?(?:(?:to|or|-)[ -]?(?P<last>{_WORD})[ -]?)?)?"
    rf"(?:(?P<tens>[1-9]?\d0) ?'?s|(?P<word>{'|'.join(_TENS)}))"
    r" ?(?:°|deg(?:ree)?s?)? ?(?P<scale>[cf]|celsius|fahrenheit)?$",
    re.IGNORECASE,
)
_ONLY_FAHRENHEIT = 60
"""From here up no tank, lamp or room is meant in °C."""


def read_decade(text: str) -> Measured | None:
    """A ten of degrees, or its low, middle or high part; None for other words.

    Raises:
        NotUnderstood: where the scale is left open and both can be meant.
    """
    found = _DECADE.match(" ".join(text.split()))
    if found is None:
        return None
    tens = int(found["tens"]) if found["tens"] else _TENS[found["word"].casefold()]
    scale = (found["scale"] or "")[:1].casefold()
    if not scale and tens < _ONLY_FAHRENHEIT:
        forms = f'"{text.strip()} C" or "{text.strip()} F"'
        raise NotUnderstood(quoted(text), "not whether °C or °F is meant", forms)
    parts = [_part(found["first"]), _part(found["last"] or found["first"])]
    unit = "degC" if scale == "c" else "degF"
    low, high = tens + parts[0][0], tens + parts[1][1]
    ends = [convert(float(end), unit, "degC") for end in (low, high)]
    shown = f"I took {quoted(text)} as {low} to {high} °{'C' if unit == 'degC' else 'F'}."
    return Measured(Spread(ends[0], sum(ends) / 2, ends[1]), unit, (shown,))


def _part(word: str | None) -> tuple[int, int]:
    folded = (word or "").casefold()
    return _PARTS[_SAME.get(folded, folded)]
