"""The animals as company for each other: the worst pair by kind, sex and size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Any, Literal, NamedTuple, TypeAlias, get_args

import numpy as np

from interview.care.company import SEVERITIES, Pair, Severity, company_rules, stands_as
from interview.care.species import Profile
from interview.core.animal.per_animal import known_species
from interview.core.errors import NotApplicable
from interview.core.numeric import Num, Words, floats

__all__ = ["company_reason", "company_severity"]
QUANTITIES = __all__

Reason = Literal[
    "young", "females", "male_with_females", "one_of_each", "males", "unknown", "singly",
    "sizes", "kinds",
]  # fmt: skip
REASONS: tuple[Reason, ...] = get_args(Reason)
"""What speaks most against the company; the vocabulary has a word for each place."""

_Said: TypeAlias = tuple[Any, Reason]
"""A severity [1], for each draw, and its reason."""


class _Animal(NamedTuple):
    """One of them: its profile, its sex, its length in each draw and at the middle."""

    kind: Profile
    sex: str
    length: Any

    @property
    def grown(self) -> bool:
        """Whether the middle of its draws reaches the least adult length of its sex."""
        return bool(np.median(self.length) >= self.kind.adult_carapace_length(self.sex).low)


def company_severity(
    species: Words,
    sex: Words,
    carapace_length: Num,
    sight_barriers: bool | None = None,
    swim_area: Num | None = None,
    required_swim_area: Num | None = None,
    platform_area: Num | None = None,
    platform_area_needed: Num | None = None,
) -> Any:
    """What speaks against the worst pair: 0 nothing, 1 watch, 2 wrong, 3 danger [1].

    Formula: the worst of all pairs by kinds kept singly, sexes of adults, size and kinds; females
    of one kind, but for kinds that are always watched, count as nothing against them where water
    surface and platform serve all of them and something breaks the view between them

    Source: common_practice, sexes and kinds kept singly [practice]
    Source: cadi_joly_2004, sliders with European pond turtles [published]
    Source: modelling_choice, sizes [assumption]
    """
    room = bool(sight_barriers) & _at_least(swim_area, required_swim_area)
    room = room & _at_least(platform_area, platform_area_needed)
    return _worst(species, sex, carapace_length, room)[0]


def company_reason(species: Words, sex: Words, carapace_length: Num) -> Any:
    """What speaks most against the company, as the place of its word [1].

    Formula: the reason of the worst pair at the middle of the lengths

    Source: common_practice, sexes and kinds kept singly [practice]
    """
    middle = np.median(np.atleast_2d(carapace_length), axis=0)
    return float(REASONS.index(_worst(species, sex, middle, False)[1]))


def _at_least(value: Num | None, needed: Num | None) -> Any:
    return False if value is None or needed is None else np.greater_equal(value, needed)


def _worst(species: Words, sex: Words, carapace_length: Num, room: Any) -> _Said:
    lengths = floats(carapace_length)
    if len(species) < 2:
        raise NotApplicable("only one turtle lives here")
    animals = [
        _Animal(known_species(kind), own, lengths[..., place])
        for place, (kind, own) in enumerate(zip(species, sex, strict=True))
    ]
    said = [said for pair in combinations(animals, 2) for said in _of_pair(*pair, animals, room)]
    reason = max(said, key=lambda one: float(np.median(one[0])))[1]
    severities = np.broadcast_arrays(*(severity for severity, _ in said))
    return np.max(np.stack(severities), axis=0), reason


def _of_pair(
    one: _Animal, other: _Animal, animals: Sequence[_Animal], room: Any
) -> Iterator[_Said]:
    """Everything that speaks against two animals together."""
    yield _of_sizes(one, other)
    for rule in filter(None, (company_rules().kept_singly(_kind(a)) for a in (one, other))):
        let_off = rule.two_females if _one_kind(one, other) and _females(one, other) else None
        yield _number(let_off or rule.severity), "singly"
    if _one_kind(one, other):
        yield _of_sexes(one, other, animals, room)
        return
    kinds = company_rules().of_kinds(_kind(one), _kind(other))
    family = one.kind.family == other.kind.family
    let_off = kinds.adult_females_of_a_family if family and _females(one, other) else None
    yield _number(let_off or kinds.severity), "kinds"


def _number(severity: Severity) -> float:
    return float(SEVERITIES.index(severity))


def _one_kind(one: _Animal, other: _Animal) -> bool:
    """Whether they count as one kind: of one profile, or forms that may live together."""
    kinds = _kind(one), _kind(other)
    return kinds[0] == kinds[1] or company_rules().of_kinds(*kinds).severity == "good"


def _kind(animal: _Animal) -> str:
    """The kind whose rules of company hold for it."""
    return stands_as(animal.kind.id)


def _females(*animals: _Animal) -> bool:
    return all(animal.sex == "female" and animal.grown for animal in animals)


def _of_sexes(one: _Animal, other: _Animal, animals: Sequence[_Animal], room: Any) -> _Said:
    pair = _pair(one, other, animals)
    severity = _number(company_rules().of_sexes(pair, _kind(one)).severity)
    at_best = _number(company_rules().at_best(_kind(one)))
    return (np.where(room, at_best, severity) if pair == "females" else severity), pair


def _pair(one: _Animal, other: _Animal, animals: Sequence[_Animal]) -> Pair:
    """What two animals of one kind are to each other, by sex, age and the rest of their kind."""
    if not (one.grown and other.grown):
        return "young"
    sexes = {one.sex, other.sex}
    if "unknown" in sexes:
        return "unknown"
    if len(sexes) == 1:
        return "males" if sexes == {"male"} else "females"
    kin = [animal.sex for animal in animals if _one_kind(animal, one) and animal.grown]
    served = kin.count("male") == 1 and kin.count("female") > 1
    return "male_with_females" if served else "one_of_each"


def _of_sizes(one: _Animal, other: _Animal) -> _Said:
    """What the difference in length does; less where the males of the kind are small by nature."""
    share = np.minimum(one.length, other.length) / np.maximum(one.length, other.length)
    rules = company_rules().sizes
    severity = np.select(
        [share >= rule.least for rule in rules], [_number(rule.severity) for rule in rules]
    )
    if _one_kind(one, other) and _small_males(one, other):
        severity = np.minimum(severity, _number(company_rules().small_males.severity))
    return severity, "sizes"


def _small_males(one: _Animal, other: _Animal) -> bool:
    """Whether they are a grown pair of a kind whose males stay small."""
    if {one.sex, other.sex} != {"male", "female"} or not (one.grown and other.grown):
        return False
    male, female = (one.kind.adult_carapace_length(sex).middle for sex in ("male", "female"))
    return bool(male < company_rules().small_males.below * female)
