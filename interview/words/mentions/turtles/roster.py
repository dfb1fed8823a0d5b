"""The turtles of a whole story: mentions of the same ones put together, and told as facts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from interview.words.choices.choice import Choice
from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import Found, facts_in, phrases_about
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.counted import MOST_TURTLES, Mention, Unclear, mentions_in
from interview.words.mentions.turtles.details import other_things
from interview.words.mentions.turtles.individuals import Individuals
from interview.words.mentions.turtles.kinds import kinds_of, with_kinds
from interview.words.mentions.turtles.members import begins
from interview.words.mentions.turtles.pronouns import sex_by_pronoun

__all__ = ["animals_in"]

_list = partial(known_words, "animals")

_SAID_TO_BE = 4
"""Words before a kind that say who is one: the other one is a musk."""
_STEM = 4
"""Letters by which names that aren't known are alike: a snapper is a snapping turtle."""

_Pairs = Sequence[tuple[Sentence, frozenset[int]]]


def animals_in(told: Sequence[Sentence], species: Sequence[Choice], plans: str) -> list[Found]:
    """Facts about the turtles; none where they can't be told apart.

    Of the only one there is, what stands anywhere in the story. `plans` names the words that are
    no wishes, as `Sentence.wished` has it.
    """
    pairs = [(s, s.wished(plans)) for s in with_kinds(told, species)]
    kinds = kinds_of(species)
    try:
        mentions = [one for sentence, off in pairs for one in mentions_in(sentence, off)]
        groups = _groups(mentions, kinds)
        details: list[Individuals] = []
        for group in groups:
            unit = details[-1].unit if details else ""
            details.append(_read(pairs, group, groups, mentions, unit))
        for group, individuals in zip(groups, details, strict=True):
            if group.count is None:
                group.count = individuals.told if group.many else 1
        total = sum(group.number for group in groups)
        whole = any(
            g.number > 1 and d.comes_to(g.number) for g, d in zip(groups, details, strict=True)
        )
        others = not whole and any(_speaks_of_others(s, off, mentions) for s, off in pairs)
    except Unclear:
        return []
    if total == 1:
        alone = not others and len({id(o.sentence) for o in mentions if o.name and o.adds}) < 2
        found = list(_about_one(pairs, groups[0], details[0] if alone else None, kinds))
        known = any(one.id == "sex" for one in found)
        return found if known or not alone else [*found, *sex_by_pronoun(pairs)]
    if others or not 1 < total <= MOST_TURTLES:
        return []
    return list(_about_several(groups, details, kinds))


def _groups(mentions: Sequence[Mention], kinds: Mapping[str, tuple[str, bool]]) -> list[Mention]:
    """One mention for every turtle or set of turtles; Unclear when the numbers disagree."""
    totals = {one.count for one in mentions if not one.name and one.adds}
    if len(totals) > 1:
        raise Unclear
    total = next(iter(totals), None)
    groups = _without_repeats([one for one in mentions if one.name], kinds)
    groups = groups or [one for one in mentions if total is None or one.count == total][:1]
    if len(groups) > 1 and any(group.count is None for group in groups):
        raise Unclear
    if groups and groups[0].count is None:
        groups[0].count = total
    if total is not None and sum(group.number for group in groups) != total:
        raise Unclear
    return groups


