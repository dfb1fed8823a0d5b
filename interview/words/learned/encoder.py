"""A transformer encoder: a vector for each piece of a text, by all the others around it.

The encoder of Vaswani et al. (2017, Attention is all you need, sections 3.1 to 3.3), in which each
sum is normalised after it was taken, with the learned positions and the smooth step GELU of Devlin
et al. (2019, BERT). All in float32; T pieces, vectors of D numbers, H heads of D/H numbers.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import count
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

__all__ = ["Floats", "Tensors", "encoded", "gelu", "linear", "softmax"]

Floats: TypeAlias = NDArray[np.float32]
Tensors: TypeAlias = Mapping[str, Floats]
"""Weights by their names, as the network that learned them calls them; matrices are (out, in)."""
_NEXT_TO_NOTHING = np.float32(1e-12)
"""Added to a variance, as BERT does."""
_HALF = np.float32(0.5)
_ERF_RATE = np.float32(0.3275911)
_ERF_TERMS = (1.061405429, -1.453152027, 1.421413741, -0.284496736, 0.254829592)
"""Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 7.1.26: within 1.5e-7.

To load scipy's erf takes a quarter of a second, which whoever tells a story would wait for.
"""


def encoded(tensors: Tensors, numbers: Sequence[int], heads: int) -> Floats:
    """The vectors of a text (T, D).

    Args:
        tensors: `encoder.words.weight` (pieces, D), `encoder.positions.weight` (longest text, D),
            `encoder.norm`; of each layer `attention` (3 D, D), which gives queries, keys and
            values, `joined` (D, D) and `norm`, then `wide` (F, D), `narrow` (D, F), `norm_after`
        numbers: of its pieces, with those that open and close it
        heads: H
    """
    x: Floats = tensors["encoder.words.weight"][list(numbers)]
    x = _normalised(x + tensors["encoder.positions.weight"][: len(x)], tensors, "encoder.norm")
    for layer in count():
        name = f"encoder.layers.{layer}"
        if f"{name}.attention.weight" not in tensors:
            return x
        seen = _attention(linear(x, tensors, f"{name}.attention"), heads)
        x = _normalised(x + linear(seen, tensors, f"{name}.joined"), tensors, f"{name}.norm")
        wide = gelu(linear(x, tensors, f"{name}.wide"))
        x = x + linear(wide, tensors, f"{name}.narrow")
        x = _normalised(x, tensors, f"{name}.norm_after")
    raise AssertionError("a count has no end")


def linear(x: Floats, tensors: Tensors, name: str) -> Floats:
    """A matrix times each vector, and an offset: (…, in) to (…, out)."""
    found: Floats = x @ tensors[f"{name}.weight"].T + tensors[f"{name}.bias"]
    return found


def softmax(x: Floats) -> Floats:
    """Shares by the exponentials of the last axis, which add up to 1."""
    raised = np.exp(x - x.max(-1, keepdims=True))
    found: Floats = raised / raised.sum(-1, keepdims=True)
    return found


def gelu(x: Floats) -> Floats:
    """Each number times the chance that a standard normal one is less.

    With erf of |x|/√2 = 1 - tail, that is x where x is above 0, less |x| tail / 2.
    """
    size = np.abs(x)
    t = 1 / (1 + _ERF_RATE * np.sqrt(_HALF) * size)
    terms = np.full_like(t, _ERF_TERMS[0])
    for term in _ERF_TERMS[1:]:
        terms *= t
        terms += np.float32(term)
    tail: Floats = terms * t * np.exp(-_HALF * size * size)
    found: Floats = np.maximum(x, 0) - _HALF * size * tail
    return found


def _attention(x: Floats, heads: int) -> Floats:
    """What each piece takes from all: queries, keys and values (T, 3 D) to (T, D)."""
    queries, keys, values = x.reshape(len(x), 3, heads, -1).transpose(1, 2, 0, 3)
    scale = np.float32(queries.shape[-1] ** -0.5)
    shares = softmax(queries @ keys.transpose(0, 2, 1) * scale)
    found: Floats = (shares @ values).transpose(1, 0, 2).reshape(len(x), -1)
    return found


def _normalised(x: Floats, tensors: Tensors, name: str) -> Floats:
    """Each vector at mean 0 and variance 1, then stretched and moved (Ba, Kiros, Hinton 2016)."""
    x = x - x.mean(-1, keepdims=True)
    variance = np.square(x).mean(-1, keepdims=True) + _NEXT_TO_NOTHING
    found: Floats = x / np.sqrt(variance) * tensors[f"{name}.weight"] + tensors[f"{name}.bias"]
    return found
