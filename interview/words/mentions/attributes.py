"""Facts found in a sentence: phrases joined to the thing they are about."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from interview.base.units import convert
from interview.words.amounts.spellings import Unit, label
from interview.words.forms.rhythm_told import as_typed, hours_between
from interview.words.forms.size import Sizes
from interview.words.lexicon.rows import Fact
from interview.words.lexicon.rules import NO_QUESTION, Phrase, rules_in
from interview.words.mentions.being import is_of_somebody
from interview.words.mentions.competing import has_second, is_old
from interview.words.mentions.negation import Found, absent_in
from interview.words.mentions.relations import Candidate, Relations, things_in
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.tank_size import said_size

__all__ = [
    "OF_A_TURTLE",
    "Found",
    "facts_in",
    "fits",
    "found_of",
    "is_sure",
    "matches",
    "of_a_turtle",
    "phrases_about",
]

_ANIMALS = ("turtle", "turtles", "turtles_beside")
"""What phrases are about that stand in the sentences with kinds: the only one, or others."""
_OURS = ("the", "my", "our", "its")
_THICKEST = 0.045
"""m; glass of a longer side is no thickness."""
_STRONGEST = 1000.0
"""W; a heater of more is none for a tank, but for its room (assumption: it judges nothing)."""
_ANIMAL: Mapping[str, tuple[float, float, str, frozenset[Unit]]] = {
    "carapace_length": (0.015, 0.6, "m", frozenset({"inch", "foot", "cm", "mm", "m"})),
    "age": (0.01, 99.9, "year", frozenset({"month", "year"})),
    "mass": (0.005, 15.0, "kg", frozenset({"g", "kg", "pound", "ounce"})),
}
"""Least and most of a turtle's shell, age and mass, in which unit, and the units they are told in.

Without a source: they judge nothing, and only tell a turtle's amount from another thing's.
"""


OF_A_TURTLE = _ANIMAL.keys() | {"sex"}
"""Questions about one turtle that amounts and words answer."""


def of_a_turtle(name: str, value: float, unit: Unit | None) -> bool:
    """Whether an amount can be a turtle's carapace_length, age or mass."""
    low, high, kept_in, units = _ANIMAL[name]
    return unit in units and low <= convert(value, unit, kept_in) <= high


def phrases_about(of: str, sentence: Sentence, things: Collection[str] = ()) -> Iterator[Candidate]:
    """Phrases that stand in a sentence, sure or not: about turtles, or about `things`."""
    taken_up = sentence.word(0) in ("it", "its")
    for rule, phrase in rules_in("facts", sentence.known):
        fact = rule.fact
        if (fact.of if fact.of in _ANIMALS else "") != of:
            continue
        if not of and fact.of and not (fact.of in things or fact.alone or taken_up):
            continue
        if fact.together_with and sentence.known.isdisjoint(fact.together_with):
            continue
        if rule.unless is None or not rule.unless.search(sentence.line):
            yield from matches(sentence, fact, phrase)


def matches(sentence: Sentence, fact: Fact, phrase: Phrase) -> Iterator[Candidate]:
    """Every place in a sentence where a phrase of a fact stands."""
    for first, end, match in sentence.spots(phrase.pattern):
        before = first - 1 - (sentence.word(first - 1) in _OURS)
        if first == end or not {*sentence.words[max(0, before) : first]}.isdisjoint(fact.not_after):
            continue
        if "said" in match.re.groupindex and match.start("said") >= 0:
            said = sentence.place(match.start("said")), sentence.place(match.end("said"))
        else:
            said = first, end
        yield Candidate(fact, phrase, first, end, *said)


def facts_in(
    sentence: Sentence,
    off: frozenset[int],
    sizes: Sizes | None = None,
    region: str = "",
    *,
    of: str = "",
) -> list[Found]:
    """What a sentence says for sure, but near wishes (`off`).

    Of a “turtle”, the one there is, or of everything but turtles.
    """
    things = things_in(sentence)
    phrases = phrases_about(of, sentence, {thing.name for thing in things})
    sure = [one for one in phrases if fits(sentence, one) and is_sure(sentence, one, off)]
    sure = [one for one in sure if of or one.fact.says or not _is_of_somebody(sentence, one)]
    relations = Relations(sentence, things, sure)
    taken = [one for one in sure if of or not one.fact.of or relations.joined(one)]
    past = frozenset() if sentence.asked else off
    own = past.union(*(range(one.first, one.end) for one in taken))
    names = None if of else relations.names
    single = [one for one in _longest(taken) if not has_second(sentence, one, names, own)]
    found = [found_of(sentence, one, sizes or {}, region) for one in single]
    absent = () if of else absent_in(sentence, off)
    return [fact for fact in found if fact is not None] + list(absent)


def _is_of_somebody(sentence: Sentence, one: Candidate) -> bool:
    return is_of_somebody(sentence, one.said_first)


