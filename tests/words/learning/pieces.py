"""Which pieces of a large vocabulary ship: those of our texts, single letters, the commonest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from interview.words.learned.wordpiece import CLOSING, OPENING, UNKNOWN, pieces_of

_INSIDE = "##"


def kept(vocabulary: Sequence[str], texts: Iterable[str], most: int) -> list[int]:
    """The numbers of the pieces, in their order, in which the commoner come first.

    Args:
        vocabulary: every piece by its number
        texts: all of whose pieces are kept
        most: pieces in all; those of texts and single letters are kept anyway
    """
    numbers = {piece: number for number, piece in enumerate(vocabulary)}
    said = (piece.number for text in texts for piece in pieces_of(text, numbers))
    found = {*said, *(numbers[sign] for sign in (OPENING, CLOSING, UNKNOWN))}
    plain = [n for n, piece in enumerate(vocabulary) if piece.isascii() and not _is_sign(piece)]
    found.update(n for n in plain if len(vocabulary[n].removeprefix(_INSIDE)) == 1)
    common = [n for n in plain if n not in found]
    return sorted(found.union(common[: max(0, most - len(found))]))


def _is_sign(piece: str) -> bool:
    return len(piece) > 1 and piece[0] == "["
