"""The learned weights: for each feature, which answers it speaks for and which against."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar, Self, TypeAlias

from interview.base.rows import Names, Row, WrongKey, read

__all__ = ["Heard", "Label", "WeightFile", "chances", "weights"]

Label: TypeAlias = tuple[str, str]
"""A question, and the choice there or what is typed behind the amount."""
_SPEAKS = 0.3
"""Weight from which a word of a clause speaks of a question."""


class Tenths:
    """What a feature adds to the answers of these numbers, in tenths: `3=12 17=-8`."""

    __slots__ = ("pairs",)

    def __init__(self, said: str) -> None:
        """Read it; ValueError for anything else."""
        pieces = (piece.split("=") for piece in said.split())
        try:
            self.pairs = tuple((int(number), int(tenths) / 10) for number, tenths in pieces)
        except ValueError:
            example = "numbers of answers and tenths, as “3=12 17=-8”"
            raise ValueError(f"“{said}” is no weight; write {example}") from None

    @classmethod
    def read(cls, said: object) -> Self:
        """What a data file says, as the reader of rows asks for it."""
        return cls(str(said))


class _Answer(Row, frozen=True, kw_only=True):
    """What can be heard: a question, - for none, and the choice or what is typed behind."""

    EXAMPLE: ClassVar[str] = "{id: tank_material, says: glass}"

    id: Annotated[str, Names("question")]
    says: str = ""


class Heard(Row, frozen=True, kw_only=True):
    """What can be heard of amounts, or of clauses, and the weights of features for it."""

    answers: tuple[_Answer, ...]
    weights: dict[str, Tenths]

    def __post_init__(self) -> None:
        numbers = (number for row in self.weights.values() for number, _ in row.pairs)
        wrong = next((one for one in numbers if not 0 <= one < len(self.answers)), None)
        if wrong is not None:
            raise WrongKey("weights", f"there is no answer {wrong}; they are counted from 0")

    def labels(self) -> list[Label]:
        """Each answer that can be heard."""
        return [(answer.id, answer.says) for answer in self.answers]

    def sums(self, features: Iterable[str]) -> Mapping[Label, float]:
        """The sum of weights of each answer; 0 of one that no feature speaks for or against."""
        found = [0.0] * len(self.answers)
        for feature in features:
            if feature in self.weights:
                for number, weight in self.weights[feature].pairs:
                    found[number] += weight
        return dict(zip(self.labels(), found, strict=True))

    def spoken_of(self, features: Iterable[str]) -> set[str]:
        """The questions that the words of a clause speak of."""
        said = (self.weights[one] for one in features if one[:2] == "W:" and one in self.weights)
        pairs = (pair for row in said for pair in row.pairs)
        return {self.answers[number].id for number, weight in pairs if weight >= _SPEAKS} - {"-"}


class WeightFile(Row, frozen=True, kw_only=True):
    """All that was learned, and from what."""

    learned_from: str
    """Digest of the texts, and of the way they were learned from."""
    amounts: Heard
    clauses: Heard


def chances(sums: Sequence[float]) -> list[float]:
    """How likely each is where one of them holds: a softmax."""
    raised = [math.exp(one - max(sums)) for one in sums]
    return [one / sum(raised) for one in raised]


@cache
def weights() -> WeightFile:
    """The shipped file; FileError for what is written wrong."""
    return read(Path(__file__).with_name("weights.yaml"), WeightFile, verbatim=True)
