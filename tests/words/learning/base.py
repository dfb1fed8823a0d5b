"""The small encoder that somebody else trained on much text, from which learning starts."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import torch
from learning.net import Encoder
from safetensors.torch import load_file

_NAMES = {
    "joined": "attention.output.dense",
    "norm": "attention.output.LayerNorm",
    "wide": "intermediate.dense",
    "narrow": "output.dense",
    "norm_after": "output.LayerNorm",
}


def vocabulary(folder: Path) -> list[str]:
    """Every piece, the commoner before the rarer."""
    return (folder / "vocab.txt").read_text("utf-8").rstrip("\n").split("\n")


def encoder(folder: Path, numbers: Sequence[int], layers: int) -> Encoder:
    """Its first layers, for these pieces of its vocabulary."""
    found = Encoder(len(numbers), layers=layers)
    saved = load_file(folder / "model.safetensors")
    rows = {name.removeprefix("bert."): values for name, values in saved.items()}
    kind = rows["embeddings.token_type_embeddings.weight"][0]
    state = {
        "words.weight": rows["embeddings.word_embeddings.weight"][list(numbers)],
        "positions.weight": rows["embeddings.position_embeddings.weight"] + kind,
    }
    for what in ("weight", "bias"):
        state[f"norm.{what}"] = rows[f"embeddings.LayerNorm.{what}"]
        for n in range(layers):
            layer = f"encoder.layer.{n}."
            parts = (f"{layer}attention.self.{one}.{what}" for one in ("query", "key", "value"))
            state[f"layers.{n}.attention.{what}"] = torch.cat([rows[part] for part in parts])
            for ours, theirs in _NAMES.items():
                state[f"layers.{n}.{ours}.{what}"] = rows[f"{layer}{theirs}.{what}"]
    found.load_state_dict(state)
    return found
