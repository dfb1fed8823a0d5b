"""The word files say nothing twice: no list names a word again, no place stands in two regions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from interview.words.lexicon import files
from interview.words.lexicon.files import people

LEXICON = Path(files.__file__).parent
PAIRS = {"said_in"}
"""A metric and an American unit each, which may be the same."""


def _twice(node: Any, at: str) -> Iterator[str]:
    """Words that stand again in a list, or among the alternatives of a group of words."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key not in PAIRS:
                yield from _twice(value, f"{at} {key}")
    elif isinstance(node, list) and not all(isinstance(one, str) for one in node):
        for number, value in enumerate(node):
            yield from _twice(value, f"{at} {number}")
    else:
        words = node if isinstance(node, list) else node.split("|") if " " not in node else []
        yield from (f"{at}: {word}" for word, times in Counter(words).items() if times > 1)


@pytest.mark.parametrize("name", [file.stem for file in sorted(LEXICON.glob("*.yaml"))])
def test_no_word_stands_twice_in_a_list(name: str) -> None:
    read = yaml.load((LEXICON / f"{name}.yaml").read_text("utf-8"), yaml.BaseLoader)
    assert list(_twice(read, name)) == []


def test_a_doubled_word_would_be_found() -> None:
    assert [*_twice({"a": ["b", "b"], "c": [{"d": "e|e"}]}, "x")] == ["x a: b", "x c 0 d: e"]


def test_no_place_stands_in_two_regions() -> None:
    places = Counter(place for named in people().regions.values() for place in named)
    assert [place for place, times in places.items() if times > 1] == []


def test_what_is_no_wish_where_the_tank_is_planned_stands_in_one_list() -> None:
    lists = [set(files.listed(name)) for name in ("wishes", "givers", "plans", "plans_of_animals")]
    assert sum(map(len, lists)) == len(set().union(*lists))
