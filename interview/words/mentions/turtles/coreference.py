"""The turtles of a whole story: mentions of the same ones put together, and told as facts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from interview.words.choices.choice import Option
from interview.words.mentions.attributes import Found
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.named import MOST_TURTLES, Group, Unclear, groups_in, names_of
from interview.words.mentions.turtles.only_one import about_the_only_one
from interview.words.mentions.turtles.unnamed import speaks_of_others

__all__ = ["animals_in"]


def animals_in(
    told: Sequence[Sentence], species: Sequence[Option], planned: bool
) -> list[tuple[Sentence, Found]]:
    """Facts about the turtles, each with its sentence; none where they can't be told apart.

    Of the only one there is, what stands anywhere in the story.
    """
    found = _together(told, species, planned)
    told_fully = any(fact.id == "carapace_length" for _, fact in found)
    if any(fact.animal for _, fact in found) and told_fully:
        return found
    known = {(fact.id, fact.animal) for _, fact in found}
    more = about_the_only_one(told, species, planned)
    return found + [row for row in more if (row[1].id, row[1].animal) not in known]


def _together(
    told: Sequence[Sentence], species: Sequence[Option], planned: bool
) -> list[tuple[Sentence, Found]]:
    """The turtles as they are named, each with what stands beside its name."""
    names = names_of(tuple(species))
    groups: list[Group] = []
    try:
        offs = [s.wished_beyond_plan if planned else s.wished for s in told]
        for sentence, off in zip(told, offs, strict=True):
            groups += groups_in(sentence, names, off, groups)
        pairs = zip(told, offs, strict=True)
        if groups and any(speaks_of_others(s, off, groups) for s, off in pairs):
            return []
        return list(_facts(_settled(groups)))
    except Unclear:
        return []


def _settled(groups: list[Group]) -> list[Group]:
    """One group for every turtle or set of turtles; Unclear when the numbers disagree."""
    kinds = _without_repeats([group for group in groups if group.species])
    anys = [group for group in groups if not group.species and group.count is not None]
    totals = {group.count for group in anys if not group.definite}
    if len(totals) > 1:
        raise Unclear
    total = next(iter(totals), None)
    if not kinds:
        return [group for group in anys if total in (None, group.count)][:1]
    if any(group.count is None for group in kinds):
        if len(kinds) > 1 or total is None:
            raise Unclear
        kinds[0].count = total
    if total is not None and sum(group.count or 0 for group in kinds) != total:
        raise Unclear
    return kinds


def _without_repeats(kinds: list[Group]) -> list[Group]:
    """The slider, once it was spoken of as a slider, is the same one."""
    kept: list[Group] = []
    for group in kinds:
        same = [one for one in kept if one.species == group.species]
        if not same or (group.sentence is same[-1].sentence and not group.definite):
            kept.append(group)
            continue
        if not group.definite or len(same) > 1 or (group.count or 1) != (same[0].count or 1):
            raise Unclear
        if group.every_length and not same[0].every_length and same[0].count == 1:
            same[0].every_length = group.every_length
            same[0].length_at = group.length_at or (group.sentence, group.first, group.end)
    return kept


def _facts(groups: list[Group]) -> Iterator[tuple[Sentence, Found]]:
    total = sum(group.count or 0 for group in groups)
    if not 1 <= total <= MOST_TURTLES:
        return
    first = groups[0]
    yield first.sentence, Found("animal_count", str(total), first.first, first.end)
    animal = 0
    for group in groups:
        count = group.count or 0
        matched = len(group.lengths) == count
        for number in range(count):
            length = group.every_length or (group.lengths[number] if matched else "")
            for name, said in _told_of(group, length):
                sentence, start, end = _place(group, name)
                yield sentence, Found(name, said, start, end, animal)
            animal += 1


def _place(group: Group, name: str) -> tuple[Sentence, int, int]:
    if name == "carapace_length" and group.length_at is not None:
        return group.length_at
    return group.sentence, group.first, group.end


def _told_of(group: Group, length: str) -> Iterator[tuple[str, str]]:
    told = {"species": group.species, "carapace_length": length, "sex": group.sex}
    yield from ((name, said) for name, said in told.items() if said)
