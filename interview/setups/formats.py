"""The format of a setup file: an older one is brought up step by step, a newer one is refused."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from interview.base.rows.lines import Lined
from interview.setups.setup import FORMAT, SetupError, short

__all__ = ["STEPS", "Step", "brought_up"]

Step = Callable[[Lined], Lined]
STEPS: Mapping[int, Step] = {}
"""By the number of an older format, what makes the next one of a file's rows: none so far."""


def brought_up(
    rows: Lined, path: Path, now: str = FORMAT, steps: Mapping[int, Step] = STEPS
) -> Lined:
    """The rows of a setup file as this program's format has them; the file stays as it is.

    Args:
        rows: what the file holds
        path: where it lies
        now: the format to bring it to
        steps: what brings each older format one further

    Raises SetupError for no format, an unknown one and one of a newer program.
    """
    told, newest = _number(rows.get("format")), _number(now)
    if told is None or newest is None:
        said = f"“{short(rows['format'])}”" if "format" in rows else "missing"
        raise SetupError(f"{path.name}: the format is {said}; this program reads “{now}”.")
    if told > newest:
        raise SetupError(
            f"{path.name}: the format is “tankside/{told}”, of a newer Tankside; this one reads "
            f"up to “{now}”. The file stays as it is; open it with the newer one."
        )
    for number in range(told, newest):
        rows = steps[number](rows)
    return rows


def _number(said: Any) -> int | None:
    words = said if isinstance(said, str) else ""
    found = re.fullmatch(r"tankside/([1-9]\d{0,3})", words, re.ASCII)
    return int(found[1]) if found else None