def _without_repeats(
    named: Sequence[Mention], kinds: Mapping[str, tuple[str, bool]]
) -> list[Mention]:
    """The slider, once it was spoken of as a slider, is the same one."""
    exact = any(not _kind(kinds, one)[1] for one in named)
    kept: list[Mention] = []
    for one in named:
        kind, is_loose = _kind(kinds, one)
        if is_loose and _is_total(one, [o for o in named if not _kind(kinds, o)[1] and o.adds]):
            continue
        if is_loose and exact and not one.adds:
            more = (other for other in named if other is not one)
            if one.definite and all(o.adds and not _is_predicate(o) for o in more):
                raise Unclear  # Bess the slider, then a yellow-belly
            continue
        loose = kept and _kind(kinds, kept[-1])[1]
        if loose and not is_loose and _is_said_again(kept[-1], one):
            kept[-1].name = one.name
            kept[-1].lengths += one.lengths
            continue
        same = [other for other in kept if _kind(kinds, other)[0] == kind]
        if same and same[-1] is kept[-1] and _is_beside(kept[-1], one):
            kept[-1].end = one.at + 1  # Sternotherus odoratus (common musk)
            continue
        again = same and one.adds and one.sentence is same[-1].sentence and same[-1].count == 1
        joined = again and "and" in one.sentence.words[same[-1].at : one.first]
        apart = one.label and one.label not in [other.label for other in same]
        apart = apart or (
            one.adds and not kind and _first_words([one]).isdisjoint(_first_words(same))
        )
        apart = apart or (one.number > 0 and _are_of_another_sex(one, same))
        if not same or apart or (again and (same[-1].adds or (joined and not _is_predicate(one)))):
            kept.append(one)
        elif one.adds and _kind(kinds, same[-1])[1] and same[-1].number > max(1, one.number):
            continue  # two sliders, a red-eared one and a Cumberland
        elif len(same) > 1 or (one.count or 1) != (same[0].count or 1):
            if one.adds or len(same) > 1:
                raise Unclear
        else:
            same[0].count = same[0].count or one.count
            same[0].again.append(one)
    return kept


def _is_total(one: Mention, exact: Sequence[Mention]) -> bool:
    """Whether they are all told again by kind: a trio of maps, two Ouachitas and a false map."""
    if one.number < 2 or sum(other.number for other in exact) != one.number:
        return False
    head = {*one.name.split()} - _list("any")
    joined = exact[0].sentence is one.sentence and exact[0].sentence.word(exact[0].first - 1)
    return joined != "and" and all(head <= {*other.name.split()} for other in exact)


def _are_of_another_sex(one: Mention, same: Sequence[Mention]) -> bool:
    """Whether those told of as one sex are others than these: two females and three males."""
    sexes = [{detail.said for detail in other.sexes} for other in (one, *same)]
    return all(len(told) == 1 and told != sexes[0] for told in sexes[1:]) and len(sexes[0]) == 1


def _kind(kinds: Mapping[str, tuple[str, bool]], one: Mention) -> tuple[str, bool]:
    """Which kind it is and whether the name fits others; those that aren't known are as one."""
    return kinds.get(one.name, ("", False))


def _first_words(several: Sequence[Mention]) -> set[str]:
    """What tells kinds apart that aren't known: a spotted turtle and a Japanese pond turtle."""
    return {one.name[:_STEM] for one in several}


def _is_predicate(one: Mention) -> bool:
    """Whether it says what somebody spoken of is: she's a yellow-bellied slider."""
    words = one.sentence.words
    return not {*words[max(0, one.first - 3) : one.first]}.isdisjoint(_list("said_to_be"))


def _is_said_again(one: Mention, other: Mention) -> bool:
    """Whether a kind is only named more exactly: one musk turtle, Sternotherus carinatus."""
    if one.sentence is not other.sentence or (other.many and one.first != other.first):
        return False
    if one.first == other.first:
        return True  # three maps, northern maps
    if "and" in one.sentence.words[one.at : other.first]:
        return False
    is_name = one.sentence.parts[other.at].look == "name"  # a Sternotherus carinatus
    return other.at - one.at <= (3 if is_name else 2 if other.definite else 0)


def _is_beside(one: Mention, other: Mention) -> bool:
    """Whether only a mark parts two names, so that the second is the first in other words."""
    between = one.sentence.words[one.at + 1 : other.at]
    return one.sentence is other.sentence and between in ((), (",",))


