"""What a story tells of its only turtle, wherever in the story it stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from interview.words.choices.choice import Option
from interview.words.lexicon.files import words
from interview.words.lexicon.rules import Phrase, Rule, every_rule
from interview.words.mentions.competing import is_mended
from interview.words.mentions.negation import Found
from interview.words.mentions.parts import Part
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.named import is_shell
from interview.words.mentions.turtles.pair import about_a_pair
from interview.words.text.tokens import plain_words

__all__ = ["about_the_only_one"]

TURTLE = "turtle"
_LONGEST_NAME = 6
_YOUNGEST, _OLDEST = "month", "year"
_LIGHTEST, _HEAVIEST = 5.0, 15000.0
"""g"""
_GRAMS = {"g": 1.0, "kg": 1000.0, "pound": 453.6, "ounce": 28.35}
_Names = Mapping[tuple[str, ...], str]


@lru_cache(maxsize=4)
def _names(species: tuple[Option, ...]) -> tuple[_Names, Mapping[str, tuple[str, bool]]]:
    """Every name as words → the name to type; and that name → its kind, and whether loosely."""
    ways: dict[tuple[str, ...], str] = {}
    kinds: dict[str, tuple[str, bool]] = {}
    for option in species:
        loose = {plain_words(way) for way in option.loose}
        for name in dict.fromkeys(
            plain_words(way) for way in (option.name, option.label, *option.also)
        ):
            kinds.setdefault(name, (option.name, name in loose))
            spoken = tuple(name.split())
            ways.setdefault(spoken, name)
            ways.setdefault((*spoken[:-1], f"{spoken[-1]}s"), name)
    return ways, kinds


def about_the_only_one(
    told: Sequence[Sentence], species: Sequence[Option], planned: bool
) -> list[tuple[Sentence, Found]]:
    """Facts about the only turtle there is; none where there may be several, or another kind."""
    names, kinds = _names(tuple(species))
    marked: list[Sentence] = []
    for sentence in told:
        marked.append(_marked(sentence, names, marked[-1] if marked else None))
    offs = [s.wished_beyond_plan if planned else s.wished for s in marked]
    pairs = list(zip(marked, offs, strict=True))
    found = list(_kind(pairs, kinds))
    if not any(_speaks_of_turtles(s) for s in marked):
        return []
    if any(_of_several(s, o) for s, o in pairs):
        return about_a_pair(pairs, found[0][1].said) if found else []
    for sentence, off in pairs:
        for rule in every_rule():
            if rule.of == TURTLE:
                found += ((sentence, fact) for fact in _told(rule, sentence, off))
    return found


def _marked(sentence: Sentence, names: _Names, before: Sentence | None) -> Sentence:
    """The sentence with every kind of turtle as one word."""
    parts: list[Part] = []
    spoken: list[str] = []
    at = 0
    while at < len(sentence.words):
        for end in range(min(at + _LONGEST_NAME, len(sentence.words)), at, -1):
            name = names.get(sentence.words[at:end])
            if name is not None and _is_meant(sentence, at, end, name):
                last = sentence.words[end - 1]
                many = last.endswith("s") and tuple(name.split())[-1] != last
                part = replace(
                    sentence.parts[at],
                    kind="kind",
                    text="<kind>",
                    end=sentence.parts[end - 1].end,
                    said=name,
                    look="many" if many else "",
                )
                parts.append(part)
                spoken.append("<kind>")
                at = end
                break
        else:
            parts.append(sentence.parts[at])
            spoken.append(sentence.words[at])
            at += 1
    return replace(sentence, parts=tuple(parts), words=tuple(spoken), before=before)


def _is_meant(sentence: Sentence, at: int, end: int, name: str) -> bool:
    """A short name that is a word of its own means a turtle only between the right words."""
    if name not in words()["animals"]["loose"] and sentence.word(end) not in _list("not_one"):
        return True
    before, after = sentence.word(at - 1), sentence.word(end)
    return before in _list("before_loose") and after in _list("after_loose")


def _list(name: str) -> list[str]:
    listed: list[str] = words()["animals"][name]
    return listed


def _speaks_of_turtles(sentence: Sentence) -> bool:
    return "<kind>" in sentence.known or not sentence.known.isdisjoint(_list("any"))


def _of_several(sentence: Sentence, off: frozenset[int]) -> bool:
    """Whether a sentence speaks of more than one turtle, or of one of a kind nobody knows."""
    for at, word in enumerate(sentence.words):
        is_kind = word == "<kind>"
        if at in off or not (is_kind or word in _list("any")):
            continue
        if sentence.word(at + 1) in _list("not_one") or sentence.word(at + 1) == "<trade>":
            continue
        look = sentence.parts[at].look
        many = look == "many" if is_kind else word.endswith("s") and look != "owner"
        if many or (is_kind and "both" in sentence.known) or sentence.is_doubted(at, at + 1):
            return True
        before = at - 1
        while sentence.word(before) in _list("before") or sentence.word(before) in _sexes():
            before -= 1
        part = sentence.parts[before] if before >= 0 else None
        if part is not None and part.kind == "number" and part.value > 1:
            return True
        if sentence.word(before) in ("another", "second", "other", "more"):
            return True
        known = sentence.word(before) in _list("before_one") or (part and part.look == "owner")
        named = sentence.word(before - 1) in ("a", "an", "my", "our", "one", "the")
        if (named or not is_kind) and not known and sentence.word(before)[:1] != "<":
            return True
    return False


def _sexes() -> list[str]:
    return [*_list("female"), *_list("male")]


def _kind(
    pairs: Sequence[tuple[Sentence, frozenset[int]]], kinds: Mapping[str, tuple[str, bool]]
) -> Iterator[tuple[Sentence, Found]]:
    """The one kind that is named; a name that fits several gives way to one that doesn't."""
    named = [
        (sentence, at, sentence.parts[at].said)
        for sentence, off in pairs
        for at, word in enumerate(sentence.words)
        if word == "<kind>" and at not in off and not sentence.is_denied(at, at + 1)
    ]
    exact = [one for one in named if not kinds[one[2]][1]]
    meant = exact or named
    if len({kinds[name][0] for _, _, name in meant}) == 1:
        sentence, at, name = meant[0]
        yield sentence, Found("species", name, at, at + 1, 0)


