"""Told paragraphs in as many voices: sixty, one half tuned on and one only counted, and more."""

from __future__ import annotations

import pytest
from told_score import paragraphs, score


def test_the_halves_are_of_a_size() -> None:
    assert len(paragraphs("tuning")) == len(paragraphs("held_out")) == 30


def test_of_the_half_that_was_tuned_on_nothing_is_wrong(capsys: pytest.CaptureFixture[str]) -> None:
    found = score("tuning")
    with capsys.disabled():
        print(
            f"\ntuning: {found.recall:.3f} of {sum(found.said.values())}, wrong {len(found.wrong)}"
        )
    assert found.wrong == []
    assert found.recall >= 0.85


def test_the_half_that_was_held_out_is_counted(capsys: pytest.CaptureFixture[str]) -> None:
    """Only counted: what is missed or wrong there is never shown, so that nobody tunes to it."""
    found = score("held_out")
    wrong = len(found.wrong)
    with capsys.disabled():
        print(f"\nheld out: {found.recall:.3f} of {sum(found.said.values())}, wrong {wrong}")
    assert found.recall >= 0.6
    assert wrong <= 1


def test_of_those_written_later_nothing_is_wrong(capsys: pytest.CaptureFixture[str]) -> None:
    found = score("tuning_further")
    with capsys.disabled():
        print(f"\nfurther: {found.recall:.3f} of {sum(found.said.values())}")
    assert found.wrong == []
    assert found.recall >= 0.88


def test_single_sentences_are_taken_for_what_they_say(capsys: pytest.CaptureFixture[str]) -> None:
    found = score("sentences")
    with capsys.disabled():
        print(f"\nsentences: {found.recall:.3f} of {sum(found.said.values())}")
    assert found.wrong == []
    assert found.recall >= 0.85


def test_of_voices_nobody_had_heard_before_nothing_is_wrong(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Two dozen voices, written before the reader was looked at; one half was never tuned on."""
    for half, least in (("voices_tuned", 0.87), ("voices_counted", 0.62)):
        found = score(half)
        with capsys.disabled():
            name = half.replace("_", " ")
            print(f"\n{name}: {found.recall:.3f} of {sum(found.said.values())}")
        assert found.wrong == []
        assert found.recall >= least


def test_of_two_writers_who_knew_nothing_of_it_more_than_half_is_taken(
    capsys: pytest.CaptureFixture[str],
) -> None:
    found = score("two_writers")
    with capsys.disabled():
        said, wrong = sum(found.said.values()), len(found.wrong)
        print(f"\ntwo writers: {found.recall:.3f} of {said}, wrong {wrong}")
    assert found.recall >= 0.53
    assert len(found.wrong) <= 6
