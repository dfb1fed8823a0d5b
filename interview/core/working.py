"""One tank's quantities, worked out on demand and kept."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from copy import copy
from typing import TYPE_CHECKING, Any

from interview.core.errors import BeyondFormula, CannotWorkOut, Missing
from interview.core.remembered import Remembered, RememberedDear

if TYPE_CHECKING:
    from interview.core.wiring import Wiring

__all__ = ["Working"]


class Working:
    """One tank's quantities, worked out on demand and kept.

    A name that is known outright is never recomputed, so a caller can pin any
    quantity (a measured one, a calibration taken before a change). In a working of `draws`
    the few that leave a formula's own range count as at its end, in that formula alone.
    One that is `remembering` and all that come of it look up what was found for any of them.
    """

    def __init__(
        self,
        wiring: Wiring,
        known: Mapping[str, Any],
        *,
        draws: bool = False,
        remembered: Remembered | RememberedDear | None = None,
    ) -> None:
        self.wiring = wiring
        self.draws = draws
        self._remembered = remembered
        self.known = {name: value for name, value in known.items() if value is not None}
        self._done: dict[str, Any] = {}
        self._whole: Working | None = None
        self._alone: dict[int, Working] = {}
        self._before: tuple[Mapping[str, Any], Mapping[int, Working]] = {}, {}
        """What was known, and of its animals, in the working that this one was made of."""

    def of_animal(self, row: int) -> Working:
        """The same tank as far as it concerns one animal, counted from 0; kept."""
        if row not in self._alone:
            each, (was, animals) = self.wiring.each_animal, self._before
            before, known = animals.get(row), dict(self.known)
            for name in each & known.keys():
                value = known[name]
                if before is not None and was.get(name) is value:
                    known[name] = before.known[name]
                else:
                    known[name] = self._same(_one(value, row))
            alone = Working(self.wiring, known, draws=self.draws, remembered=self._remembered)
            if before is not None:
                alone._keep(before, alone._unlike(before))
            alone._whole = self._sharing()
            self._alone[row] = alone
        return self._alone[row]

    def _sharing(self) -> Working:
        """The same tank with what is done for it, that holds none of its animals.

        Held itself by them, it would be freed late: with its arrays, by a search of all objects.
        """
        same = copy(self)
        same._alone, same._before = {}, ({}, {})
        return same

    def value(self, name: str) -> Any:
        """The quantity, or raises Missing, NotApplicable or OutOfRange saying why not."""
        found = self._found(name)
        if isinstance(found, CannotWorkOut):
            raise found.again()
        return found

    def get(self, name: str) -> Any:
        """The quantity, or None when it can't be worked out."""
        found = self._found(name)
        return None if isinstance(found, CannotWorkOut) else found

    def with_known(self, known: Mapping[str, Any]) -> Working:
        """The same tank with other things known; what does not depend on them is kept.

        A calibration pinned at the value it has counts as unchanged.
        """
        other = Working(self.wiring, known, draws=self.draws, remembered=self._remembered)
        unlike = other._unlike(self)
        if self._remembered is not None:
            other.known |= {name: self._remembered.one(other.known[name]) for name in unlike}
            unlike = [name for name in unlike if self.known.get(name) is not other.known[name]]
        other._keep(self, unlike)
        other._before = self.known, self._alone
        return other

    def _unlike(self, earlier: Working) -> list[str]:
        """What is known otherwise than in an earlier working, or wasn't known there."""
        before, done = map(earlier.known.get, self.known), earlier._done
        known = zip(self.known.items(), before, strict=True)
        return [n for (n, v), old in known if old is not v and done.get(n) is not v]

    def _keep(self, earlier: Working, unlike: Iterable[str]) -> None:
        """Take over what an earlier working came to and what is known otherwise doesn't move."""
        gone = earlier.known.keys() - self.known.keys()
        moved = self.wiring.moved_by(frozenset((*unlike, *gone)))
        self._done = done = earlier._done.copy()
        for name in (*moved.intersection(done), *self.known.keys() & done.keys()):
            done.pop(name, None)

    def remembering(self, *, only_dear: bool = False) -> Working:
        """The same tank, to be changed again and again; of draws what is dear is remembered only.

        So it is `only_dear` at best values of animals that are alike.
        """
        dear = only_dear or self.draws
        memory = RememberedDear(draws=self.draws) if dear else Remembered()
        other = Working(self.wiring, self.known, draws=self.draws, remembered=memory)
        other._done = dict(self._done)
        return other

    def found(self, names: Iterable[str]) -> tuple[Any, ...]:
        """For each name its value, or the reason why there is none."""
        return tuple(self._found(name) for name in names)

    def unit_of(self, name: str) -> str:
        """The name's core unit; "1" for a name the core does not know."""
        return self.wiring.units.get(name, "1")

    def why_not(self, name: str) -> CannotWorkOut | None:
        """The reason a quantity has no value, or None if it has one."""
        found = self._found(name)
        return found if isinstance(found, CannotWorkOut) else None

    def _found(self, name: str) -> Any:
        """The quantity or the reason why it has no value, worked out once."""
        if name in self.known:
            return self.known[name]
        if self._whole is not None and name not in self.wiring.differing:
            return self._whole._found(name)
        if name not in self._done:
            try:
                self._done[name] = self._compute(name)
            except CannotWorkOut as problem:
                self._done[name] = self._same(problem.with_traceback(None))
        return self._done[name]

    def _same(self, value: Any) -> Any:
        """The value, or one like it that stands for all of them."""
        return value if self._remembered is None else self._remembered.one(value)

    def _compute(self, name: str) -> Any:
        formula = self.wiring.formulas.get(name)
        if formula is None:
            raise Missing(name)
        given: dict[str, Any] = {}
        missing: list[Missing] = []
        for item in formula.inputs:
            found = self._found(item.name)
            if not isinstance(found, CannotWorkOut):
                given[item.name] = found
            elif item.optional and not isinstance(found, BeyondFormula):
                continue
            elif isinstance(found, Missing):
                missing.append(found)
            else:
                raise found
        if missing:
            raise Missing.union(missing)
        if self._remembered is not None:
            return self._remembered(formula, given)
        return formula(given, draws=self.draws)


def _one(values: Any, row: int) -> Any:
    """One animal's part of a row of words, or of numbers with the animals on the last axis."""
    return values[row : row + 1] if isinstance(values, tuple) else values[..., row : row + 1]
