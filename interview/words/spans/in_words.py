"""Amounts that are no numbers: all of the water, round the clock, a hook and a chain."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from interview.words.lexicon.files import spans
from interview.words.spans.heard import Heard

__all__ = ["amounts_in_words"]


def amounts_in_words(line: str) -> Iterator[Heard]:
    """Every such amount, in a line of `plain_letters`."""
    for form, says in _forms():
        for found in form.finditer(line):
            yield Heard(found.start(), found.end(), says)
    for found in _fixings().finditer(line):
        many = len(re.findall(_one_fixing(), found[0], re.IGNORECASE))
        yield Heard(found.start(), found.end(), {"lamp_fixings": str(many)})


@cache
def _forms() -> tuple[tuple[re.Pattern[str], dict[str, str]], ...]:
    return tuple(
        (re.compile(rf"\b(?:{'|'.join(forms)})(?!\w)", re.IGNORECASE), {question: said})
        for question, listed in spans().amounts_in_words.items()
        for said, forms in listed.items()
    )


def _one_fixing() -> str:
    return rf"\b(?:{'|'.join(spans().fixings)})\b"


@cache
def _fixings() -> re.Pattern[str]:
    article = r"(?:a|an|one|the|its|single|second|another|safety|my)[\s-]+"
    one = rf"(?:{article}(?:\w+[\s-]+){{0,2}})?{_one_fixing()}"
    named = rf"{article}(?:\w+[\s-]+){{0,2}}{_one_fixing()}"
    joined = r"(?:[\s&+]|\b(?:and|plus|with|there'?s|as well as|besides)\b)+"
    further = rf"(?:{joined}(?:\w+\s+){{0,2}}?{one}|,\s*{named})"
    return re.compile(rf"\b{one}{further}*", re.IGNORECASE)
