"""Texts as numbers, put together so that a network learns several at once."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import torch
from learning.examples import Example
from learning.pack import LONGEST
from torch import Tensor

from interview.words.learned.names import asked_by
from interview.words.learned.readings import AROUND, NONE
from interview.words.learned.wordpiece import CLOSING, OPENING, pieces_of


@dataclass(frozen=True)
class Span:
    """An amount by its pieces, the rows that it may be, and those that are right."""

    first: int
    end: int
    fit: Sequence[int]
    right: Sequence[int]


@dataclass(frozen=True)
class Item:
    """A text by its pieces, without those that open and close it."""

    numbers: Sequence[int]
    spans: Sequence[Span]
    right: Mapping[int, Sequence[int]]
    """Of each question that is told the columns that are right; of the others the first is."""
    held_to: frozenset[int]
    """The questions of which all is known that it tells."""

    def fits(self, other: Item) -> bool:
        """Whether what the two tell can be told of one tank, each question by one of them."""
        both = self.right.keys() & other.right.keys()
        pairs = ((set(self.right[one]), set(other.right[one])) for one in both)
        return all(0 in one | more and (one <= more or more <= one) for one, more in pairs)

    def __add__(self, other: Item) -> Item:
        """The two texts one behind the other; what is told goes before what only may be."""
        by = len(self.numbers)
        moved = [Span(one.first + by, one.end + by, one.fit, one.right) for one in other.spans]
        right = {**self.right, **other.right}
        for question in self.right.keys() & other.right.keys():
            right[question] = min(self.right[question], other.right[question], key=len)
        both = self.held_to & other.held_to
        return Item([*self.numbers, *other.numbers], [*self.spans, *moved], right, both)


class Reader:
    """What turns an example into an item, by the names of all that can be heard."""

    def __init__(
        self,
        pieces: Sequence[str],
        choices: Mapping[str, Sequence[str]],
        amounts: Sequence[str],
    ) -> None:
        self.known = {piece: number for number, piece in enumerate(pieces)}
        self.choices = {
            name: (n, {choice: k for k, choice in enumerate((NONE, *names))})
            for n, (name, names) in enumerate(choices.items())
        }
        self.amounts = {name: n for n, name in enumerate((NONE, *amounts))}

    def item(self, example: Example) -> Item:
        pieces = pieces_of(example.text, self.known)[: LONGEST - 2]
        spans = []
        for candidate, right in example.amounts:
            at = [
                n
                for n, one in enumerate(pieces)
                if one.start < candidate.stop and candidate.start < one.stop
            ]
            if at:
                says = {NONE, *candidate.says}
                fit = [n for name, n in self.amounts.items() if asked_by(name)[0] in says]
                wanted = [self.amounts[name] for name in right]
                spans.append(Span(at[0], at[-1] + 1, fit, wanted))
        rows = {
            self.choices[name][0]: [self.choices[name][1][choice] for choice in right]
            for name, right in example.choices.items()
        }
        held_to = frozenset(self.choices[name][0] for name in example.held_to)
        return Item([one.number for one in pieces], spans, rows, held_to)

    def batch(self, items: Sequence[Item]) -> tuple[Tensor, Tensor, list[tuple[int, ...]]]:
        """Numbers and mask (texts, pieces), and spans as the network takes them."""
        longest = max(len(item.numbers) for item in items) + 2
        numbers = torch.zeros(len(items), longest, dtype=torch.long)
        mask = torch.zeros(len(items), longest, dtype=torch.bool)
        spans = []
        for n, item in enumerate(items):
            whole = [self.known[OPENING], *item.numbers, self.known[CLOSING]]
            numbers[n, : len(whole)] = torch.tensor(whole)
            mask[n, : len(whole)] = True
            for one in item.spans:
                left = max(1, one.first + 1 - AROUND)
                right = min(len(whole) - 1, one.end + 1 + AROUND)
                spans.append((n, one.first + 1, one.end + 1, left, right))
        return numbers, mask, spans


def mixed(short: Sequence[Item], dice: random.Random) -> Iterator[Item]:
    """Short texts in an order of their own, one to seven in a row that tell different questions."""
    pool = list(short)
    dice.shuffle(pool)
    while pool:
        wanted, left = dice.choice((1, 3, 5, 6, 7)), list[Item]()
        whole = pool.pop()
        for _ in range(min(len(pool), 8 * wanted)):
            if wanted == 1:
                break
            other = pool.pop()
            if whole.fits(other):
                whole, wanted = whole + other, wanted - 1
            else:
                left.append(other)
        pool += left[::-1]
        yield whole
