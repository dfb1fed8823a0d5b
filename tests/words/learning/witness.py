"""What the network itself, in torch and in float32, hears in a few texts: stored for the tests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import torch
from learning.batches import Reader
from learning.examples import Example
from learning.net import Net

from interview.words.learned.readings import NONE


def witness(net: Net, reader: Reader, texts: Sequence[Example]) -> list[Mapping[str, Any]]:
    """Of each text the likeliest answer to every question that is told, and of every amount."""
    return [_heard(net, reader, one) for one in texts]


def _heard(net: Net, reader: Reader, example: Example) -> Mapping[str, Any]:
    item = reader.item(example)
    with torch.no_grad():
        chosen, told, _ = net(*reader.batch([item]))
    names = list(reader.amounts)
    amounts = []
    for (one, _), span, sums in zip(example.amounts, item.spans, told, strict=True):
        chances = sums[list(span.fit)].softmax(-1)
        best = int(chances.argmax())
        said = names[span.fit[best]], round(float(chances[best]), 4)
        amounts.append([[one.start, one.stop], list(one.says), *said])
    choices = {}
    for name, (row, columns) in reader.choices.items():
        chances = chosen[0, row, : len(columns)].softmax(-1)
        best = list(columns)[int(chances.argmax())]
        if best != NONE:
            choices[name] = [best, round(float(chances.max()), 4)]
    return {"text": example.text, "choices": choices, "amounts": amounts}
