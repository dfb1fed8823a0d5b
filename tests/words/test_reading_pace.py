"""A paragraph is read before one waits for it, a line before the key is let go."""

from __future__ import annotations

import time

import pytest
from pace import within
from told_score import paragraphs

from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.what_if import read_what_if
from interview.graph.interview import Interview
from interview.words.mentions.clauses import clauses_in


@pytest.mark.parametrize(
    "said",
    [
        "what if the water line is two and three quarter inches below the rim",
        "what if I change a third of the water every week",
    ],
)
def test_a_line_takes_five_milliseconds(musk: Interview, said: str) -> None:
    read_what_if(musk, said)

    def spent() -> float:
        clauses_in.cache_clear()
        start = time.process_time()
        read_what_if(musk, said)
        return time.process_time() - start

    assert within(0.005, spent, tries=8)


def test_a_paragraph_takes_a_fifth_of_a_second(musk: Interview) -> None:
    longest = max((paragraph["text"] for paragraph in paragraphs("tuning")), key=len)
    read_story(musk, longest)

    def spent() -> float:
        start = time.process_time()
        read_story(musk, longest)
        return time.process_time() - start

    assert within(0.2, spent, tries=6)