def _longest(taken: list[Candidate]) -> Iterator[Candidate]:
    """Without phrases inside one that says more of the same thing, or marks it as of no use."""
    spans: dict[tuple[str, str], set[tuple[int, int]]] = {}
    for one in taken:
        spans.setdefault(_topic(one.fact), set()).add((one.first, one.end))
    for one in taken:
        others = spans[_topic(one.fact)]
        inside = (
            first <= one.first and one.end <= end and end - first > one.end - one.first
            for first, end in others
        )
        if one.fact.id != NO_QUESTION and not any(inside):
            yield one


def _topic(fact: Fact) -> tuple[str, str]:
    """What phrases compete for: all about one thing, or one fact about none."""
    return (fact.of, "") if fact.of and fact.of not in _ANIMALS else ("", fact.id)


def is_sure(sentence: Sentence, found: Candidate, off: frozenset[int]) -> bool:
    """Neither denied nor wished for, nor doubted, nor one of two alternatives."""
    if not found.fact.even_wished and not off.isdisjoint(range(found.first, found.end)):
        return False
    if found.fact.even_wished and sentence.asked:
        return False
    if sentence.is_denied(found.first, found.end) or is_old(sentence, found):
        return False
    if found.fact.sole and sentence.words.count(sentence.words[found.said_first]) > 1:
        return False
    if found.fact.says:
        return not sentence.is_doubted(found.first, found.end)
    return sentence.word(found.said_first - 1) != "or" and not (
        sentence.word(found.said_end) == "or" and sentence.word(found.said_end + 1)[:1] == "<"
    )


def found_of(sentence: Sentence, one: Candidate, sizes: Sizes, region: str) -> Found | None:
    """A phrase that counts, as the fact it tells; None where its amount is not what was meant."""
    said = one.fact.says or _said(sentence, one, sizes, region)
    if not said:
        return None
    return Found(sentence, one.fact.id, f"{said} {one.fact.adds}".strip(), one.first, one.end)


def _said(sentence: Sentence, one: Candidate, sizes: Sizes, region: str) -> str:
    """The amount as it would be typed; "" when it is not the amount that was looked for."""
    parts = sentence.parts[one.said_first : one.said_end]
    part = parts[0]
    if part.kind.startswith("size"):
        return said_size(part, sizes, region) if part.kind in one.phrase.slots else ""
    if one.fact.pick:
        bare = part.said.replace(" ", "").replace("percent", "%")
        return bare if bare in one.fact.pick else ""
    if one.fact.end:
        if len(part.sides) != 2:
            return ""
        return part.sides[0 if one.fact.end == "low" else 1].said
    if "span" in one.phrase.slots:
        return hours_between(parts[0].value, parts[-1].value)
    if "often" in one.phrase.slots:
        return as_typed([p.text for p in parts], [p.said or p.text for p in parts])
    if "swing" in one.phrase.slots and part.kind == "degrees":
        told = (other for other in sentence.parts if other.kind == "temperature")
        scales = {other.unit or "" for other in told}
        scales = scales or ({"degF" if region == "north_america" else "degC"} if region else set())
        return f"{part.value:g} {label(scales.pop())}" if len(scales) == 1 else ""
    if len(parts) == 1:
        said = part.said or part.text
        open_doubt = sentence.is_doubted(one.first, one.end)
        return f"maybe {said}" if open_doubt and said == part.said else said
    return " ".join(p.said or p.text for p in parts)


def fits(sentence: Sentence, one: Candidate) -> bool:
    """Whether the amount is of the kind the phrase asks for."""
    part = sentence.parts[one.said_first]
    slots, value, unit = one.phrase.slots, part.value, part.unit
    if "swing" in slots and part.sides:
        return False  # swings between 18 and 24 °C
    if "zero" in slots and not unit:
        return value == 0
    if slots & {"hours", "hours_a_day"}:
        return unit == "hour"
    if "under_5" in slots:
        return not unit and 0 < value < 5
    if "five_or_less" in slots:
        return not unit and 0 < value <= 5
    if "over_65" in slots:
        return not unit and 65 <= value < 110
    if one.fact.id == "wall_thickness":
        return unit is not None and convert(value, unit, "m") <= _THICKEST
    if one.fact.id == "heater_power":
        return unit is None or convert(value, unit, "W") <= _STRONGEST
    if "years_under_5" in slots:
        years = convert(value, unit, "year") if unit else 0.0
        return unit in ("week", "month", "year") and 0 < years < 5
    if "years_over_65" in slots:
        return unit == "year" and 65 <= value < 120
    if one.fact.id in _ANIMAL and one.fact.of == "turtle":
        return not part.sides and of_a_turtle(one.fact.id, value, unit or one.fact.adds)
    if "count" in slots:
        return value == int(value) and 0 < value < 100 and not part.sides
    return True
