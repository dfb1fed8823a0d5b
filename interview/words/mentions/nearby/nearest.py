"""What an amount or a word is about where no phrase takes it: the nearest topic that can own it.

The rows compete: of all that fit an amount, the one whose topic stands nearest takes it, and a
thing that stands nearer still, though no row of it fits, keeps it from every other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from interview.base.units import CORE_UNITS, convert
from interview.words.forms.size import Sizes
from interview.words.lexicon.files import phrases, words
from interview.words.lexicon.rows import Fact, Near
from interview.words.lexicon.rules import Rule, rules_in
from interview.words.mentions.attributes import Found, fits, found_of, is_sure, matches
from interview.words.mentions.nearby.doubt import disagree, is_doubtful
from interview.words.mentions.nearby.shell import is_of_a_shell
from interview.words.mentions.nearby.topics import owner, topics_in
from interview.words.mentions.relations import Candidate, Thing
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["amounts_near", "nearest_in"]

_SOUTH = ("australia", "elsewhere")
"""Where July is winter, or may be."""
_BEHIND = 4
"""Words behind an amount that may still say what it measures: 9 inches from the stone."""


@dataclass(frozen=True)
class _Claim:
    """A row that fits words of a sentence, and how far off its topic stands."""

    one: Candidate
    away: tuple[bool, int]
    """Whether no cue stands in the breath of the words themselves; words to the topic."""
    before: bool
    """Whether a cue stands before the words, and not only behind them."""


def nearest_in(
    sentence: Sentence,
    off: frozenset[int],
    taken: frozenset[int],
    sizes: Sizes,
    region: str,
    listed: str = "near",
) -> Iterator[Found]:
    """Facts by the nearest topic, but near wishes (`off`) and of words that were taken."""
    topics = topics_in(sentence)
    claims: dict[int, list[_Claim]] = {}
    for rule, phrase in rules_in(listed, sentence.known):
        for one in matches(sentence, rule.fact, phrase):
            claim = _claim(sentence, rule, one, topics, region)
            if claim is not None and taken.isdisjoint(range(one.said_first, one.said_end)):
                claims.setdefault(one.said_first, []).append(claim)
    past = frozenset() if sentence.asked else off
    won = [claim.one for rivals in claims.values() for claim in _won(rivals)]
    for one in won:
        if any(disagree(sentence, one, other) for other in won):
            continue
        if is_sure(sentence, one, off) and not is_doubtful(sentence, one, topics, past):
            found = found_of(sentence, one, sizes, region)
            if found is not None:
                yield found


@cache
def amounts_near() -> frozenset[str]:
    """Questions that amounts answer here, and no words."""
    return frozenset(row.id for row in phrases().near) - {
        row.id for row in phrases().near if row.says
    }


def _won(rivals: list[_Claim]) -> Iterator[_Claim]:
    """Of the claims to the same words those of the nearest topic; what a word says they share.

    One amount is not the coldest and the warmest: of such claims, as near, the one whose cue
    stands before the amount is meant, and else neither.
    """
    least = min(claim.away for claim in rivals)
    near = [claim for claim in rivals if claim.away == least and not claim.one.fact.says]
    cues = {claim.one.fact.id: _set(claim.one.fact) for claim in near if _set(claim.one.fact)}
    meant = {*cues}
    if len(cues) > 1 and not frozenset.intersection(*cues.values()):
        led = {claim.one.fact.id for claim in near if claim.before}
        meant = led if len(led) == 1 else set()
    yield from (claim for claim in near if claim.one.fact.id in meant or not _set(claim.one.fact))
    yield from (claim for claim in rivals if claim.one.fact.says)


def _set(fact: Fact) -> frozenset[str]:
    """The cues of a row."""
    near: Near = fact  # type: ignore[assignment]
    return frozenset(near.cues)


def _claim(
    sentence: Sentence, rule: Rule, one: Candidate, topics: list[Thing], region: str
) -> _Claim | None:
    """The row's claim to the words; None where the topic, a cue or the size is another's."""
    near: Near = rule.fact  # type: ignore[assignment]
    if not (fits(sentence, one) and _is_of_its_size(sentence, one, near)):
        return None
    is_length = near.of == "turtle" and near.id == "carapace_length"
    if is_length and not is_of_a_shell(sentence, one.said_first):
        return None
    topic, away = owner(sentence, one, near, topics)
    if away is None:
        return None
    opened, closed = _window(sentence, one, topic)
    said = f" {' '.join(sentence.words[opened:closed])} "
    if rule.unless is not None and rule.unless.search(said):
        return None
    south = region in _SOUTH and not words().seasons_apart.keys().isdisjoint(said.split())
    if south and len(sentence.parts[one.said_first].sides) == 2:
        return None
    cues = _cues(near, region)
    before, behind = _cued(sentence, opened, one, cues)
    if not (before or behind):
        return None
    here = any(_cued(sentence, sentence.breath(one.first, one.end)[0], one, cues))
    return _Claim(one, (not here, away), before)


def _cues(near: Near, region: str) -> frozenset[str]:
    """A row's cues; July is winter in the south; of a keeper from elsewhere no month counts."""
    cues = frozenset(near.cues)
    if region not in _SOUTH:
        return cues
    apart = words().seasons_apart
    months = cues & apart.keys()
    south = {apart[month] for month in months} if region == "australia" else ()
    return (cues - months).union(south)


