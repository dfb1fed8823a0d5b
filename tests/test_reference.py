"""Every outside value in tests/reference, against the law or quantity it is about."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from every import every

from interview.core.wiring import laws, quantities

ROWS = [
    pytest.param(row, id=f"{path.stem}-{number}-{row['of']}")
    for path in sorted((Path(__file__).parent / "reference").glob("*.yaml"))
    for number, row in enumerate(yaml.safe_load(path.read_text(encoding="utf-8")), start=1)
]


def _worked_out(name: str, given: dict[str, Any]) -> Any:
    given = {
        key: tuple(v) if isinstance(v, list) and v and isinstance(v[0], str) else v
        for key, v in given.items()
    }
    if name in laws():
        return laws()[name](given)
    return quantities().working(given).value(name)


@every("row", ROWS)
def test_outside_value(row: dict[str, Any]) -> None:
    assert row["source"] and row["status"], "a reference row names its source and status"
    got = _worked_out(row["of"], row["given"])
    allowed = row.get("absolute", 0.0) + row.get("relative", 0.0) * np.abs(row["expected"])
    assert np.allclose(got, row["expected"], rtol=0, atol=allowed), f"{got} ≠ {row['expected']}"
