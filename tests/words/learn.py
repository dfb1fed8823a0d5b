"""Learns what phrases leave of a story, from the told paragraphs that may be tuned on.

    python tests/words/learn.py                # writes interview/words/learned/weights.yaml

A log-linear model (Berger, Della Pietra and Della Pietra 1996: maximum entropy), learned by
stochastic gradient with the steps of Duchi, Hazan and Singer (2011: adaptive subgradients), in an
order that is always the same. An example is every amount, and every clause with each question it
may speak of, whether phrases read it or not. A feature has a weight for each answer, and one that
all answers share of which it says the same: that it is a word of the question or of the choice, or
its topic, or how far the amount is from the usual. So what is seldom told profits from the rest.
"""

from __future__ import annotations

import hashlib
import math
import random
import sys
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple, TypeAlias

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE)]

from told_score import TOLD, alike, facts_of, is_bare_test, paragraphs  # noqa: E402

from interview import assembly  # noqa: E402
from interview.chat.hearing.told.guessed import DEEP, NONE, is_by_clause, tells  # noqa: E402
from interview.graph.answers import understand  # noqa: E402
from interview.words.amounts.quantity import read_quantity  # noqa: E402
from interview.words.intents.story import Extracted, extract_facts  # noqa: E402
from interview.words.learned import spots as spots_module  # noqa: E402
from interview.words.learned.spots import Spot, amounts_in, clauses_in  # noqa: E402
from interview.words.learned.weights import Label, chances  # noqa: E402
from interview.words.lexicon.files import known_words, phrases  # noqa: E402
from interview.words.lexicon.rules import things_of  # noqa: E402
from interview.words.text.refusal import NotUnderstood  # noqa: E402
from interview.words.text.tokens import plain_words  # noqa: E402

LEARNED_FROM = (
    *("tuning", "tuning_further", "sentences", "voices_tuned"),
    *("two_writers", "two_more_writers", "two_other_writers"),
)
"""The files of paragraphs; none of those that are only counted."""
WEIGHTS = Path(spots_module.__file__).with_name("weights.yaml")
_ROUNDS, _STEP = 10, 0.2
_LEAST = 0.2
"""Weights nearer to nothing are left out."""
_LIFT = 4
"""How much oftener than elsewhere a word stands where a question is told, to speak of it."""
_ASKING = "what how does do not any much many far put all one no where when if your you than type"
_LISTS, _QUESTIONS = assembly.lists(), assembly.questionnaire().by_id
_Weights: TypeAlias = dict[str, dict[Label, float]]
"""By feature, for each answer."""


class Paragraph(NamedTuple):
    """A paragraph as phrases read it, and the values of all that it tells or may tell."""

    told: Extracted
    region: str
    facts: Mapping[str, Sequence[Any]]
    may: Mapping[str, Sequence[Any]]


class Example(NamedTuple):
    """A spot, what it may tell, and what of that it does."""

    features: Sequence[str]
    labels: Sequence[Label]
    right: Sequence[Label]


def digest() -> str:
    """Of the texts and of how they are learned from; when it changes, learn anew."""
    files = (*(TOLD / f"{name}.yaml" for name in LEARNED_FROM), Path(__file__), *_FEATURES)
    return hashlib.sha256(b"".join(path.read_bytes() for path in files)).hexdigest()[:16]


_FEATURES = (Path(spots_module.__file__),)


def read(row: Mapping[str, Any]) -> Paragraph:
    """A paragraph of a file, read by phrases."""
    told = {place.id: said for place, said in facts_of(row["facts"])}
    region = str(value_of("region", told.get("region", "europe"), ""))
    species, sizes = _LISTS.options["species"], _LISTS.sizes["tank_size"]
    taken = extract_facts(row["text"], region=region, species=species, sizes=sizes)
    facts: dict[str, list[Any]] = defaultdict(list)
    may: dict[str, list[Any]] = defaultdict(list)
    for values, rows in ((facts, row["facts"]), (may, row.get("may", {}))):
        for place, said in facts_of(rows):
            values[place.id].append(value_of(place.id, said, region))
    return Paragraph(taken, region, facts, may)


