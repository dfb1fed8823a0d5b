"""The turtles of a whole story, told as facts."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import dropwhile
from operator import attrgetter

from interview.words.choices.choice import Choice
from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import Found, facts_in, phrases_about
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import LENGTH, MASS, other_things
from interview.words.mentions.turtles.group import Group
from interview.words.mentions.turtles.kinds import KIND, kinds_of, with_kinds
from interview.words.mentions.turtles.mention import MOST_TURTLES, Mention, Unclear
from interview.words.mentions.turtles.noun_phrases import begins, mentions_in
from interview.words.mentions.turtles.pronouns import sex_by_pronoun
from interview.words.mentions.turtles.reader import Reader
from interview.words.mentions.turtles.roster import Roster

__all__ = ["animals_in"]

_list = partial(known_words, "animals")

_SAID_TO_BE = 4
"""Words before a kind that say who is one: the other one is a musk."""

_SHORT = 3
"""Sentences of a story in which males and females of no kind are taken for turtles."""

_Pairs = Sequence[tuple[Sentence, frozenset[int]]]
_Kinds = Mapping[str, tuple[str, bool]]


def animals_in(told: Sequence[Sentence], species: Sequence[Choice], plans: str) -> list[Found]:
    """Facts about the turtles; none where they can't be told apart.

    Of the only one there is, what stands anywhere in the story. `plans` names the words that are
    no wishes, as `Sentence.wished` has it.
    """
    pairs = [(s, s.wished(plans)) for s in with_kinds(told, species)]
    kinds = kinds_of(species)
    try:
        roster, mentions, covered = _read(pairs, kinds)
    except Unclear:
        return []
    if roster is None:
        return []
    roster.all.settle()
    groups = [one for one in roster.all.told_apart if one.kind]
    groups = groups or roster.all.told_apart
    roster.all.members = groups
    if len(groups) == 1 and groups[0].is_of_a_kind and roster.totals == {1}:
        groups[0].be_one()  # sliders grow, they say of my turtle
    total = roster.all.count or (sum(one.number for one in groups) if groups else roster.all.number)
    apart = sum(one.number for one in groups)
    if len(roster.totals) > 1 or (groups and apart not in (0, total)) or not total:
        return []
    vague = (one for one in groups if one.count is None and (not one.many or not one.number))
    if len(groups) > 1 and any(one.first.head == "kind" for one in vague):
        return []
    whole = any(one.is_whole for one in (*groups, roster.all))
    others = not (whole or roster.totals - {1}) and any(
        _speaks_of_others(s, off, mentions, covered.get(id(s), ())) for s, off in pairs
    )
    if not any(one.head in ("kind", "turtle") for one in mentions) and (
        total == 1 or not any(name in (LENGTH, MASS) for _, name, _ in roster.all.details(0, total))
    ):
        return []
    if total == 1:
        group = groups[0] if groups else roster.all
        found = list(_about_one(pairs, group, not others, kinds))
        known = any(one.id == "sex" for one in found)
        return found if known or others else [*found, *sex_by_pronoun(pairs)]
    if others or total > MOST_TURTLES:
        return []
    return list(_about_several(roster.all, total, kinds))


def _read(pairs: _Pairs, kinds: _Kinds) -> tuple[Roster | None, list[Mention], dict[int, set[int]]]:
    """Go through the sentences about turtles, and those that go on about them."""
    roster, reader = None, None
    every: list[Mention] = []
    goes_on = False
    words = _list("any") | {KIND}
    named = any(not words.isdisjoint(sentence.known) for sentence, _ in pairs)
    no_own = _list("no_own") | _list("persons")
    alone = (
        not named
        and len(pairs) <= _SHORT
        and all(no_own.isdisjoint(sentence.known) for sentence, _ in pairs)
    )
    for sentence, off in pairs:
        names: Collection[str] = roster.names if roster is not None else ()
        mentions = mentions_in(sentence, off, names)
        if roster is None:
            mentions = [*dropwhile(attrgetter("is_compared"), mentions)]
        heads = {one.head for one in mentions}
        own = not heads.isdisjoint(("kind", "turtle", *(("sex",) if alone else ())))
        if roster is None:
            if not own:
                continue
            roster = Roster(kinds, mentions[0], alone)
            reader = Reader(roster)
        opens = sentence.word(0) in names
        opens = opens or (
            goes_on and (sentence.word(0) in _list("taken_up") or _is_of_turtles_alone(sentence))
        )
        assert reader is not None
        if own or (opens and not off):
            goes_on = reader.read(sentence, mentions, goes_on and not own)
            every += [one for one in mentions if one.is_met]
        else:
            goes_on = False
    return roster, every, reader.covered if reader is not None else {}


def _is_of_turtles_alone(sentence: Sentence) -> bool:
    """Whether it begins with one of them, and nothing else is named that an amount may be of."""
    opens = sentence.word(0) in _list("ranks") | _list("it") or sentence.parts[0].look == "owner"
    opens = opens or begins(sentence)
    return opens and sentence.known.isdisjoint(other_things())


def _speaks_of_others(
    sentence: Sentence, off: frozenset[int], mentions: Sequence[Mention], told: Collection[int] = ()
) -> bool:
    """Whether a sentence speaks of turtles beside those that were read: another of 5 inches."""
    own = [one for one in mentions if one.sentence is sentence]
    begins = ((one, one.first - _SAID_TO_BE * one.is_predicate) for one in own)
    taken = {at for one, first in begins for at in range(first, one.end)} | off
    taken |= {*told}
    beside = phrases_about("turtles_beside", sentence) if own else ()
    return any(
        taken.isdisjoint(range(found.first, found.end))
        for found in (*phrases_about("turtles", sentence), *beside)
    )


def _about_one(pairs: _Pairs, group: Group, alone: bool, kinds: _Kinds) -> Iterator[Found]:
    """Of the only turtle; not `alone` where others may be spoken of beside it."""
    first = group.first
    if alone and (counted := group.counted):
        end = group.end if counted is first else counted.end
        yield Found(counted.sentence, "animal_count", "1", counted.first, max(end, counted.end))
    if group.kind in kinds and (named := group.named):
        span = named.at, named.at + 1
        yield Found(named.sentence, "species", group.kind, *span, 0, group.is_guess)
    known = set()
    for _, name, one in group.details(0, 1) if alone else ():
        known.add(name)
        yield Found(one.sentence, name, one.said, one.at, one.at + 1, 0)
    for sentence, off in pairs:
        for found in facts_in(sentence, off, of="turtle"):
            if found.id not in known:
                yield replace(found, animal=0)


def _about_several(everyone: Group, total: int, kinds: _Kinds) -> Iterator[Found]:
    first = everyone.members[0] if everyone.members and not everyone.count else everyone
    begun, end = first.first, max(first.end, first.first.end)
    yield Found(begun.sentence, "animal_count", str(total), begun.first, end)
    for animal, group in everyone.kinds(0, total):
        if group.kind in kinds and (named := group.named):
            end = group.end if named is group.first else named.end
            span = named.first, max(end, named.end)
            yield Found(named.sentence, "species", group.kind, *span, animal, group.is_guess)
    for animal, name, one in everyone.details(0, total):
        yield Found(one.sentence, name, one.said, one.at, one.at + 1, animal)
