"""The turtles of a whole story: mentions of the same ones put together, and told as facts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from interview.words.choices.choice import Choice
from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import Found, facts_in, phrases_about
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.counted import (
    MOST_TURTLES,
    Mention,
    Unclear,
    mentions_in,
    read_details,
)
from interview.words.mentions.turtles.kinds import kinds_of, with_kinds

__all__ = ["animals_in"]

_Pairs = Sequence[tuple[Sentence, frozenset[int]]]


def animals_in(told: Sequence[Sentence], species: Sequence[Choice], plans: str) -> list[Found]:
    """Facts about the turtles; none where they can't be told apart.

    Of the only one there is, what stands anywhere in the story. `plans` names the words that are
    no wishes, as `Sentence.wished` has it.
    """
    marked = with_kinds(told, species)
    pairs = [(s, s.wished(plans)) for s in marked]
    try:
        mentions = [one for sentence, off in pairs for one in mentions_in(sentence, off)]
        if any(one.is_strange for one in mentions) and not _speak_of_one(mentions):
            return []
        groups = _groups(mentions, kinds_of(species))
        total = sum(group.number for group in groups)
        where = [_read(pairs, group, mentions, alone=len(groups) == 1) for group in groups]
        others = any(_speaks_of_others(sentence, off, mentions) for sentence, off in pairs)
    except Unclear:
        return []
    if total == 1:
        alone = not others and sum(one.adds for one in mentions if one.name) < 2
        return list(_about_one(pairs, groups[0], where[0] if alone else None))
    if others or not 1 < total <= MOST_TURTLES:
        return []
    return list(_about_several(groups, where))


def _speak_of_one(mentions: Sequence[Mention]) -> bool:
    """Whether one turtle is spoken of, and then again as the turtle."""
    return sum(not one.definite for one in mentions) == 1 and not any(one.name for one in mentions)


def _groups(mentions: Sequence[Mention], kinds: Mapping[str, tuple[str, bool]]) -> list[Mention]:
    """One mention for every turtle or set of turtles; Unclear when the numbers disagree."""
    totals = {one.count for one in mentions if not one.name and one.adds}
    if len(totals) > 1:
        raise Unclear
    total = next(iter(totals), None)
    groups = _without_repeats([one for one in mentions if one.name], kinds)
    groups = groups or [one for one in mentions if total is None or one.count == total][:1]
    for group in groups:
        if group.count is None:
            if len(groups) > 1 or (group.many and total is None):
                raise Unclear
            group.count = total or 1
    if total is not None and sum(group.number for group in groups) != total:
        raise Unclear
    return groups


def _without_repeats(
    named: Sequence[Mention], kinds: Mapping[str, tuple[str, bool]]
) -> list[Mention]:
    """The slider, once it was spoken of as a slider, is the same one."""
    exact = any(not kinds[one.name][1] for one in named)
    kept: list[Mention] = []
    for one in named:
        kind, is_loose = kinds[one.name]
        if is_loose and exact and not one.adds:
            continue
        if kept and not is_loose and _is_said_again(kept[-1], one) and kinds[kept[-1].name][1]:
            kept[-1].name = one.name
            kept[-1].lengths += one.lengths
            continue
        same = [other for other in kept if kinds[other.name][0] == kind]
        if not same or (one.adds and one.sentence is same[-1].sentence and same[-1].adds):
            kept.append(one)
        elif len(same) > 1 or (one.count or 1) != (same[0].count or 1):
            if one.adds or len(same) > 1:
                raise Unclear
        elif same[0].count is None:
            same[0].count = one.count
    return kept


def _is_said_again(one: Mention, other: Mention) -> bool:
    """Whether a kind is only named more exactly: one musk turtle, Sternotherus carinatus."""
    if one.sentence is not other.sentence or other.many:
        return False
    is_name = one.sentence.parts[other.at].look == "name"  # a Sternotherus carinatus
    return other.at - one.at <= (3 if is_name else 2 if other.definite else 0)


def _speaks_of_others(sentence: Sentence, off: frozenset[int], mentions: Sequence[Mention]) -> bool:
    """Whether a sentence speaks of turtles beside those that were read: another of 5 inches."""
    if any(one.number > 1 and not one.name for one in mentions):
        return False  # the total was told; it is held against the kinds by itself
    own = [one for one in mentions if one.sentence is sentence]
    taken = {at for one in own for at in range(one.first, one.end)} | off
    beside = phrases_about("turtles_beside", sentence) if own else ()
    return any(
        taken.isdisjoint(range(found.first, found.end))
        for found in (*phrases_about("turtles", sentence), *beside)
    )


def _about_one(pairs: _Pairs, group: Mention, where: Sentence | None) -> Iterator[Found]:
    """Of the only turtle; `where` its details stand, None where others may be spoken of."""
    if where and group.is_counted:
        yield Found(group.sentence, "animal_count", "1", group.first, group.end)
    if group.name:
        yield Found(group.sentence, "species", group.name, group.at, group.at + 1, 0)
    known = set()
    for name, listed in group.details():
        if where and len(listed) == 1:
            known.add(name)
            said, at = listed[0]
            yield Found(where, name, said, at, at + 1, 0)
    for sentence, off in pairs:
        for found in facts_in(sentence, off, of="turtle"):
            if found.id not in known:
                yield replace(found, animal=0)


def _about_several(groups: Sequence[Mention], where: Sequence[Sentence]) -> Iterator[Found]:
    first, animal = groups[0], 0
    count = str(sum(group.number for group in groups))
    yield Found(first.sentence, "animal_count", count, first.first, first.end)
    for group, sentence in zip(groups, where, strict=True):
        for number in range(group.number):
            if group.name:
                span = group.first, group.end
                yield Found(group.sentence, "species", group.name, *span, animal)
            for name, listed in group.details():
                if one := _of(listed, number, group):
                    said, at = one
                    yield Found(sentence, name, said, at, at + 1, animal)
            animal += 1


def _read(pairs: _Pairs, group: Mention, mentions: Sequence[Mention], *, alone: bool) -> Sentence:
    """Read what is told of a group behind its mention, or in the sentence that takes it up."""
    sentence, before = group.sentence, (len(group.lengths), len(group.sexes))
    behind = [o.first for o in mentions if o.sentence is sentence and o.first > group.at]
    read_details(group, sentence, group.at + 1, min(behind, default=len(sentence.words)))
    number = next(n for n, (one, _) in enumerate(pairs) if one is sentence) + 1
    if not alone or (len(group.lengths), len(group.sexes)) != before or number == len(pairs):
        return sentence
    following, off = pairs[number]
    if off or following.word(0) not in known_words("animals", "taken_up"):
        return sentence
    read_details(group, following, 0, len(following.words))
    return following


def _of(listed: Sequence[tuple[str, int]], number: int, group: Mention) -> tuple[str, int] | None:
    """What was told of one of a group: in order, or of all of them."""
    if len(listed) == group.count:
        return listed[number]
    is_of_all = len(listed) == 1 and (group.every or listed[0][1] < group.at)
    return listed[0] if is_of_all else None
