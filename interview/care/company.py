"""Who can share a tank: rules on kinds, sexes and sizes, each with status and source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar, Literal, get_args

from interview.base.rows import Names, Row, read
from interview.care.sources import Sourced
from interview.care.species import profile

__all__ = ["SEVERITIES", "CompanyRules", "Pair", "Severity", "company_rules", "stands_as"]

Severity = Literal["good", "close", "wrong", "danger"]
SEVERITIES: tuple[Severity, ...] = get_args(Severity)
"""From nothing against it to a danger; the place is the number the core reckons with."""

Pair = Literal["males", "one_of_each", "male_with_females", "females", "unknown", "young"]
_Kinds = tuple[Annotated[str, Names("species")], ...]


class _Rule(Sourced, frozen=True, kw_only=True):
    """A rule with what it says of a pair and why."""

    severity: Severity
    meaning: str


class Singly(_Rule, frozen=True, kw_only=True):
    """Kinds that are kept singly."""

    EXAMPLE: ClassVar[str] = (
        "{species: [apalone_spinifera], severity: danger, status: practice, "
        "source: common_practice, meaning: they bite each other}"
    )
    species: _Kinds
    two_females: Severity | None = None


class WatchedKinds(_Rule, frozen=True, kw_only=True):
    """Kinds for which no company is better than this."""

    species: _Kinds


class Sexes(_Rule, frozen=True, kw_only=True):
    """Two animals of one kind by their sexes; no `species` holds for every kind."""

    pair: Pair
    species: _Kinds = ()


class Sizes(_Rule, frozen=True, kw_only=True):
    """Two shells by the smaller over the larger, from `least` on."""

    least: float


class SmallMales(_Rule, frozen=True, kw_only=True):
    """How small a kind's males are beside its females for their size not to count."""

    below: float


class Kinds(_Rule, frozen=True, kw_only=True):
    """Animals of two kinds."""

    one: _Kinds
    other: _Kinds
    adult_females_of_a_family: Severity | None = None

    def names(self, one: str, other: str) -> bool:
        """Whether it speaks of these two kinds, in either order."""

        def has(kinds: tuple[str, ...], kind: str) -> bool:
            return not kinds or kind in kinds

        return any(has(self.one, a) and has(self.other, b) for a, b in ((one, other), (other, one)))


class CompanyRules(Row, frozen=True, kw_only=True):
    """Every rule, in the order in which they are looked through."""

    singly: tuple[Singly, ...]
    sexes: tuple[Sexes, ...]
    watched: tuple[WatchedKinds, ...]
    sizes: tuple[Sizes, ...]
    small_males: SmallMales
    kinds: tuple[Kinds, ...]

    @property
    def named(self) -> frozenset[str]:
        """Every kind that some rule names."""
        alone = (kind for rules in (self.singly, self.sexes, self.watched) for kind in _of(rules))
        pairs = (kind for rule in self.kinds for kind in (*rule.one, *rule.other))
        return frozenset((*alone, *pairs))

    def kept_singly(self, species: str) -> Singly | None:
        """The rule that says that a kind is kept singly."""
        return next((rule for rule in self.singly if species in rule.species), None)

    def of_sexes(self, pair: Pair, species: str) -> Sexes:
        """What is said of such a pair of this kind."""
        fits = (r for r in self.sexes if r.pair == pair and species in (r.species or (species,)))
        return next(fits)

    def at_best(self, species: str) -> Severity:
        """What is said of the best company of a kind."""
        return next((rule.severity for rule in self.watched if species in rule.species), "good")

    def of_kinds(self, one: str, other: str) -> Kinds:
        """What is said of two kinds together."""
        return next(rule for rule in self.kinds if rule.names(one, other))


def _of(rules: Iterable[Singly | Sexes | WatchedKinds]) -> Iterator[str]:
    return (kind for rule in rules for kind in rule.species)


@cache
def company_rules() -> CompanyRules:
    """The project's own rules."""
    return read(Path(__file__).with_suffix(".yaml"), CompanyRules)


@cache
def stands_as(species: str) -> str:
    """The kind whose rules hold for this one: its own, where it is named in any; else its sister's.

    A sister is the kind that its profile is `like`.
    """
    named = company_rules().named
    while species not in named and profile(species).like:
        species = profile(species).like
    return species
