"""One tank as the audit sees it: best values, draws of doubt, its animals one by one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from interview.audit.animal import Animal
from interview.audit.inconsistencies import Inconsistency, inconsistencies
from interview.care.facts import limits
from interview.care.species import profile
from interview.core.working import Working
from interview.vocabulary.phrases import rounded

__all__ = ["Tank"]


@dataclass(frozen=True)
class Tank:
    """One tank at its best values and as a sample, and how to speak to its keeper."""

    best: Working
    sample: Working
    unit_of: Callable[[str], str]
    label_of: Callable[[str], str]
    system: str
    assumed: frozenset[str] = frozenset()
    hint_of: Callable[[str], str] = lambda _: ""
    predicted: frozenset[str] = frozenset()
    """Readings nobody took: worked out for a tank as it would be."""
    decided: frozenset[str] = frozenset()
    """Answers of a tank in planning that its list gave where the keeper had not decided."""

    def lookup(self, name: str) -> Any:
        """Best value of a limit, answer or quantity; None if unknown."""
        fact = limits().get(name)
        return fact.value if fact else self.best.get(name)

    def sample_of(self, name: str) -> Any:
        """The draws of a limit, answer or quantity; its best value where the sample fails."""
        found = None if name in limits() else self.sample.get(name)
        return self.lookup(name) if found is None else found

    def require(self, name: str) -> None:
        """Raise the reason why a name has no value, if it has none."""
        if name not in limits():
            self.best.value(name)

    @property
    def several(self) -> bool:
        """Whether more than one animal is known of."""
        return len(self.best.known.get("species") or ()) > 1

    @cached_property
    def animals(self) -> tuple[Animal, ...]:
        """Its animals, of those that are alike only the first; () where no kind is known."""
        species = self.best.known.get("species")
        if not species or not all(species):
            return ()
        rows = {
            name: self.best.known[name]
            for name in self.best.wiring.each_animal & set(self.best.known)
        }
        if any(np.shape(row)[-1:] != (len(species),) for row in rows.values()):
            return ()
        unlike: dict[tuple[str, ...], int] = {}
        for row in range(len(species)):
            unlike.setdefault(tuple(str(rows[name][row]) for name in sorted(rows)), row)
        return self._named(tuple(unlike.values()))

    @cached_property
    def outermost(self) -> tuple[Animal, ...]:
        """Of each kind and stage the smallest and the largest: those a band finds first."""
        stages = self.best.get("life_stage")
        ends: dict[tuple[str, float], list[Animal]] = {}
        for animal in sorted(self.animals, key=lambda one: one.carapace_length or 0.0):
            stage = 0.0 if stages is None else float(np.atleast_1d(stages)[animal.row])
            ends.setdefault((animal.species, stage), []).append(animal)
        found = {one.row: one for group in ends.values() for one in (group[0], group[-1])}
        return tuple(found[row] for row in sorted(found))

    @cached_property
    def inconsistencies(self) -> tuple[Inconsistency, ...]:
        """Its answers that don't fit together; a prediction is nobody's slip."""
        found = inconsistencies(self.best.get, self.unit_of, self.system)
        return tuple(
            inconsistency for inconsistency in found if not self.predicted & {*inconsistency.rests}
        )

    def _named(self, rows: tuple[int, ...]) -> tuple[Animal, ...]:
        """Animals by kind and length; with their sex or number where these are the same."""
        known = self.best.known
        lengths = known.get("carapace_length")
        sexes = known.get("sex") or ("unknown",) * len(known["species"])
        plain = [self._called(row, lengths) for row in rows]
        fuller = [
            f"{text[:-1]}, {sexes[row]})" if text.endswith(")") else f"{text} ({sexes[row]})"
            for row, text in zip(rows, plain, strict=True)
        ]
        animals = []
        for row, text, full in zip(rows, plain, fuller, strict=True):
            name = text if plain.count(text) == 1 else full
            if plain.count(text) > 1 and fuller.count(full) > 1:
                name = f"{text}, animal {row + 1}"
            length = None if lengths is None else float(lengths[row])
            animals.append(Animal(row, known["species"][row], name, length))
        return tuple(animals)

    def _called(self, row: int, lengths: Any) -> str:
        kind = profile(self.best.known["species"][row]).name
        if lengths is None:
            return kind
        return f"{kind} ({rounded(lengths[row], 'm', self.system, 'carapace_length')})"

    def only(self, animal: Animal | None) -> Tank:
        """The tank as far as it concerns one of its animals; itself for None."""
        if animal is None:
            return self
        best, sample = self.best.of_animal(animal.row), self.sample.of_animal(animal.row)
        return replace(self, best=best, sample=sample)