def value_of(name: str, said: str, region: str) -> Any:
    """What is understood at a question; None where nothing is."""
    try:
        if name == "water_depth":
            return read_quantity(said, "length", region=region)
        value = understand(_QUESTIONS[name], said, _LISTS, region).value
    except NotUnderstood:
        is_bare = name in _QUESTIONS and is_bare_test(_QUESTIONS[name], said)
        return value_of(name, f"{said} mg/L", region) if is_bare else None
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else value


def _amounts(told: Sequence[Paragraph]) -> list[Example]:
    by_amount = [(q.id, "") for q in _QUESTIONS.values() if q.unit not in ("choice", "yes/no")]
    found = []
    for paragraph in told:
        for spot in amounts_in(paragraph.told.told):
            part = spot.parts[spot.amount]
            fit = [one for one in (*by_amount, DEEP) if tells(part.kind, _QUESTIONS[one[0]])]
            right = [label for label in fit if _is_told(paragraph, label, part.said)]
            found.append(Example(spot.features, [NONE, *fit], right or [NONE]))
    seen = {label for one in found for label in one.right}
    return [one._replace(labels=[la for la in one.labels if la in seen]) for one in found]


def _is_told(paragraph: Paragraph, label: Label, said: str) -> bool:
    name = "water_depth" if label == DEEP else label[0]
    wanted = [*paragraph.facts.get(name, ()), *paragraph.may.get(name, ())]
    value = value_of(name, said, paragraph.region) if wanted else None
    return value is not None and any(alike(value, one) for one in wanted)


def _clauses(told: Sequence[Paragraph]) -> Iterator[Example]:
    spots = [(paragraph, spot) for paragraph in told for spot in clauses_in(paragraph.told.told)]
    words = [{one[2:] for one in spot.features if one[:2] == "W:"} for _, spot in spots]
    often = Counter(word for said in words for word in said)
    for question in filter(is_by_clause, _QUESTIONS.values()):
        options = ("yes", "no") if question.type == "yes_no" else (o.name for o in question.choices)
        choices = [(question.id, choice) for choice in options]
        right = [_located(paragraph, spot, question.id) for paragraph, spot in spots]
        there = [said for said, label in zip(words, right, strict=True) if label in choices]
        near = Counter(word for said in there for word in said)
        least = _LIFT * len(there) / len(spots)
        about = {word for word, n in near.items() if n >= least * often[word]}
        about = about.union(*(_words(label)[0] | _words(label)[1] for label in choices))
        about -= _ordinary()
        for (_, spot), said, label in zip(spots, words, right, strict=True):
            if label and not said.isdisjoint(about):
                yield Example(spot.features, [NONE, *choices], [label])


def _located(paragraph: Paragraph, spot: Spot, name: str) -> Label | None:
    """What a clause tells, by phrases that took it rightly; None where none did of what is told."""
    wanted, found = paragraph.facts.get(name, ()), paragraph.told.found
    taken = [one for one in found if one.id == name]
    taken = [one for one in taken if value_of(name, one.said, paragraph.region) in wanted]
    if any(one.start < spot.stop and spot.start < one.stop for one in taken):
        return name, str(wanted[0])
    return NONE if taken or not wanted else None


@cache
def _ordinary() -> frozenset[str]:
    return known_words("fillers") | {*_ASKING.split(), ","}


@cache
def _words(label: Label) -> tuple[frozenset[str], frozenset[str]]:
    """The words of a question, and of a choice there."""
    question = _QUESTIONS[label[0]]
    option = next((one for one in question.choices if one.name == label[1]), None)
    asked = (question.label, question.short, *question.trade_names, label[0])
    chosen = (option.label, option.name, *option.also) if option else ()
    both = (plain_words(" ".join(said).replace("_", " ")).split() for said in (asked, chosen))
    one, other = (frozenset(words) - _ordinary() for words in both)
    return one, other


@cache
def _topics(name: str) -> frozenset[str]:
    rows = (row.topics for row in phrases().near if row.id == name)
    return frozenset({*things_of(name), *(topic for row in rows for topic in row)}) - {"", "-"}


_Usual: TypeAlias = Mapping[tuple[Label, str], float]
"""The mean size of the amounts that tell an answer, by kind of amount."""


