"""The sources a page lists are those its blocks cite, however its words read."""

from __future__ import annotations

import dataclasses
import re

import pytest

from interview.audit.audit import Audit
from interview.care.facts import bibliography
from interview.report.blocks import Block, Heading, Items
from interview.report.cited import source_name
from interview.report.page.whole import page_of

_DATED = {key for key in bibliography() if re.search(r"_\d{4}$", key)}
"""Keys whose names nobody would write but to cite them."""
DEMOS = ["map_turtle_hatchling", "musk_turtle", "reeves_turtle_planned"]


def _listed(blocks: list[Block]) -> list[str]:
    """The keys under “Sources”, the last heading of a page."""
    assert isinstance(blocks[-2], Heading) and blocks[-2].text == "Sources"
    assert isinstance(blocks[-1], Items)
    return [lead for lead, _ in blocks[-1].rows]


def _words(block: Block) -> str:
    """What a block shows."""
    return repr(dataclasses.replace(block, sources=()))


def test_words_of_the_keeper_add_no_source(demos: dict[str, Audit]) -> None:
    audit = demos["musk_turtle"]
    plain = _listed(list(page_of(dataclasses.replace(audit, title="A tank"))))
    # Keys of the bibliography that are ordinary words too, or may be typed as they stand.
    assert {"physics", "geometry"} <= set(bibliography())
    added = " ".join(sorted(set(audit.sources) - set(plain)))
    titled = dataclasses.replace(audit, title=f"physics, 2 amp geometry {added}")
    assert _listed(list(page_of(titled))) == plain


@pytest.mark.parametrize("name", DEMOS)
def test_a_block_carries_the_sources_it_shows(demos: dict[str, Audit], name: str) -> None:
    """Every key in brackets or after “Sources:” is carried by its block, and no other is."""
    for block in list(page_of(demos[name]))[:-2]:
        shown = {key for key in _DATED if source_name(key) in _words(block)}
        assert shown == {key for key in block.sources if key in _DATED}, block
        assert all(source_name(key) in _words(block) for key in block.sources), block
