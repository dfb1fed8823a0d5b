"""Facts found in a sentence: phrases joined to the thing they are about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from interview.base.units import convert
from interview.words.lexicon.rules import Phrase, Rule, rules_for
from interview.words.mentions.competing import has_second
from interview.words.mentions.negation import Found, absent_in
from interview.words.mentions.parts import Part
from interview.words.mentions.relations import Candidate, Relations, Thing, things_in
from interview.words.mentions.scope import Sentence
from interview.words.mentions.tank_size import said_size

__all__ = ["Found", "facts_in"]

_UNUSED = "-"
_THICKEST = 0.045
"""m; glass of a longer side is no thickness."""


def _candidates(sentence: Sentence, things: list[Thing]) -> Iterator[Candidate]:
    """Phrases that stand in the sentence, each once."""
    names = {thing.name for thing in things}
    taken_up = sentence.word(0) in ("it", "its")
    for rule, phrase in rules_for(sentence.known):
        if rule.of == "turtle":
            continue
        if rule.of and not (rule.of in names or rule.alone or taken_up):
            continue
        if rule.with_words and rule.with_words.isdisjoint(sentence.known):
            continue
        if rule.unless is None or not rule.unless.search(sentence.line):
            yield from _matches(sentence, rule, phrase)


def _matches(sentence: Sentence, rule: Rule, phrase: Phrase) -> Iterator[Candidate]:
    for first, end, match in sentence.spots(phrase.pattern):
        if first == end or sentence.word(first - 1) in rule.not_after:
            continue
        if "said" in match.re.groupindex and match.start("said") >= 0:
            said = sentence.place(match.start("said")), sentence.place(match.end("said"))
        else:
            said = first, end
        yield Candidate(rule, phrase, first, end, *said)


def facts_in(
    sentence: Sentence, planned: bool, sizes: Iterable[tuple[float, ...]], region: str
) -> list[Found]:
    """What a sentence says for sure."""
    off = sentence.wished_beyond_plan if planned else sentence.wished
    things = things_in(sentence)
    candidates = list(_candidates(sentence, things))
    sure = [c for c in candidates if _is_sure(sentence, c, off)]
    relations = Relations(sentence, things, sure)
    taken = [c for c in sure if not c.rule.of or relations.joined(c)]
    own = frozenset(at for c in taken for at in range(c.first, c.end))
    single = [c for c in _longest(taken) if not has_second(sentence, c, relations.names, own)]
    found = [_found(sentence, c, sizes, region) for c in single]
    return [fact for fact in found if fact is not None] + list(absent_in(sentence, off))


def _longest(taken: list[Candidate]) -> Iterator[Candidate]:
    """Without phrases inside one that says more of the same thing, or marks it as of no use."""
    spans: dict[tuple[str, str], set[tuple[int, int]]] = {}
    for one in taken:
        spans.setdefault(_topic(one.rule), set()).add((one.first, one.end))
    for one in taken:
        others = spans[_topic(one.rule)]
        inside = (
            first <= one.first and one.end <= end and end - first > one.end - one.first
            for first, end in others
        )
        if one.rule.id != _UNUSED and not any(inside):
            yield one


def _topic(rule: Rule) -> tuple[str, str]:
    """What phrases compete for: all about one thing, or one fact about none."""
    return (rule.of, "") if rule.of else ("", rule.id)


def _is_sure(sentence: Sentence, found: Candidate, off: frozenset[int]) -> bool:
    """Neither denied nor wished for, nor doubted, nor one of two alternatives."""
    if not found.rule.even_wished and not off.isdisjoint(range(found.first, found.end)):
        return False
    if found.rule.even_wished and sentence.asked:
        return False
    if sentence.is_denied(found.first, found.end):
        return False
    if found.rule.sole and sentence.words.count(sentence.words[found.said_first]) > 1:
        return False
    if found.rule.says:
        return not sentence.is_doubted(found.first, found.end)
    return sentence.word(found.said_first - 1) != "or" and not (
        sentence.word(found.said_end) == "or" and sentence.word(found.said_end + 1)[:1] == "<"
    )


def _found(
    sentence: Sentence, one: Candidate, sizes: Iterable[tuple[float, ...]], region: str
) -> Found | None:
    part = sentence.parts[one.said_first]
    if not _fits(one, part):
        return None
    said = one.rule.says or _said(sentence, one, sizes, region)
    if not said:
        return None
    said = f"{said} deep" if one.rule.deep else said
    return Found(one.rule.id, said, one.first, one.end)


def _said(
    sentence: Sentence, one: Candidate, sizes: Iterable[tuple[float, ...]], region: str
) -> str:
    """The amount as it would be typed; "" when it is not the amount that was looked for."""
    parts = sentence.parts[one.said_first : one.said_end]
    part = parts[0]
    if part.kind.startswith("size"):
        return said_size(part, sizes, region) if part.kind in one.phrase.slots else ""
    if one.rule.pick:
        bare = part.said.replace(" ", "").replace("percent", "%")
        return bare if bare in one.rule.pick else ""
    if one.rule.end:
        if len(part.sides) != 2:
            return ""
        return part.sides[0 if one.rule.end == "low" else 1].said
    if len(parts) == 1:
        said = part.said or part.text
        open_doubt = sentence.is_doubted(one.first, one.end)
        return f"maybe {said}" if open_doubt and said == part.said else said
    return " ".join(p.said or p.text for p in parts)


def _fits(one: Candidate, part: Part) -> bool:
    """Whether the amount is of the kind the phrase asks for."""
    slots, value, unit = one.phrase.slots, part.value, part.unit
    if "zero" in slots and not unit:
        return value == 0
    if slots & {"hours", "hours_a_day"}:
        return unit == "hour"
    if "under_5" in slots:
        return not unit and 0 < value < 5
    if "over_65" in slots:
        return not unit and 65 <= value < 110
    if one.rule.id == "wall_thickness":
        return unit is not None and convert(value, unit, "m") <= _THICKEST
    if "years_under_5" in slots:
        return unit == "year" and 0 < value < 5
    if "years_over_65" in slots:
        return unit == "year" and 65 <= value < 120
    if "count" in slots:
        return value == int(value) and 0 < value < 100 and not part.sides
    return True
