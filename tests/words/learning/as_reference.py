"""Writes what the reference libraries make of texts and of a tiny network, for the tests.

    python tests/words/learning/as_reference.py VOCAB.txt   # with torch and tokenizers installed

`pieces.yaml`: odd texts as the WordPiece of tokenizers 0.23.3 reads them, by a small part of the
vocabulary of BERT (uncased). `tiny.npz`: a network of two layers with random weights, and what
torch 2.14 reads off it.
"""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parents[2]), str(HERE.parent)]

import numpy as np  # noqa: E402
import tokenizers  # noqa: E402
import torch  # noqa: E402
import yaml  # noqa: E402
from learning.net import Encoder, Net  # noqa: E402

TEXTS = (
    "My red-eared slider is 5 inches long.",
    "The tank's 120x50x50cm, filled to 40 cm; 26.5°C in the water!",
    "It’s a 75-gallon (US) — about 280 L.",
    '“Basking” bulb: 100W @ 12"/30 cm … OK?',
    "½ inch of 1¼ in, 10⁻³ m² × 2 µm",
    "Émys orbiculaŕis NAÏVE Straße İstanbul ΣΑΣ ﬁlter",
    "a\tb\r\nc\u00a0d\u2003e\u200bf\u0000g\ufffdh",
    "e\u0301te\u0301 n\u0303 a\u0304\u0301b",
    "$5, £6 or €7 + 20% = 8^2 ~ `x` <y> |z| a_b c\\d #1 & *2*",
    "漢字 turtle 龜kame カメ 한국",
    "😀 turtle 🐢! 🐢turtle",
    "x" * 100 + " " + "y" * 101 + " heater",
    "unaffordable thermostatically uvb uvbs wattage123 zzqqj",
    "-5 °F, 1,000.50 l/h & ph7.4 no2<0.25mg/l",
    "",
    "   ",
    "...",
    "water\u2028level\u2029here\x0bthere\x1fend",
    "ᾳ Ǆ ŉ ǰ ẞ K Å",
    "don't can't we've she'd o'clock",
    '60w/75w 2x40-watt 3/4" 6\'2" 5′ 7″',
)
CHOICES = {"floor": ("slab", "joists", "unknown"), "filter_kind": ("internal", "canister")}
AMOUNTS = ("heater_power", "tank_length", "water_depth")
SPANS = ((0, 5, 6, 1, 14), (0, 2, 4, 1, 12))
LONGEST, HEADS = 100, 2


def pieces(vocabulary: list[str]) -> str:
    """The texts, each with its pieces, from a character of it to another."""
    whole = tokenizers.BertWordPieceTokenizer(_numbers(vocabulary), lowercase=True)
    said = {p for text in TEXTS for p in whole.encode(text, add_special_tokens=False).tokens}
    few = [piece for piece in vocabulary if piece in said or piece in ("[CLS]", "[SEP]", "[UNK]")]
    known = tokenizers.BertWordPieceTokenizer(_numbers(few), lowercase=True)
    rows = []
    for text in TEXTS:
        read = known.encode(text, add_special_tokens=False)
        spans = zip(read.tokens, read.offsets, strict=True)
        rows.append({"text": text, "pieces": [[piece, *span] for piece, span in spans]})
    head = "# Written by as_reference.py, which tells how; not to be edited by hand.\n"
    flow = {"allow_unicode": True, "width": 96, "sort_keys": False, "default_flow_style": None}
    return head + yaml.safe_dump({"known": few, "texts": rows}, **flow)


def tiny() -> dict[str, np.ndarray]:
    """The network's tensors by name, and as `= NAME` what comes out of it."""
    torch.manual_seed(1)
    encoder = Encoder(40, layers=2, size=8, heads=HEADS, longest=LONGEST)
    net = Net(encoder, CHOICES, AMOUNTS).eval()
    for parameter in net.parameters():
        parameter.data = torch.randn_like(parameter) * 0.5
    numbers = torch.randint(0, 40, (1, 15))
    with torch.no_grad():
        mask = torch.ones_like(numbers, dtype=torch.bool)
        chosen, told, looks = net(numbers, mask, SPANS)
        out = {"numbers": numbers, "vectors": encoder(numbers, mask)}
        out |= {"choices": chosen.softmax(-1), "amounts": told, "looks": looks}
    found = {f"= {name}": values.numpy() for name, values in out.items()}
    return {name: values.numpy() for name, values in net.state_dict().items()} | found


def _numbers(vocabulary: list[str]) -> dict[str, int]:
    return {piece: number for number, piece in enumerate(vocabulary)}


if __name__ == "__main__":
    listed = Path(sys.argv[1]).read_text("utf-8").split("\n")
    (HERE / "pieces.yaml").write_text(pieces([piece for piece in listed if piece]), "utf-8")
    np.savez_compressed(HERE / "tiny.npz", **tiny())
