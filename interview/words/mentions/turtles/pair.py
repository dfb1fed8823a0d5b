"""Two turtles of one kind, told apart by their order or their sex: both female, 17 and 19 cm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from interview.words.lexicon.files import words
from interview.words.mentions.negation import Found
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.named import is_shell

__all__ = ["about_a_pair"]

_KIND = "<kind>"
_NEAR = 5
_FOLLOWED = ("they", "theyre", "both", "male", "males", "female", "females", "the", "one")


def about_a_pair(
    pairs: Sequence[tuple[Sentence, frozenset[int]]], kind: str
) -> list[tuple[Sentence, Found]]:
    """Facts about both; none where there aren't just two, or where they are told otherwise.

    Args:
        pairs: the sentences, every kind one word, with the words of each that don't count
        kind: the one kind that is named in them
    """
    counted = [(at, i) for i, (s, off) in enumerate(pairs) if (at := _two(s, off)) is not None]
    if len(counted) != 1:
        return []
    at, number = counted[0]
    sentence, off = pairs[number]
    end = next(place for place in range(at, len(sentence.words)) if sentence.words[place] == _KIND)
    found = [(sentence, Found("animal_count", "2", at, end + 1))]
    found += [(sentence, Found("species", kind, at, end + 1, animal)) for animal in (0, 1)]
    told = list(_told(sentence, end + 1, off))
    if not told and number + 1 < len(pairs) and pairs[number + 1][0].word(0) in _FOLLOWED:
        sentence, off = pairs[number + 1]
        told = list(_told(sentence, 0, off))
    return found + [(sentence, fact) for fact in told]


def _two(sentence: Sentence, off: frozenset[int]) -> int | None:
    """Where two of a kind are counted."""
    for at, part in enumerate(sentence.parts):
        two = part.kind == "number" and part.value == 2 and not part.unit and not part.sides
        if two and at not in off and _counts_a_kind(sentence, at):
            return at
    return None


def _counts_a_kind(sentence: Sentence, at: int) -> bool:
    """Whether a number counts the kind behind it, with nothing but its adjectives between."""
    near = sentence.words[at + 1 : at + _NEAR]
    if _KIND not in near or {"male", "female", "males", "females"} & set(sentence.words[:at]):
        return False
    between = near[: near.index(_KIND)]
    adjectives = words()["animals"]["before"]
    if between[-1:] == (",",) and len(between) == 2:
        return True  # two in the keeper's own language, then what they are
    return all(word in adjectives or word in ("female", "male") for word in between)


def _told(sentence: Sentence, first: int, off: frozenset[int]) -> Iterator[Found]:
    """Sexes and lengths in the order of the turtles; nothing where they don't come in twos."""
    animals = words()["animals"]
    sexes: list[tuple[str, int]] = []
    lengths: list[tuple[str, int]] = []
    for at in range(first, len(sentence.words)):
        word, part = sentence.words[at].removesuffix("s"), sentence.parts[at]
        if at in off:
            return
        if word in ("female", "male"):
            sexes.append((word, at))
        elif part.kind == "lengths" and all(is_shell(s.value, s.unit) for s in part.sides):
            lengths += [(side.said, at) for side in part.sides]
        elif part.kind == "length" and not part.sides and is_shell(part.value, part.unit):
            lengths.append((part.said, at))
        elif part.kind == "number" and len(lengths) == 1 and sexes and sexes[-1][1] == at - 1:
            lengths.append((f"{part.said} {lengths[0][0].split()[-1]}", at))
        elif word[:1] == "<" or word in animals["not_one"]:
            break
    if len(sexes) == 1 and "both" in sentence.known:
        sexes *= 2
    for name, listed in (("sex", sexes), ("carapace_length", lengths)):
        if len(listed) == 2:
            for animal, (said, at) in enumerate(listed):
                yield Found(name, said, at, at + 1, animal)
