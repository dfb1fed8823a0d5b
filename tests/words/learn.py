"""Learns to hear what phrases leave of a story, from the told texts that may be tuned on.

    pip install -e '.[learn]'
    python tests/words/learn.py FOLDER         # writes interview/words/learned/weights.npz

FOLDER holds `vocab.txt` and `model.safetensors` of the encoder to start from: MiniLM, six layers of
384, uncased (Wang et al. 2020; LICENSE beside the weights tells more). Half an hour on two cores.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE)]

import torch  # noqa: E402
import yaml  # noqa: E402
from learning import base, examples  # noqa: E402
from learning.batches import Reader  # noqa: E402
from learning.examples import Example  # noqa: E402
from learning.net import HEADS, Net  # noqa: E402
from learning.pack import pack  # noqa: E402
from learning.pieces import kept  # noqa: E402
from learning.train import SEED, learned  # noqa: E402
from learning.witness import witness  # noqa: E402

from interview.words.learned import model  # noqa: E402

LAYERS, PIECES, WITNESSED = 6, 10_000, 30


def main(folder: Path) -> None:
    """Learn, and write the file."""
    texts = [one for half in examples.PARAGRAPHS for one in examples.examples(half)]
    short = [one for half in examples.SENTENCES for one in examples.examples(half)]
    listed = base.vocabulary(folder)
    numbers = kept(listed, [one.text for one in (*texts, *short)], PIECES)
    pieces = [listed[number] for number in numbers]
    choices, amounts = examples.options(), examples.amounts()
    torch.manual_seed(SEED)
    net = Net(base.encoder(folder, numbers, LAYERS), choices, amounts)
    reader = Reader(pieces, choices, amounts)
    learned(net, reader, [reader.item(one) for one in texts], [reader.item(one) for one in short])
    write(net, reader, pieces, short[:WITNESSED])


def write(net: Net, reader: Reader, pieces: Sequence[str], texts: Sequence[Example]) -> None:
    """The file that ships, and what the network hears in some texts."""
    about = model.About(
        choices=examples.options(),
        amounts=examples.amounts(),
        heads=HEADS,
        learned_from=examples.digest(),
    )
    tensors = {name: values.numpy() for name, values in net.state_dict().items()}
    pack(model.WEIGHTS, tensors, pieces, about)
    head = "# Written by learn.py: what torch hears in float32. Not to be edited by hand.\n"
    rows = yaml.safe_dump(witness(net, reader, texts), allow_unicode=True, default_flow_style=None)
    (HERE / "learning" / "witness.yaml").write_text(head + rows, "utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