def _speaks_of_others(sentence: Sentence, off: frozenset[int], mentions: Sequence[Mention]) -> bool:
    """Whether a sentence speaks of turtles beside those that were read: another of 5 inches."""
    if any(one.number > 1 and not one.name for one in mentions):
        return False  # the total was told; it is held against the kinds by itself
    own = [one for one in mentions if one.sentence is sentence]
    begins = ((one, one.first - _SAID_TO_BE * _is_predicate(one)) for one in own)
    taken = {at for one, first in begins for at in range(first, one.end)} | off
    beside = phrases_about("turtles_beside", sentence) if own else ()
    return any(
        taken.isdisjoint(range(found.first, found.end))
        for found in (*phrases_about("turtles", sentence), *beside)
    )


def _about_one(
    pairs: _Pairs,
    group: Mention,
    told: Individuals | None,
    kinds: Mapping[str, tuple[str, bool]],
) -> Iterator[Found]:
    """Of the only turtle; `told` is None where others may be spoken of beside it."""
    if told and group.is_counted:
        yield Found(group.sentence, "animal_count", "1", group.first, group.end)
    if group.name in kinds:
        yield Found(group.sentence, "species", group.name, group.at, group.at + 1, 0)
    known = set()
    for _, name, one in told.details(1) if told else ():
        known.add(name)
        yield Found(one.sentence, name, one.said, one.at, one.at + 1, 0)
    for sentence, off in pairs:
        for found in facts_in(sentence, off, of="turtle"):
            if found.id not in known:
                yield replace(found, animal=0)


def _about_several(
    groups: Sequence[Mention],
    told: Sequence[Individuals],
    kinds: Mapping[str, tuple[str, bool]],
) -> Iterator[Found]:
    first, animal = groups[0], 0
    count = str(sum(group.number for group in groups))
    yield Found(first.sentence, "animal_count", count, first.first, first.end)
    for group, individuals in zip(groups, told, strict=True):
        if group.name in kinds:
            span = group.first, group.end
            for number in range(group.number):
                yield Found(group.sentence, "species", group.name, *span, animal + number)
        for number, name, one in individuals.details(group.number):
            yield Found(one.sentence, name, one.said, one.at, one.at + 1, animal + number)
        animal += group.number


def _read(
    pairs: _Pairs,
    group: Mention,
    groups: Sequence[Mention],
    mentions: Sequence[Mention],
    unit: str,
) -> Individuals:
    """Read what is told of a group behind its mentions, and in the sentences that take it up."""
    alone = group.count == 1 or (group.count is None and not group.many)
    told = Individuals(group.lengths, group.sexes, alone, unit)
    others = [one for other in groups if other is not group for one in (other, *other.again)]
    read: set[Sentence] = set()
    for one in (group, *(group.again if others or not alone else ())):
        behind = [o.first for o in others if o.sentence is one.sentence and o.first > one.at]
        limit = min(behind, default=len(one.sentence.words))
        if one.sentence in read and limit == len(one.sentence.words):
            continue
        end = told.read(one.sentence, one.at + 1, limit)
        if one is group:
            group.end = max(group.end, end)
        if limit == len(one.sentence.words):
            read.add(one.sentence)
            if not others:
                _read_on(pairs, one.sentence, told, mentions)
    return told


def _read_on(
    pairs: _Pairs, sentence: Sentence, told: Individuals, mentions: Sequence[Mention]
) -> None:
    """Read the sentences that go on about them, and later ones about one of them by its name."""
    number = next(n for n, (one, _) in enumerate(pairs) if one is sentence) + 1
    goes_on = True
    for following, off in pairs[number:]:
        own = not off and all(one.sentence is not following for one in mentions)
        opens = following.word(0) in _list("taken_up") or _is_of_turtles_alone(following)
        opens = opens or following.word(0) in told.names
        goes_on = goes_on and own and opens
        if goes_on or (own and following.word(0) in told.names):
            goes_on = told.read(following, 0, len(following.words)) > 0 and goes_on


def _is_of_turtles_alone(sentence: Sentence) -> bool:
    """Whether it begins with one of them, and nothing else is named that an amount may be of."""
    opens = sentence.word(0) in _list("ranks") | _list("it") or sentence.parts[0].look == "owner"
    return (opens or begins(sentence)) and sentence.known.isdisjoint(other_things())
