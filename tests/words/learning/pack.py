"""Writes what was learned as the file that ships: whole numbers, and the rows there are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import msgspec
import numpy as np
from numpy.typing import NDArray

from interview.words.learned.model import About

LONGEST = 384
"""Pieces of a text that is read in one go, with those that open and close it."""
_MOST = 127


def pack(
    path: Path, tensors: Mapping[str, NDArray[np.float32]], pieces: Sequence[str], about: About
) -> None:
    """Write the file.

    Args:
        path: what `interview.words.learned.model.load` reads
        tensors: the state of `net.Net`
        pieces: of its words, by their numbers
        about: what its rows stand for
    """
    arrays: dict[str, NDArray[np.generic]] = {
        "about": _text(msgspec.json.encode(about)),
        "pieces": _text("\n".join(pieces).encode("utf-8")),
    }
    for name, rows in _shipped(tensors, about).items():
        arrays[name] = rows
        if rows.ndim == 2:
            arrays[name], arrays[f"{name}.scale"] = whole(rows)
    np.savez_compressed(path, **arrays)


def whole(rows: NDArray[np.float32]) -> tuple[NDArray[np.int8], NDArray[np.float32]]:
    """Rows in whole numbers up to 127, and what each of them has to be multiplied with."""
    scale = np.maximum(np.abs(rows).max(-1) / np.float32(_MOST), np.float32(1e-9))
    steps = np.rint(rows / scale[:, None])
    return np.clip(steps, -_MOST, _MOST).astype(np.int8), scale


def _shipped(
    tensors: Mapping[str, NDArray[np.float32]], about: About
) -> dict[str, NDArray[np.float32]]:
    """All that is asked for: of choices the rows of each question, without those that fill up."""
    found = {name: np.asarray(rows, np.float32) for name, rows in tensors.items()}
    found["encoder.positions.weight"] = found["encoder.positions.weight"][:LONGEST]
    weight, bias = found.pop("choices"), found.pop("choices_bias")
    many = [len(names) + 1 for names in about.choices.values()]
    for name, rows in (("weight", weight), ("bias", bias)):
        kept = [one[:n] for one, n in zip(rows, many, strict=True)]
        found[f"choices.{name}"] = np.concatenate(kept)
    return found


def _text(said: bytes) -> NDArray[np.uint8]:
    return np.frombuffer(said, np.uint8)
