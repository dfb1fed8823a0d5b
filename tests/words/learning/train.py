"""Learning: the network goes over all texts some times, a little nearer to what is right each time.

By AdamW (Loshchilov and Hutter 2019, Decoupled weight decay regularization), with a step that rises
and then falls as in Devlin et al. (2019). Where several answers are right their chances add up.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence

import torch
from learning.batches import Item, Reader, mixed
from learning.net import Net
from torch import Tensor, nn

ROUNDS, AT_ONCE, SEED = 10, 8, 1
_STEP, _STEP_OF_HEADS, _DECAY, _RISING, _LEAST = 1e-4, 2e-3, 0.01, 100, 0.02
_FAR = -1e9


def learned(net: Net, reader: Reader, texts: Sequence[Item], short: Sequence[Item]) -> None:
    """Teach a network; each round is told.

    Args:
        net: is changed
        reader: of its names
        texts: each a paragraph
        short: sentences, which are put together anew in each round
    """
    torch.manual_seed(SEED)
    dice = random.Random(SEED)
    rounds = [list(_batches([*texts, *mixed(short, dice)], dice)) for _ in range(ROUNDS)]
    steps = sum(map(len, rounds))
    encoder = [values for name, values in net.named_parameters() if name[:8] == "encoder."]
    heads = [values for name, values in net.named_parameters() if name[:8] != "encoder."]
    groups = [{"params": encoder, "lr": _STEP}, {"params": heads, "lr": _STEP_OF_HEADS}]
    steepest = torch.optim.AdamW(groups, weight_decay=_DECAY)
    pace = torch.optim.lr_scheduler.LambdaLR(
        steepest, lambda n: min(1.0, n / _RISING) * max(_LEAST, 1 - n / steps)
    )
    net.train()
    for number, batches in enumerate(rounds, 1):
        lost = 0.0
        for items in batches:
            loss = _loss(net, reader, items)
            steepest.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(net.parameters(), 1.0)
            steepest.step()
            pace.step()
            lost += loss.item()
        print(f"round {number} of {ROUNDS}: {lost / len(batches):.3f}", flush=True)
    net.eval()


def _batches(items: list[Item], dice: random.Random) -> Iterator[list[Item]]:
    """Texts that are about as long beside each other, in a random order."""
    items.sort(key=lambda item: len(item.numbers) + 30 * dice.random())
    starts = list(range(0, len(items), AT_ONCE))
    dice.shuffle(starts)
    yield from (items[start : start + AT_ONCE] for start in starts)


def _loss(net: Net, reader: Reader, items: Sequence[Item]) -> Tensor:
    numbers, mask, spans = reader.batch(items)
    chosen, told, _ = net(numbers, mask, spans)
    right = torch.zeros_like(chosen, dtype=torch.bool)
    right[:, :, 0] = True
    for n, item in enumerate(items):
        for question, columns in item.right.items():
            right[n, question] = False
            right[n, question, list(columns)] = True
    lost = _surprise(chosen, right)
    every = [span for item in items for span in item.spans]
    if every:
        fit, true = (torch.zeros_like(told, dtype=torch.bool) for _ in range(2))
        for n, span in enumerate(every):
            fit[n, list(span.fit)] = True
            true[n, list(span.right)] = True
        lost = lost + _surprise(told.masked_fill(~fit, _FAR), true)
    return lost / len(items)


def _surprise(sums: Tensor, right: Tensor) -> Tensor:
    return -sums.log_softmax(-1).masked_fill(~right, _FAR).logsumexp(-1).sum()
