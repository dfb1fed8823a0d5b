"""The network that hears a told paragraph, as it is learned: the encoder and what is read off it.

The same sums as `interview/words/learned/`, in torch, with what only learning needs: batches,
dropout and slopes. B texts, T pieces, D = 384, Q questions with choices, N choices and none.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import torch
from torch import Tensor, nn
from torch.nn import functional

HEADS, DROPOUT, EPSILON = 12, 0.1, 1e-12
_FAR = -1e9


class Layer(nn.Module):
    """Attention, then a wide layer between two narrow ones; each is added and normalised."""

    def __init__(self, size: int, heads: int, wide: int) -> None:
        super().__init__()
        self.heads = heads
        self.attention, self.joined = nn.Linear(size, 3 * size), nn.Linear(size, size)
        self.wide, self.narrow = nn.Linear(size, wide), nn.Linear(wide, size)
        self.norm = nn.LayerNorm(size, eps=EPSILON)
        self.norm_after = nn.LayerNorm(size, eps=EPSILON)
        self.drop = nn.Dropout(DROPOUT)

    def forward(self, x: Tensor, mask: Tensor) -> Tensor:
        parts = self.attention(x).chunk(3, -1)
        q, k, v = (part.unflatten(-1, (self.heads, -1)).transpose(1, 2) for part in parts)
        near = (q @ k.transpose(-1, -2) * q.shape[-1] ** -0.5).masked_fill(
            ~mask[:, None, None], _FAR
        )
        seen = near.softmax(-1).to(v.dtype) @ v  # here twice as fast as torch's own attention
        x = self.norm(x + self.drop(self.joined(seen.transpose(1, 2).flatten(2))))
        return self.norm_after(x + self.drop(self.narrow(functional.gelu(self.wide(x)))))


class Encoder(nn.Module):
    """Vectors (B, T, D) of texts."""

    def __init__(
        self,
        pieces: int,
        *,
        layers: int = 6,
        size: int = 384,
        heads: int = HEADS,
        longest: int = 512,
    ) -> None:
        super().__init__()
        self.words, self.positions = nn.Embedding(pieces, size), nn.Embedding(longest, size)
        self.norm = nn.LayerNorm(size, eps=EPSILON)
        self.layers = nn.ModuleList(Layer(size, heads, 4 * size) for _ in range(layers))
        self.drop = nn.Dropout(DROPOUT)

    def forward(self, numbers: Tensor, mask: Tensor) -> Tensor:
        positions = self.positions.weight[: numbers.shape[1]]
        x = self.drop(self.norm(self.words(numbers) + positions))
        for layer in self.layers:
            x = layer(x, mask)
        return x


class Net(nn.Module):
    """Choices (B, Q, N + 1), amounts (spans, questions + 1) and what was looked at (B, Q, T)."""

    def __init__(
        self, encoder: Encoder, choices: Mapping[str, Sequence[str]], amounts: Sequence[str]
    ) -> None:
        super().__init__()
        self.encoder = encoder
        size, most = encoder.words.embedding_dim, max(map(len, choices.values())) + 1
        self.look = nn.Parameter(torch.randn(len(choices), size) * 0.05)
        self.choices = nn.Parameter(torch.randn(len(choices), most, size) * 0.02)
        self.choices_bias = nn.Parameter(torch.zeros(len(choices), most))
        self.choices_bias.data[:, 0] = 2.0  # most is not told
        there = [[n <= len(row) for n in range(most)] for row in choices.values()]
        self.register_buffer("there", torch.tensor(there), persistent=False)
        self.amounts = nn.Linear(2 * size, len(amounts) + 1)

    def forward(
        self, numbers: Tensor, mask: Tensor, spans: Sequence[tuple[int, int, int, int, int]]
    ) -> tuple[Tensor, Tensor, Tensor]:
        """Spans are of a text, from piece to piece, and those around it."""
        x = self.encoder(numbers, mask)
        looks = torch.einsum("btd,qd->bqt", x, self.look)
        looks = looks.masked_fill(~mask[:, None, :], _FAR).softmax(-1)
        seen = torch.einsum("bqt,btd->bqd", looks, x)
        chosen = torch.einsum("bqd,qnd->bqn", seen, self.choices) + self.choices_bias
        chosen = chosen.masked_fill(~self.there, _FAR)
        means = [
            torch.cat([x[text, first:end].mean(0), x[text, left:right].mean(0)])
            for text, first, end, left, right in spans
        ]
        told = self.amounts(torch.stack(means)) if means else x.new_zeros(0, 1)
        return chosen, told, looks