def _is_of_its_size(sentence: Sentence, one: Candidate, near: Near) -> bool:
    part = sentence.parts[one.said_first]
    if near.units and part.unit not in near.units:
        return False
    if part.kind == "number" and near.adds:
        return near.least <= part.value <= near.most
    if part.kind not in CORE_UNITS or part.unit is None or part.unit[0] == "?":
        return True
    return near.least <= convert(part.value, part.unit, CORE_UNITS[part.kind]) <= near.most


def _window(sentence: Sentence, one: Candidate, topic: Thing | None) -> tuple[int, int]:
    """The words that say what is measured: from the breath before the topic's to the amount's.

    What follows with "but" takes something back, so it counts too. The breath before is of
    something else where it tells an amount of its own.
    """
    first = min(topic.first if topic else 0, one.first)
    opened = sentence.breath(first, first + 1)[0]
    closed = sentence.breath(one.end - 1, one.end)[1]
    if sentence.word(closed) == "," and sentence.word(closed + 1) == "but":
        closed += 1
    if sentence.word(closed) == "but":
        closed = sentence.breath(closed, closed + 1)[1]
    if opened > 0:
        before = sentence.breath(opened - 1, opened)[0]
        said = sentence.words[one.said_first]
        told = said[:1] == "<" and said in sentence.words[before:opened]
        opened = opened if told and one.said_first >= opened else before
    return opened, max(closed, topic.end if topic else 0)


def _cued(
    sentence: Sentence, opened: int, one: Candidate, cues: frozenset[str]
) -> tuple[bool, bool]:
    """Whether a cue stands before the amount and behind the one before; and right behind it."""
    if not cues:
        return False, True
    told = sentence.words
    amounts = [at for at in range(opened, one.first) if told[at][:1] == "<"]
    if amounts:
        opened = amounts[-1] + 1
    if amounts and told[one.said_first] == "<temperature>":  # 18 °C in winter and 28 °C in August
        rest = range(opened, one.first)
        opened = next((at for at in rest if _parts(told[at]) or told[at] == "to"), opened)
    closed = one.end
    while closed < min(len(told), one.end + _BEHIND) and not _parts(told[closed]):
        closed += 1
    return (
        not cues.isdisjoint(told[opened : one.first]),
        not cues.isdisjoint(told[one.end : closed]),
    )


def _parts(word: str) -> bool:
    """Whether a word parts what is said of one amount from what is said of the next."""
    return word[:1] in ("<", ",") or word in ("and", "but", "then")
