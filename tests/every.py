"""One rule held against many rows in one test, which names every row that breaks it.

`@every("name", rows)` is written like `@pytest.mark.parametrize`. It suits rules that take no time
and need nothing set up for a row: thousands of such tests cost more to collect than to run.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable
from typing import Any

import pytest

__all__ = ["every"]

_Test = Callable[..., None]
_MOST_TOLD = 40


def every(
    names: str | tuple[str, ...],
    rows: Iterable[Any],
    ids: Callable[[Any], object] | None = None,
) -> Callable[[_Test], _Test]:
    """Run a test for each row, and fail once with a line for each row that failed.

    A row that would be skipped counts as failed: it would take the rows after it along.
    """
    keys = names.replace(",", " ").split() if isinstance(names, str) else names
    cases = [_values(row, len(keys)) for row in rows]

    def decorated(test: _Test) -> _Test:
        def over_all(**fixtures: Any) -> None:
            assert cases, "a rule without a row holds nothing"
            broken = []
            for values in cases:
                try:
                    test(**dict(zip(keys, values, strict=True)), **fixtures)
                except (Exception, pytest.fail.Exception, pytest.skip.Exception) as problem:
                    label = ", ".join(str((ids and ids(v)) or repr(v)) for v in values)
                    broken.append(f"{label}: {type(problem).__name__}: {problem}")
            if broken:
                told = "\n".join(broken[:_MOST_TOLD])
                pytest.fail(f"{len(broken)} of {len(cases)} rows break this:\n{told}")

        signature = inspect.signature(test)
        left = [p for name, p in signature.parameters.items() if name not in keys]
        over_all.__signature__ = signature.replace(parameters=left)  # type: ignore[attr-defined]
        over_all.__name__, over_all.__doc__ = test.__name__, test.__doc__
        over_all.__module__, over_all.__dict__["pytestmark"] = test.__module__, _marks(test)
        return over_all

    return decorated


def _values(row: Any, many: int) -> tuple[Any, ...]:
    """A row's values, of a pytest.param too."""
    if hasattr(row, "marks"):
        return tuple(row.values)
    return (row,) if many == 1 else tuple(row)


def _marks(test: _Test) -> list[Any]:
    return list(getattr(test, "pytestmark", []))
