"""Learning: the network goes over all texts some times, a little nearer to what is right each time.

By AdamW (Loshchilov and Hutter 2019, Decoupled weight decay regularization), with a step that rises
and then falls as in Devlin et al. (2019). Where several answers are right their chances add up.
Some pieces are hidden each time (word dropout, Iyyer et al. 2015, Deep unordered composition rivals
syntactic methods), as a network that saw the same text often goes by its words, not its sense.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import torch
from learning.batches import Item, Reader, mixed
from learning.net import Net
from torch import Tensor, nn

from interview.words.learned.wordpiece import UNKNOWN

AT_ONCE = 8
_OF_HEADS, _DECAY, _RISING, _LEAST = 20, 0.01, 100, 0.02
_FAR = -1e9
_HIDDEN = 0.1
"""Share of a text's pieces (assumption)."""


@dataclass(frozen=True)
class Course:
    """How long a network is taught, how large its steps are, and what its order is drawn by."""

    rounds: int
    order: int
    step: float = 1e-4


def learned(
    net: Net, reader: Reader, texts: Sequence[Item], short: Sequence[Item], course: Course
) -> None:
    """Teach a network; each round is told.

    Args:
        net: is changed
        reader: of its names
        texts: each a paragraph, or an answer
        short: sentences, which are put together anew in each round
        course: how
    """
    torch.manual_seed(course.order)
    dice = random.Random(course.order)
    rounds = [list(_batches([*texts, *mixed(short, dice)], dice)) for _ in range(course.rounds)]
    steps = sum(map(len, rounds))
    encoder = [values for name, values in net.named_parameters() if name[:8] == "encoder."]
    heads = [values for name, values in net.named_parameters() if name[:8] != "encoder."]
    groups = [
        {"params": encoder, "lr": course.step},
        {"params": heads, "lr": _OF_HEADS * course.step},
    ]
    steepest = torch.optim.AdamW(groups, weight_decay=_DECAY, fused=True)
    pace = torch.optim.lr_scheduler.LambdaLR(
        steepest, lambda n: min(1.0, n / _RISING) * max(_LEAST, 1 - n / steps)
    )
    net.train()
    for number, batches in enumerate(rounds, 1):
        lost = 0.0
        for items in batches:
            with torch.autocast("cpu", torch.bfloat16):  # half the time where a processor knows it
                loss = _loss(net, reader, items)
            steepest.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(net.parameters(), 1.0)
            steepest.step()
            pace.step()
            lost += loss.item()
        print(f"order {course.order}, round {number}: {lost / len(batches):.3f}", flush=True)
    net.eval()


def _batches(items: list[Item], dice: random.Random) -> Iterator[list[Item]]:
    """Texts that are about as long beside each other, in a random order."""
    items.sort(key=lambda item: len(item.numbers) + 30 * dice.random())
    starts = list(range(0, len(items), AT_ONCE))
    dice.shuffle(starts)
    yield from (items[start : start + AT_ONCE] for start in starts)


def _loss(net: Net, reader: Reader, items: Sequence[Item]) -> Tensor:
    numbers, mask, spans = reader.batch(items)
    hidden = mask & (torch.rand(numbers.shape) < _HIDDEN)
    hidden[:, 0] = False  # what opens it
    numbers = numbers.masked_fill(hidden, reader.known[UNKNOWN])
    chosen, told, _ = net(numbers, mask, spans)
    right = torch.zeros_like(chosen, dtype=torch.bool)
    right[:, :, 0] = True
    for n, item in enumerate(items):
        for question, columns in item.right.items():
            right[n, question] = False
            right[n, question, list(columns)] = True
    lost = _surprise(chosen, right)[_known(items, chosen.shape[1])].sum()
    every = [span for item in items for span in item.spans]
    if every:
        fit, true = (torch.zeros_like(told, dtype=torch.bool) for _ in range(2))
        for n, span in enumerate(every):
            fit[n, list(span.fit)] = True
            true[n, list(span.right)] = True
        lost = lost + _surprise(told.masked_fill(~fit, _FAR), true).sum()
    return lost / len(items)


def _known(items: Sequence[Item], questions: int) -> Tensor:
    """Which questions each text is held to (texts, questions)."""
    known = torch.zeros(len(items), questions, dtype=torch.bool)
    for n, item in enumerate(items):
        known[n, list(item.held_to)] = True
    return known


def _surprise(sums: Tensor, right: Tensor) -> Tensor:
    return -sums.float().log_softmax(-1).masked_fill(~right, _FAR).logsumexp(-1)
