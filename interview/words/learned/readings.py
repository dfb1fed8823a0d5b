"""How likely a text tells each choice, and each of its amounts the answer to each question.

Of each question with choices a vector looks for the pieces that tell of it (the additive pooling of
attention, as in Vaswani et al. 2017 with a learned query), and their mean decides between the
choices and none. An amount decides by the mean of its own pieces and of those around it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, pairwise
from operator import attrgetter

import numpy as np

from interview.words.learned.candidates import Candidate
from interview.words.learned.encoder import Floats, encoded, linear, softmax
from interview.words.learned.model import Model
from interview.words.learned.names import asked_by
from interview.words.learned.wordpiece import CLOSING, OPENING, Piece, pieces_of

__all__ = ["AROUND", "NONE", "Choosing", "Heard", "heard"]

NONE = ""
"""No answer to a question, or of an amount to any."""
AROUND = 8
"""Pieces on either side of an amount."""
_SHARED = 64
"""Pieces that two windows of a long text have in common."""
_START = attrgetter("start")
_KEPT = 16
"""Texts whose vectors are kept: a line of a talk is often heard again, as with another turtle."""


@dataclass(frozen=True)
class Choosing:
    """How likely each choice of a question is told, and where it was looked."""

    chances: Mapping[str, float]
    """By choice, and NONE."""
    pieces: Sequence[Piece] = ()
    """Of the text, in order."""
    shares: Sequence[float] = ()
    """How much of the looking was at each piece."""

    @property
    def most(self) -> Piece | None:
        """The piece that was looked at most."""
        return self.pieces[self.shares.index(max(self.shares))] if self.shares else None

    def share(self, start: int, stop: int) -> float:
        """How much of the looking was at these characters."""
        first, end = (bisect_left(self.pieces, at, key=_START) for at in (start, stop))
        return sum(self.shares[first:end])


@dataclass(frozen=True)
class Heard:
    """What a text tells, by question, and what each candidate is, by place in their list."""

    choices: Mapping[str, Choosing]
    amounts: tuple[Mapping[str, float], ...]
    """By question, and NONE; of each candidate."""


def heard(model: Model, text: str, candidates: Sequence[Candidate]) -> Heard:
    """Read a text once; a long one in windows, each question in the window that tells it most."""
    pieces = pieces_of(text, model.pieces)
    choices: dict[str, Choosing] = {}
    amounts: list[Mapping[str, float]] = [{NONE: 1.0} for _ in candidates]
    for first, end in _windows(len(pieces), model.longest - 2):
        window = pieces[first:end]
        vectors = _vectors(model, tuple(piece.number for piece in window))
        for question, found in _choices(model, window, vectors):
            before = choices.get(question)
            if before is None or found.chances[NONE] < before.chances[NONE]:
                choices[question] = found
        for number, candidate in enumerate(candidates):
            at = [n for n, piece in enumerate(window) if _meet(piece, candidate)]
            if at and (first == 0 or at[0] >= AROUND):
                own = slice(at[0], at[-1] + 1)
                near = slice(max(0, own.start - AROUND), own.stop + AROUND)
                means = [vectors[1:-1][part].mean(0) for part in (own, near)]
                amounts[number] = _of_amount(model, np.concatenate(means), candidate)
    return Heard(choices, tuple(amounts))


def _windows(pieces: int, longest: int) -> Iterator[tuple[int, int]]:
    for first in range(0, max(1, pieces - _SHARED), longest - _SHARED):
        yield first, min(pieces, first + longest)


@lru_cache(_KEPT)
def _vectors(model: Model, pieces: tuple[int, ...]) -> Floats:
    numbers = model.pieces[OPENING], *pieces, model.pieces[CLOSING]
    return encoded(model.tensors, numbers, model.about.heads)


def _meet(piece: Piece, candidate: Candidate) -> bool:
    return piece.start < candidate.stop and candidate.start < piece.stop


def _choices(
    model: Model, window: Sequence[Piece], vectors: Floats
) -> Iterator[tuple[str, Choosing]]:
    tensors, about = model.tensors, model.about
    looks = softmax(tensors["look"] @ vectors.T)
    seen = looks @ vectors
    ends = accumulate((len(names) + 1 for names in about.choices.values()), initial=0)
    rows = zip(about.choices.items(), pairwise(ends), looks[:, 1:-1], seen, strict=True)
    for (question, names), (first, end), shares, mean in rows:
        sums = tensors["choices.weight"][first:end] @ mean + tensors["choices.bias"][first:end]
        chances = dict(zip((NONE, *names), softmax(sums).tolist(), strict=True))
        yield question, Choosing(chances, window, shares.tolist())


def _of_amount(model: Model, vector: Floats, candidate: Candidate) -> Mapping[str, float]:
    names = (NONE, *model.about.amounts)
    says = {NONE, *candidate.says}
    fit = [n for n, name in enumerate(names) if asked_by(name)[0] in says]
    chances = softmax(linear(vector, model.tensors, "amounts")[fit])
    return dict(zip((names[n] for n in fit), chances.tolist(), strict=True))
