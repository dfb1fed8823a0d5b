"""Facts found in a sentence: phrases joined to the thing they are about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from interview.words.telling_lexicon import raw_patterns
from interview.words.telling_rules import Phrase, Rule, rules
from interview.words.telling_sentences import Sentence
from interview.words.telling_tank import said_size

__all__ = ["Found", "Thing", "facts_in", "things_in"]

_UNUSED = "-"


@dataclass(frozen=True)
class Found:
    """A fact and the words of its sentence it was taken from."""

    id: str
    said: str
    first: int
    end: int
    animal: int | None = None


@dataclass(frozen=True)
class Thing:
    """A thing named in a sentence."""

    name: str
    first: int
    end: int


@dataclass(frozen=True)
class _Candidate:
    rule: Rule
    phrase: Phrase
    first: int
    end: int
    said_first: int
    said_end: int


def things_in(sentence: Sentence) -> list[Thing]:
    """Every thing named, longest names first."""
    lexicon = sentence.lexicon
    found = [
        Thing(lexicon.thing_of[match.group().strip()], first, end)
        for first, end, match in sentence.spots(lexicon.things)
    ]
    trades = [at for at, word in enumerate(sentence.words) if word == "<trade>"]
    return sorted([*found, *(Thing("tank", at, at + 1) for at in trades)], key=lambda t: t.first)


def _candidates(sentence: Sentence) -> Iterator[_Candidate]:
    for rule in rules():
        if rule.with_words and not rule.with_words & sentence.known:
            continue
        for phrase in rule.phrases:
            if all(need & sentence.known for need in phrase.needs):
                yield from _matches(sentence, rule, phrase)


def _matches(sentence: Sentence, rule: Rule, phrase: Phrase) -> Iterator[_Candidate]:
    for first, end, match in sentence.spots(phrase.pattern):
        if first == end or sentence.word(first - 1) in rule.not_after:
            continue
        if "said" in match.re.groupindex and match.start("said") >= 0:
            said = sentence.place(match.start("said")), sentence.place(match.end("said"))
        else:
            said = first, end
        yield _Candidate(rule, phrase, first, end, *said)


def facts_in(
    sentence: Sentence, planned: bool, sizes: Iterable[tuple[float, ...]], region: str
) -> list[Found]:
    """What a sentence says for sure."""
    things = things_in(sentence)
    candidates = list(_candidates(sentence))
    sure = [c for c in candidates if _is_sure(sentence, c, planned)]
    net = _Net(sentence, things, sure)
    taken = [c for c in sure if not c.rule.of or net.joined(c)]
    longest = [c for c in taken if not any(_inside(c, other) for other in taken)]
    found = [_found(sentence, c, sizes, region) for c in longest if c.rule.id != _UNUSED]
    return [fact for fact in found if fact is not None] + list(_absent(sentence, planned))


def _inside(one: _Candidate, other: _Candidate) -> bool:
    """Whether another phrase says more with the same words about the same thing."""
    return (
        other.first <= one.first
        and one.end <= other.end
        and (other.end - other.first) > (one.end - one.first)
        and other.rule.of == one.rule.of
        and (bool(one.rule.of) or one.rule.id == other.rule.id)
    )


def _is_sure(sentence: Sentence, found: _Candidate, planned: bool) -> bool:
    """Neither denied nor wished for, nor doubted, nor one of two alternatives."""
    off = sentence.wished_beyond_plan if planned else sentence.wished
    if not found.rule.even_wished and not off.isdisjoint(range(found.first, found.end)):
        return False
    if found.rule.even_wished and sentence.asked:
        return False
    if sentence.is_denied(found.first, found.end):
        return False
    if found.rule.unless is not None and found.rule.unless.search(sentence.line):
        return False
    if found.rule.says:
        return not sentence.is_doubted(found.first, found.end)
    return sentence.word(found.said_first - 1) != "or" and not (
        sentence.word(found.said_end) == "or" and sentence.word(found.said_end + 1)[:1] == "<"
    )


class _Net:
    """Which phrases hang together with which thing."""

    def __init__(self, sentence: Sentence, things: list[Thing], sure: list[_Candidate]) -> None:
        self.sentence = sentence
        self.thing_at: dict[int, Thing] = {
            at: thing for thing in things for at in range(thing.first, thing.end)
        }
        self.things = things
        self.sure = sure

    def joined(self, one: _Candidate) -> bool:
        """Whether only linking words and facts about the thing stand between it and the phrase."""
        if one.phrase.bare and not self._ends_well(one):
            return False
        return self._before_thing(one) or self._after_thing(one)

    def _ends_well(self, one: _Candidate) -> bool:
        """An amount alone must not belong to a thing that comes after it."""
        after = self.sentence.word(one.end)
        if not after or after in self.sentence.lexicon.breaths:
            return True
        thing = self.thing_at.get(one.end)
        if thing is not None:
            return thing.name == one.rule.of
        if any(c.first == one.end and c.rule.of == one.rule.of for c in self.sure):
            return True
        return after in self.sentence.lexicon.linking or self._before_thing(one)

    def _before_thing(self, one: _Candidate) -> bool:
        """A 200 watt submersible heater."""
        adjectives = self.sentence.lexicon.before.get(one.rule.of, frozenset())
        at = one.end
        while at < len(self.sentence.words):
            thing = self.thing_at.get(at)
            if thing is not None:
                return thing.name == one.rule.of
            following = next(
                (c.end for c in self.sure if c.first == at and c.rule.of == one.rule.of), None
            )
            if self.sentence.words[at] in adjectives:
                at += 1
            elif following is not None and self.sentence.words[at] not in ("at", "from", "with"):
                at = following
            else:
                return False
        return False

    def _after_thing(self, one: _Candidate) -> bool:
        """The heater is a 200 watt, lying flat; also when "it" takes up the sentence before."""
        at = one.first - 1
        while at >= 0:
            thing = self.thing_at.get(at)
            jumped = self._jump(at, one)
            if jumped is not None and (thing is None or thing.name != one.rule.of):
                at = jumped
                continue
            if thing is not None:
                return thing.name == one.rule.of and not self._is_shared(thing, one)
            if self.sentence.words[at] not in self.sentence.lexicon.linking:
                return False
            at -= 1
        return self._taken_up(one)

    def _jump(self, at: int, one: _Candidate) -> int | None:
        """Over another phrase about the same thing."""
        ends = [
            c.first - 1
            for c in self.sure
            if c.first <= at < c.end and c.end <= one.first and c.rule.of == one.rule.of
        ]
        return min(ends, default=None)

    def _is_shared(self, thing: Thing, one: _Candidate) -> bool:
        """The lamp and heater are 100 watts: whose, nobody can say, unless both or each."""
        words = self.sentence.words
        if words[thing.first - 1 : thing.first] in (("the",), ("my",), ("our",)):
            before = thing.first - 2
        else:
            before = thing.first - 1
        if before < 1 or words[before] not in ("and", "or") or before - 1 not in self.thing_at:
            return False
        return not {"both", "each"} & set(words[thing.end : one.first])

    def _taken_up(self, one: _Candidate) -> bool:
        """It, at the start of a sentence, is the first thing of the sentence before."""
        sentence = self.sentence
        if one.rule.alone and not sentence.word(0).startswith("it"):
            return True
        if sentence.word(0) not in ("it", "its") or sentence.before is None:
            return False
        first = next(iter(things_in(sentence.before)), None)
        return first is not None and first.name == one.rule.of


def _found(
    sentence: Sentence, one: _Candidate, sizes: Iterable[tuple[float, ...]], region: str
) -> Found | None:
    said = one.rule.says or _said(sentence, one, sizes, region)
    if not said:
        return None
    return Found(one.rule.id, said, one.first, one.end)


def _said(
    sentence: Sentence, one: _Candidate, sizes: Iterable[tuple[float, ...]], region: str
) -> str:
    """The amount as it would be typed; "" when it is not the amount that was looked for."""
    parts = sentence.parts[one.said_first : one.said_end]
    part = parts[0]
    if part.kind.startswith("size"):
        return said_size(part, sizes, region) if _is_allowed(one, part.kind) else ""
    if not _fits(one, part.value, part.unit or "", part.said):
        return ""
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


def _is_allowed(one: _Candidate, kind: str) -> bool:
    return kind in one.phrase.slots


def _fits(one: _Candidate, value: float, unit: str, said: str) -> bool:
    slots = one.phrase.slots
    if "zero" in slots and not unit:
        return value == 0
    if slots & {"hours", "hours_a_day"}:
        return unit == "hour"
    if "years_under_5" in slots:
        return unit == "year" and 0 < value < 5
    if "years_over_65" in slots:
        return unit == "year" and 65 <= value < 120
    if "count" in slots:
        return value == int(value) and 0 < value < 100 and said.split()[-1:] == [said]
    return True


@cache
def _denied_things() -> tuple[str, dict[str, dict[str, str]]]:
    from interview.words.telling_lexicon import alternatives

    owner = {
        way.replace("_", " "): row["facts"]
        for row in raw_patterns()["absent"]
        for way in row["words"].split("|")
    }
    return alternatives(owner), owner


@cache
def _denial() -> tuple[object, ...]:
    import re

    item = _denied_things()[0]
    opening = (
        r"(?:no |without |(?:dont|doesnt|havent|hasnt|do not|does not) (?:have |got |use )"
        r"|(?:isnt|not|arent) (?:on |in |plugged into )?)(?:a |an |any |the )?"
    )
    following = f"(?:(?:, or |, nor |, |or |nor )(?:a |an |any )?{item})"
    return re.compile(f"(?<= ){opening}(?P<one>{item})(?P<more>{following}*)"), re.compile(item)


def _absent(sentence: Sentence, planned: bool) -> Iterator[Found]:
    """What the tank does without: no heater, filter or UVB."""
    if not sentence.denials:
        return
    import re

    whole, item = _denial()
    assert isinstance(whole, re.Pattern) and isinstance(item, re.Pattern)
    off = sentence.wished_beyond_plan if planned else sentence.wished
    for first, end, match in sentence.spots(whole):
        more = match["more"]
        listed = bool(more) and ("or " in more or "nor " in more)
        close = end if listed else sentence.place(match.end("one"))
        after = sentence.word(close)
        if after and after not in raw_patterns()["denied_after"]:
            continue
        if not off.isdisjoint(range(first, close)):
            continue
        names = [match["one"]] + (item.findall(more) if listed else [])
        for name in names:
            for fact, said in _denied_things()[1][name.strip()].items():
                yield Found(fact, said, first, close)
