"""The encoder and what is read off it, against reference libraries and the rules it stands on."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from learning.pack import pack, whole
from learning.pieces import kept
from scipy.special import erf

from interview.words.learned.candidates import Candidate
from interview.words.learned.encoder import encoded, gelu, softmax
from interview.words.learned.model import About, Model, load
from interview.words.learned.readings import NONE, heard
from interview.words.learned.wordpiece import pieces_of

HERE = Path(__file__).parent / "learning"
PIECES = yaml.safe_load((HERE / "pieces.yaml").read_text("utf-8"))
KNOWN = {piece: number for number, piece in enumerate(PIECES["known"])}
CHOICES = {"floor": ("slab", "joists", "unknown"), "filter_kind": ("internal", "canister")}
ABOUT = About(
    choices=CHOICES,
    amounts=("heater_power", "tank_length", "water_depth"),
    heads=2,
    learned_from="nothing",
)
WORDS = ["[CLS]", "[SEP]", "[UNK]", *(f"w{n}" for n in range(3, 40))]
"""Of the tiny network, each a word."""


def _tiny() -> dict[str, Any]:
    """See as_reference.py there: torch 2.14, two layers, eight numbers a piece."""
    with np.load(HERE / "tiny.npz") as file:
        return {name: file[name] for name in file.files}


def _model(tmp_path: Path, tensors: dict[str, Any]) -> Model:
    path = tmp_path / "weights.npz"
    pack(path, {name: rows for name, rows in tensors.items() if name[0] != "="}, WORDS, ABOUT)
    return load(path)


def _exact(tmp_path: Path) -> tuple[Model, dict[str, Any]]:
    """The tiny network without the loss of whole numbers."""
    tensors = _tiny()
    model = _model(tmp_path, tensors)
    rows = {name: tensors.get(name, values) for name, values in model.tensors.items()}
    three = tensors["choices"][0], tensors["choices"][1, :3]
    rows["choices.weight"] = np.concatenate(three)
    return Model(ABOUT, model.pieces, rows), tensors


@pytest.mark.parametrize("row", PIECES["texts"], ids=lambda row: ascii(row["text"][:20]))
def test_a_text_is_read_in_the_pieces_of_the_reference(row: dict[str, Any]) -> None:
    """Outside: the WordPiece of tokenizers 0.23.3 (as_reference.py)."""
    read = pieces_of(row["text"], KNOWN)
    names = [[PIECES["known"][piece.number], piece.start, piece.stop] for piece in read]
    assert names == row["pieces"]


def test_vectors_are_those_of_torch() -> None:
    tensors = _tiny()
    got = encoded(tensors, tensors["= numbers"][0], heads=2)
    assert got.dtype == np.float32
    assert got == pytest.approx(tensors["= vectors"][0], abs=5e-6)


def test_a_text_is_heard_as_torch_reads_it(tmp_path: Path) -> None:
    model, tensors = _exact(tmp_path)
    first, *numbers, last = (int(number) for number in tensors["= numbers"][0])
    names = [f"at{at}" for at in range(len(numbers))]
    pieces = dict(zip(("[CLS]", *names, "[SEP]"), (first, *numbers, last), strict=True))
    text = " ".join(names)
    spans = [(text.index("at4"), text.index(" at5")), (text.index("at1"), text.index(" at3"))]
    says = [{"heater_power": "5 W", "water_depth": "5 cm"}, {"tank_length": "1 m"}]
    given = [Candidate(*span, said) for span, said in zip(spans, says, strict=True)]
    found = heard(replace(model, pieces=pieces), text, given)
    for number, (name, options) in enumerate(CHOICES.items()):
        chances = tensors["= choices"][0][number][: len(options) + 1]
        assert list(found.choices[name].chances) == [NONE, *options]
        assert list(found.choices[name].chances.values()) == pytest.approx(chances, abs=1e-5)
        assert found.choices[name].shares == pytest.approx(
            tensors["= looks"][0][number][1:-1], abs=1e-5
        )
    fits = ([0, 1, 3], [0, 2])
    for chances, fit, sums in zip(found.amounts, fits, tensors["= amounts"], strict=True):
        assert list(chances) == [NONE, *(ABOUT.amounts[n - 1] for n in fit[1:])]
        assert list(chances.values()) == pytest.approx(softmax(sums[fit]), abs=1e-5)


def test_the_smooth_step_is_a_number_times_its_chance() -> None:
    """Outside: erf of scipy; Abramowitz and Stegun promise 1.5e-7 of it."""
    x = np.linspace(-12, 12, 10_001)
    assert gelu(x.astype(np.float32)) == pytest.approx(
        x * (1 + erf(x / math.sqrt(2))) / 2, abs=1e-6
    )


def test_what_is_packed_comes_back_within_half_a_step(tmp_path: Path) -> None:
    tensors = _tiny()
    model = _model(tmp_path, tensors)
    assert model.about == ABOUT
    assert list(model.pieces) == WORDS
    for name in ("look", "encoder.words.weight", "encoder.layers.1.wide.weight"):
        step = np.abs(tensors[name]).max(-1, keepdims=True) / 127
        assert (np.abs(model.tensors[name] - tensors[name]) <= 0.501 * step).all()
    assert (model.tensors["encoder.norm.bias"] == tensors["encoder.norm.bias"]).all()
    assert len(model.tensors["choices.weight"]) == len(model.tensors["choices.bias"]) == 4 + 3


def test_rows_are_packed_each_by_its_largest_number() -> None:
    rows = [[1.27, -0.5, 0.004], [0.0, 0.0, 0.0], [3e-4, 0, -2e-4]]
    steps, scale = whole(np.array(rows, np.float32))
    assert steps.tolist() == [[127, -50, 0], [0, 0, 0], [127, 0, -85]]
    assert scale[0] == pytest.approx(0.01, rel=1e-3)


def test_a_long_text_is_read_in_windows(tmp_path: Path) -> None:
    """An amount is heard as in the last window with eight words before it, read by itself."""
    model, _ = _exact(tmp_path)
    words = [f"w{3 + 7 * n % 37}" for n in range(300)]
    text = " ".join(words)
    longest, apart = 98, 34  # words of a window, and from the first word of one to the next
    for at in (2, 41, 42, 50, 97, 150, 211, 212, 246, 299):
        start = len(" ".join(words[:at])) + (at > 0)
        asked = Candidate(start, start + len(words[at]), {"heater_power": "", "tank_length": ""})
        first = apart * min(6, max(0, at - 8) // apart)
        before = len(" ".join(words[:first])) + (first > 0)
        window = text[before:].split()[:longest]
        own = replace(asked, start=start - before, stop=asked.stop - before)
        found = heard(model, text, [asked])
        near = heard(model, " ".join(window), [own])
        assert found.amounts[0] == pytest.approx(near.amounts[0], abs=1e-6)
        assert max(piece.stop for piece in found.choices["floor"].pieces) <= len(text)
    by_window = [
        heard(model, " ".join(words[first : first + longest]), []).choices["floor"].chances
        for first in range(0, 236, apart)
    ]
    surest = min(by_window, key=lambda chances: chances[NONE])
    assert heard(model, text, []).choices["floor"].chances == pytest.approx(surest, abs=1e-6)


def test_pieces_of_texts_and_letters_are_kept_then_the_commonest() -> None:
    listed = ["[PAD]", "[UNK]", "[CLS]", "[SEP]", "[", "a", "##a", "é", "the", "is", "tank", "##s"]
    names = [listed[n] for n in kept(listed, ["tank"], 9)]
    assert names == ["[UNK]", "[CLS]", "[SEP]", "[", "a", "##a", "the", "tank", "##s"]
    assert [listed[n] for n in kept(listed, ["tank"], 10)][6:] == ["the", "is", "tank", "##s"]