def _usual(examples: Sequence[Example]) -> _Usual:
    found: dict[tuple[Label, str], list[int]] = defaultdict(list)
    for example in examples:
        for feature in example.features:
            if feature[:2] == "v:":
                kind, _, size = feature[2:].partition(" ")
                for label in example.right:
                    found[label, kind].append(int(size))
    return {key: sum(sizes) / len(sizes) for key, sizes in found.items()}


def _like(feature: str, label: Label, usual: _Usual) -> str:
    """What a feature says of an answer, whatever the question; "" for nothing."""
    kind, _, word = feature.partition(":")
    if label == NONE:
        return ""
    if kind == "v":
        amount, _, size = word.partition(" ")
        mean = usual.get((label, amount), math.inf)
        return f"v{min(9, round(min(9, abs(int(size) - mean))))}"
    if kind in ("tb", "t0", "ta", "t", "T"):
        return kind if word.lstrip("^") in _topics(label[0]) else ""
    asked, chosen = _words(label)
    return f"{kind}!" if word in chosen else kind if word in asked else ""


def learned(examples: Sequence[Example]) -> _Weights:
    """The weights of answers, each with the one it shares."""
    usual = _usual(examples)
    number: dict[tuple[str, Label] | str, int] = {}

    def keys(features: Sequence[str], label: Label) -> list[int]:
        own: list[tuple[str, Label] | str] = [(feature, label) for feature in features]
        shared = filter(None, (_like(feature, label, usual) for feature in features))
        return [number.setdefault(key, len(number)) for key in (*own, *shared)]

    rows = [[(keys(one.features, la), la in one.right) for la in one.labels] for one in examples]
    weights, moved = [0.0] * len(number), [0.0] * len(number)
    dice = random.Random(1)
    for _ in range(_ROUNDS):
        dice.shuffle(rows)
        for row in rows:
            likely = chances([sum(weights[key] for key in mine) for mine, _ in row])
            whole = sum(
                chance for chance, (_, is_right) in zip(likely, row, strict=True) if is_right
            )
            for chance, (mine, is_right) in zip(likely, row, strict=True):
                slope = chance - (chance / whole if is_right else 0.0)
                if abs(slope) > 1e-3:
                    for key in mine:
                        moved[key] += slope * slope
                        weights[key] -= _STEP * slope / (0.01 + math.sqrt(moved[key]))
    found: _Weights = defaultdict(dict)
    for feature, label in _pairs(examples):
        own = weights[number[feature, label]] if (feature, label) in number else 0.0
        like = _like(feature, label, usual)
        weight = own * (abs(own) >= _LEAST) + (weights[number[like]] if like in number else 0.0)
        if abs(weight) >= _LEAST:
            found[feature][label] = weight
    return found


def _pairs(examples: Sequence[Example]) -> list[tuple[str, Label]]:
    """Each feature with each answer that it was seen with, or that has its word."""
    found = {(feature, la) for one in examples for la in one.labels for feature in one.features}
    kinds = {feature.partition(":")[0] for feature, _ in found} & {"W", "B", "A", "<", ">"}
    for label in {label for _, label in found} - {NONE}:
        words = _words(label)[0] | _words(label)[1]
        found |= {(f"{kind}:{word}", label) for kind in kinds for word in words}
    return sorted(found)


def _written(name: str, weights: _Weights) -> Iterator[str]:
    labels = sorted({label for row in weights.values() for label in row})
    yield from (f"{name}:", "  answers:")
    for name, says in labels:
        yield f"    - {{id: {name}, says: {says!r}}}" if says else f"    - {{id: {name}}}"
    yield "  weights:"
    for feature, row in sorted(weights.items()):
        said = (f"{labels.index(label)}={round(10 * weight)}" for label, weight in row.items())
        yield f"    {feature!r}: {' '.join(said)}"


def learn(told: Sequence[Paragraph]) -> str:
    """The file of weights that some paragraphs teach."""
    by_amount, by_clause = learned(_amounts(told)), learned(list(_clauses(told)))
    head = "# Learned by tests/words/learn.py, which tells how; not to be edited by hand."
    lines = (*_written("amounts", by_amount), *_written("clauses", by_clause))
    return "\n".join((head, f"learned_from: {digest()}", *lines, ""))


if __name__ == "__main__":
    WEIGHTS.write_text(
        learn([read(row) for name in LEARNED_FROM for row in paragraphs(name)]), "utf-8"
    )
