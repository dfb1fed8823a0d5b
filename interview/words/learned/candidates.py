"""Every amount of a told text, with what it would be at each question that it may answer.

A reader chooses which question, or none; so what is too many costs nothing, and of what is denied,
wished for or another tank's nothing is left out here.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from interview.words.forms.size import Sizes
from interview.words.lexicon.files import spans
from interview.words.spans.atoms import atoms_in, told_text
from interview.words.spans.clocks import clocks_in
from interview.words.spans.heard import Heard, plain_letters
from interview.words.spans.in_words import amounts_in_words
from interview.words.spans.pairs import pairs_in
from interview.words.spans.rhythms import rhythms_in
from interview.words.spans.sizes import sizes_in
from interview.words.spans.told_amounts import amounts_in
from interview.words.spans.units import Scales

__all__ = ["WATER_DEPTH", "Candidate", "candidates"]

WATER_DEPTH = "water_depth"
"""How deep the water is, which no question asks."""

_LONGEST = 5000
"""Characters that are read."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """The words of an amount, and what they say at each question they could answer."""

    start: int
    stop: int
    says: Mapping[str, str]
    """By question's id, as it would be typed there; `water_depth` for how deep the water is."""


def candidates(
    text: str,
    asked: Mapping[str, str],
    *,
    region: str = "",
    sizes: Sizes | None = None,
) -> list[Candidate]:
    """The amounts of a told text, in order; `asked` has the type of each possible question."""
    told = told_text(text[:_LONGEST])
    atoms = atoms_in(told)
    scales = Scales(told, atoms, region)
    line = plain_letters(told.text)
    heard = (
        *sizes_in(told, atoms, scales, sizes or {}),
        *rhythms_in(line),
        *clocks_in(line),
        *amounts_in_words(line),
        *amounts_in(told, atoms, scales),
        *pairs_in(told, atoms, scales),
    )
    return list(_merged(line, heard, {**asked, WATER_DEPTH: WATER_DEPTH}))


def _merged(line: str, heard: Iterable[Heard], asked: Mapping[str, str]) -> Iterator[Candidate]:
    """One candidate for the same words; what was heard first says it."""
    by_span: dict[tuple[int, int], dict[str, str]] = defaultdict(dict)
    for one in heard:
        says = by_span[one.start, one.stop]
        for name, kind in asked.items():
            said = one.says.get(name) or one.says.get(kind)
            if said and name not in says:
                says[name] = said
    for (start, stop), says in sorted(by_span.items()):
        if says and not _stands_for_a_thing(line, start, stop):
            yield Candidate(start, stop, says)


def _stands_for_a_thing(line: str, start: int, stop: int) -> bool:
    """Whether it is no number: the big one."""
    before = line[:start].casefold().split()[-1:]
    is_one = line[start:stop].casefold() == "one"
    return is_one and any(word in spans().stood_for for word in before)
