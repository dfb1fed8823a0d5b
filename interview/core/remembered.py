"""What formulas came to for one tank, so that none works out the same twice.

A search tries thousands of sets of changes on one tank. Each touches little: what it leaves alone
goes into the formulas as the very same objects, and then the result is the one there is.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

import numpy as np

from interview.core.errors import CannotWorkOut
from interview.core.formula import Formula

__all__ = ["Remembered", "RememberedDear"]

_MOST_NUMBERS = 600_000
"""Numbers in the arrays that were met, of 8 bytes each; one met again counts again."""
_MOST_RESULTS = 20_000
_SHORT = 4_096
"""Arrays of more numbers than this are not looked for among those there are."""
_MOST_DEAR = 24
"""Results of dear formulas that are kept, of 16 kB each; those used longest ago are let go."""


_Digest: TypeAlias = tuple[tuple[Any, ...], ...]


class Remembered:
    """Results by what went in; once it holds too much all is forgotten and it starts anew."""

    def __init__(self) -> None:
        self._forget()

    def _forget(self) -> None:
        self._results: dict[tuple[Any, ...], tuple[tuple[Any, ...], Any]] = {}
        self._same: dict[tuple[Any, ...], Any] = {}
        self._numbers = 0

    def __call__(self, formula: Formula, given: Mapping[str, Any]) -> Any:
        """The formula's result for these inputs; what it refuses, it refuses again.

        Args:
            formula: what is worked out
            given: its inputs by name, each the object that `one` gives
        """
        values = tuple(map(given.get, formula.names))
        key = (formula.name, *map(id, values))
        if key not in self._results:
            if self._numbers > _MOST_NUMBERS or len(self._results) > _MOST_RESULTS:
                self._forget()
            found = _found(lambda: formula(given))
            self._results[key] = values, self.one(found)
        return _told(self._results[key][1])

    def one(self, value: Any) -> Any:
        """The first object of those that are alike: a word, a number, an array or a refusal."""
        if isinstance(value, np.ndarray):
            self._numbers += value.size
            if value.size > _SHORT or value.dtype == object:
                return value
            key: tuple[Any, ...] = value.dtype.char, value.shape, value.tobytes()
        elif isinstance(value, CannotWorkOut):
            key = type(value), value.args
        else:
            key = type(value), value
        return self._same.setdefault(key, value)


class RememberedDear:
    """Results of dear formulas, by the numbers that went in; all else is worked out each time."""

    def __init__(self, *, draws: bool) -> None:
        self._draws = draws
        self._results: OrderedDict[tuple[str, _Digest], Any] = OrderedDict()

    def __call__(self, formula: Formula, given: Mapping[str, Any]) -> Any:
        """The formula's result for these numbers; what it refuses, it refuses again."""
        if not formula.dear:
            return formula(given, draws=self._draws)
        key = formula.name, _digest(given)
        if key not in self._results:
            self._results[key] = _found(lambda: formula(given, draws=self._draws))
            if len(self._results) > _MOST_DEAR:
                self._results.popitem(last=False)
        self._results.move_to_end(key)
        return _told(self._results[key])

    def one(self, value: Any) -> Any:
        """The value: what is alike is known by its numbers."""
        return value


def _digest(given: Mapping[str, Any]) -> _Digest:
    """Names and words as they are; of arrays kind, shape and the hash of their bytes.

    That has 64 bits, so among some dozens of clouds two never share it by chance. A digest of
    hashlib would cost 3 MB for its library.
    """
    return tuple(
        (name, value.dtype.char, value.shape, hash(value.tobytes()))
        if isinstance(value, np.ndarray)
        else (name, repr(value))
        for name, value in given.items()
    )


def _found(work: Callable[[], Any]) -> Any:
    try:
        return work()
    except CannotWorkOut as problem:
        return problem.with_traceback(None)


def _told(found: Any) -> Any:
    if isinstance(found, CannotWorkOut):
        raise found
    return found
