"""Of the dictionary of meanings nothing is misread silently: read right, said back, or asked."""

from __future__ import annotations

from collections import Counter

import pytest
from meanings import cases
from taken import taken

REGIONS = ("europe", "north_america")


@pytest.mark.parametrize("region", REGIONS)
def test_nothing_is_misread_silently(region: str) -> None:
    found = [taken(region, case) for case in cases()]
    counts = Counter(what for what, _ in found)
    print(f"{region}: {dict(counts)}")
    assert [said for what, said in found if what == "wrong"] == []
    assert counts["right"] >= 0.84 * len(found)
    assert counts["said back"] <= 30, [said for what, said in found if what == "said back"]
