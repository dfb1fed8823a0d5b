"""What a nearly spelled word or name is meant for: one measure and one cut-off everywhere."""

from __future__ import annotations

from collections.abc import Collection, Iterable

__all__ = ["nearest", "slip_of"]

_ALIKE = 72
"""Percent of the letters of both that stand in the same order in each (the indel ratio)."""
_WHOLE = 4
"""Letters from which a longer name is compared by its beginning: people leave ends out."""
_LONG_WORD = 9
"""Letters from which a word may have two slips."""


def nearest(text: str, names: Iterable[str], most: int = 3) -> list[str]:
    """The names that look like a text, most alike first; none where none does."""
    from rapidfuzz import fuzz, process

    wanted = text.casefold()
    ends = len(wanted) + 1

    def compared(name: str) -> str:
        cut = len(wanted) >= _WHOLE and len(name) > ends + 1
        return name[:ends].casefold() if cut else name.casefold()

    starts = {name: compared(name) for name in names}
    found = process.extract(wanted, starts, scorer=fuzz.ratio, score_cutoff=_ALIKE, limit=most)
    return [name for _, _, name in found]


def slip_of(word: str, known: Collection[str]) -> str:
    """The one known word that a slip of the finger makes this; "" where none or several are.

    A slip is a letter left out, added, changed or swapped with its neighbour, never the first.
    """
    from rapidfuzz import fuzz, process
    from rapidfuzz.distance import OSA

    slips = 1 + (len(word) >= _LONG_WORD)
    near = process.extract(word, known, scorer=OSA.distance, score_cutoff=slips, limit=6)
    alike = sorted(
        (far, -fuzz.ratio(word, name), name) for name, far, _ in near if name[0] == word[0]
    )
    sure = len(alike) == 1 or (alike and alike[0][:2] != alike[1][:2])
    return str(alike[0][2]) if sure and -alike[0][1] >= _ALIKE else ""