def _told(rule: Rule, sentence: Sentence, off: frozenset[int]) -> Iterator[Found]:
    if rule.unless is not None and rule.unless.search(sentence.line):
        return
    for phrase in rule.phrases:
        if not all(not need.isdisjoint(sentence.known) for need in phrase.needs):
            continue
        for first, end, match in sentence.spots(phrase.pattern):
            found = _found(rule, phrase, sentence, first, end, match)
            if found and off.isdisjoint(range(first, end)):
                yield found


def _found(
    rule: Rule, phrase: Phrase, sentence: Sentence, first: int, end: int, match: object
) -> Found | None:
    if sentence.is_denied(first, end) or sentence.asked:
        return None
    if rule.says:
        doubted = sentence.is_doubted(first, end)
        return None if doubted else Found(rule.id, rule.says, first, end, 0)
    at = sentence.place(match.start("said"))  # type: ignore[attr-defined]
    part = sentence.parts[at]
    if part.sides or not _fits(rule.id, part) or is_mended(sentence, at + 1):
        return None
    return Found(rule.id, part.said, first, end, 0)


def _fits(name: str, part: Part) -> bool:
    """Whether an amount can be a shell's length, a turtle's age or its mass."""
    if name == "carapace_length":
        return is_shell(part.value, part.unit)
    if name == "age":
        return part.unit in (_YOUNGEST, _OLDEST) and 0 < part.value < 100
    return _LIGHTEST <= part.value * _GRAMS.get(part.unit or "", 0.0) <= _HEAVIEST
