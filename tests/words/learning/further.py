"""The network that ships, to go on learning from: with rows for what it could not hear before."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate, pairwise

import numpy as np
import torch
from learning.net import Encoder, Net
from torch import Tensor

from interview.words.learned.model import Model
from interview.words.learned.names import asked_by
from interview.words.learned.readings import NONE


def further(
    shipped: Model, layers: int, choices: Mapping[str, Sequence[str]], amounts: Sequence[str]
) -> Net:
    """A network for these questions.

    What is new of another turtle begins as that of the first, all else with small random numbers.
    """
    net = Net(
        Encoder(len(shipped.pieces), layers=layers, longest=shipped.longest), choices, amounts
    )
    known = {name: torch.from_numpy(np.array(rows)) for name, rows in shipped.tensors.items()}
    state = net.state_dict()
    state.update({name: rows for name, rows in known.items() if name[:8] == "encoder."})
    told = shipped.about.choices
    ends = accumulate((len(names) + 1 for names in told.values()), initial=0)
    at = dict(zip(told, zip(range(len(told)), pairwise(ends), strict=True), strict=True))
    for new, (name, names) in enumerate(choices.items()):
        old = name if name in told else asked_by(name)[0]
        if tuple(told.get(old, ())) == tuple(names):
            row, (first, end) = at[old]
            state["look"][new] = known["look"][row]
            state["choices"][new, : end - first] = known["choices.weight"][first:end]
            state["choices_bias"][new, : end - first] = known["choices.bias"][first:end]
    rows = {name: n for n, name in enumerate((NONE, *shipped.about.amounts))}
    for new, name in enumerate((NONE, *amounts)):
        row_of = rows.get(name, rows.get(asked_by(name)[0]))
        if row_of is not None:
            _copy(state, known, new, row_of)
    net.load_state_dict(state)
    return net


def _copy(state: Mapping[str, Tensor], known: Mapping[str, Tensor], new: int, old: int) -> None:
    for name in ("amounts.weight", "amounts.bias"):
        state[name][new] = known[name][old]
