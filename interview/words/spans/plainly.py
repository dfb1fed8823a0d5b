"""Loosely typed sizes and rhythms in the form that their questions read.

Only where all that was typed is the size or the rhythm, and what says nothing there.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from interview.words.forms.size import Sizes
from interview.words.lexicon.files import spans
from interview.words.spans.atoms import atoms_in, told_text
from interview.words.spans.heard import plain_letters, typed
from interview.words.spans.rhythms import rhythms_in
from interview.words.spans.sides import told_sides
from interview.words.spans.sizes import trade_names_in
from interview.words.text.tokens import Text

__all__ = ["plain_rhythm", "plain_size"]

_LONGEST = 120
"""Characters of an answer."""
_DAY = r"(?:mon|tue|wed|thu|fri|sat|sun)\w*"
_TWO_MEANINGS = re.compile(rf"\bbi-?\s?(?:week|month)ly|^{_DAY} {_DAY}$", re.IGNORECASE)


def plain_size(text: str, sides: int, names: Sizes) -> str:
    """100 long, 40 broad, 50 high in cm as 100 cm x 40 cm x 50 cm; "" for what is no size."""
    told = told_text(text[:_LONGEST])
    atoms = atoms_in(told)
    for name in trade_names_in(told, atoms, names):
        if _is_all(told, *_tokens(told, name.start, name.stop)):
            return name.says["tank_size"]
    for one in told_sides(told, atoms):
        if len(one.lengths) == sides and _is_all(told, one.first, one.end):
            each = (typed(value, unit) if unit else f"{value:g}" for value, unit in one.lengths)
            return " x ".join(each)
    return ""


def plain_rhythm(text: str, question: str) -> str:
    """Mon/Wed/Fri/Sun as 4 times a week; "" for what is no rhythm, or may be two.

    It is said by the id of its question, or by its type.
    """
    told = told_text(text[:_LONGEST])
    if _TWO_MEANINGS.search(text):
        return ""
    said = {
        one.says[question]
        for one in rhythms_in(plain_letters(told.text))
        if question in one.says and _is_all(told, *_tokens(told, one.start, one.stop))
    }
    return said.pop() if len(said) == 1 else ""


def _tokens(text: Text, start: int, stop: int) -> tuple[int, int]:
    """The tokens of some characters."""
    inside = [at for at, token in enumerate(text.tokens) if start <= token.start < stop]
    return inside[0], inside[-1] + 1


def _is_all(text: Text, first: int, end: int) -> bool:
    """Whether what stands outside says nothing."""
    outside: Iterable[str] = (*text.words(0, first), *text.words(end, len(text.tokens)))
    return set(spans().edges).issuperset(outside)
