"""Learns to hear what phrases leave of a story, from the told texts that may be tuned on.

    pip install -e '.[learn]'
    python tests/words/learn.py FOLDER         # writes interview/words/learned/weights.npz
    python tests/words/learn.py                # goes on from those, for more texts: an hour

FOLDER holds `vocab.txt` and `model.safetensors` of the encoder to start from: MiniLM, six layers
of 384, uncased (Wang et al. 2020; LICENSE beside the weights tells more). It is taught twice, with
the texts in another order, a core for each; the means of the two weights (Wortsman et al. 2022,
Model soups) go over the texts some rounds more, and ship. Two hours on two cores.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE)]

import torch  # noqa: E402
import yaml  # noqa: E402
from learning import base, examples  # noqa: E402
from learning.batches import Reader  # noqa: E402
from learning.examples import Example  # noqa: E402
from learning.further import further  # noqa: E402
from learning.net import HEADS, Net  # noqa: E402
from learning.pack import pack  # noqa: E402
from learning.pieces import kept  # noqa: E402
from learning.train import Course, learned  # noqa: E402
from learning.witness import witness  # noqa: E402
from torch import Tensor  # noqa: E402

from interview.words.learned import model  # noqa: E402

LAYERS, PIECES, WITNESSED = 6, 10_000, 30
COURSES = (Course(rounds=10, order=1), Course(rounds=10, order=2))
FURTHER = (Course(rounds=4, order=1), Course(rounds=4, order=2))
"""Where learning goes on from what ships; the means of these ship then."""
LAST = Course(rounds=3, order=3, step=5e-5)


def main(folder: Path | None) -> None:
    """Learn, and write the file."""
    with ProcessPoolExecutor(len(COURSES), get_context("spawn")) as processes:
        taught = list(processes.map(partial(_taught, folder), COURSES if folder else FURTHER))
    finish(folder, {name: _mean([one[name] for one in taught]) for name in taught[0]})


def finish(folder: Path | None, mean: Mapping[str, Tensor]) -> None:
    """The last rounds of learning from the start; then the file."""
    net, reader, pieces, short, texts = _begun(folder)
    net.load_state_dict(mean)
    if folder:
        learned(net, reader, [*map(reader.item, texts)], [*map(reader.item, short)], LAST)
    net.eval()
    write(net, reader, pieces, short[:WITNESSED])


def _mean(values: Sequence[Tensor]) -> Tensor:
    return torch.stack([*values]).mean(0)


def _taught(folder: Path | None, course: Course) -> Mapping[str, Tensor]:
    """The weights of a network after all rounds of a course."""
    torch.set_num_threads(1)
    net, reader, _, short, texts = _begun(folder)
    learned(net, reader, [*map(reader.item, texts)], [*map(reader.item, short)], course)
    return net.state_dict()


def _begun(
    folder: Path | None,
) -> tuple[Net, Reader, Sequence[str], Sequence[Example], Sequence[Example]]:
    """A network that knows nothing of tanks, or what ships; what turns texts to numbers; texts."""
    texts = [one for half in examples.PARAGRAPHS for one in examples.examples(half)]
    texts += [one for half in examples.ANSWERS for one in examples.answers(half)]
    short = [one for half in examples.SENTENCES for one in examples.examples(half)]
    choices, amounts = examples.options(), examples.amounts()
    torch.manual_seed(COURSES[0].order)
    if folder is None:
        shipped = model.load(model.WEIGHTS)
        net, pieces = further(shipped, LAYERS, choices, amounts), list(shipped.pieces)
    else:
        listed = base.vocabulary(folder)
        numbers = kept(listed, [one.text for one in (*texts, *short)], PIECES)
        net = Net(base.encoder(folder, numbers, LAYERS), choices, amounts)
        pieces = [listed[number] for number in numbers]
    return net, Reader(pieces, choices, amounts), pieces, short, texts


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
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else None)
