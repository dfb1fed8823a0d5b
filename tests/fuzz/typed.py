"""Strings typed at a question: anything, near-misses of answers, strings of known meaning."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from random import Random

from hypothesis import strategies as st
from made.spans import Case
from meanings import RULES
from taken import taken
from tally import Fault, Lost, Misread

from interview import assembly
from interview.graph.answers import Answer, understand
from interview.graph.questions import Question
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

__all__ = ["MEANT", "TYPED", "meant", "typed"]

REGIONS = ("europe", "north_america", "united_kingdom", "australia", "elsewhere")
QUESTIONS = tuple(assembly.questionnaire())
LISTS = assembly.lists()
_WORDS = """
about under over at least nearly between and to or half a an third quarter dozen not in cm mm m ft
gal L l/h gph W V A kg lb oz % ppm mg/l °C F degrees pH $ per kWh ? ' " ″ ’ of 6 7 18 1/2 ½ - – — −
1,000 12.5 12,5 0.25 1 000 1'000 × ( ) ± + by every other twice times x week day d h months years
none sure on deep wide high long below the rim max bulb no yes back why change stop 0 -1 1e9 1e-9
inf nan ٣ Ⅳ ００
"""
PIECES = (*_WORDS.split(), "\u202e", "\ufeff", "\x1b[31m", "\0", "\t")

_anything = st.text(max_size=60)
_wordy = st.lists(st.sampled_from(PIECES), min_size=1, max_size=8).map(" ".join)


@st.composite
def _near_misses(draw: st.DrawFn, example: str) -> str:
    """An example with a piece put in, taken out or written twice, or as it is."""
    at = draw(st.integers(0, len(example)))
    to = draw(st.integers(at, min(len(example), at + 4)))
    change = draw(st.sampled_from(["none", "none", "drop", "twice", "piece"]))
    if change == "none":
        return example
    pieces = {"drop": "", "twice": example[at:to] * 2}
    piece = pieces[change] if change in pieces else draw(st.sampled_from(PIECES))
    return f"{example[:at]}{piece}{example[to:]}"


def _at(question: Question) -> st.SearchStrategy[str]:
    """What may be typed at a question: mostly something like what answers it."""
    options = [option.name for option in LISTS.options_of(question)]
    own = [*question.example.split(" or "), *options] or ["yes", "no"]
    near = st.sampled_from(own).flatmap(_near_misses)
    other = st.sampled_from([q.example for q in QUESTIONS if q.example]).flatmap(_near_misses)
    return st.one_of(near, near, other, _wordy, _anything)


TYPED = st.sampled_from(QUESTIONS).flatmap(
    lambda question: st.tuples(st.just(question.id), st.sampled_from(REGIONS), _at(question))
)
"""A question, where the keeper lives, and what is typed."""


def typed(example: tuple[str, str, str]) -> str:
    """An answer that can be shown and reads back the same from the file, or a kind refusal."""
    name, region, text = example
    question = assembly.questionnaire().by_id[name]
    try:
        answer = understand(question, text, LISTS, region)
    except NotUnderstood as refusal:
        if not (refusal.wrong and refusal.example and str(refusal).endswith(".")):
            raise Fault(f"refused without saying how else: {refusal}") from None
        return "refused"
    if any(ord(letter) < 32 or letter in "\x7f\u202e" for letter in answer.said):
        raise Fault(f"kept with control characters: {answer.said!r}")
    _reads_back(question, answer, region)
    return "taken"


def _reads_back(question: Question, answer: Answer, region: str) -> None:
    """What the file keeps is what was taken."""
    try:
        again = understand(question, answer.said, LISTS, region, guess=False)
    except NotUnderstood as refusal:
        raise Lost(f"taken as {answer.value!r}, refused from the file: {refusal}") from None
    if again.value != answer.value or again.how != answer.how:
        raise Misread(f"taken as {answer.value!r}, read from the file as {again.value!r}")
    for one in answer.value if isinstance(answer.value, tuple) else (answer.value,):
        if isinstance(one, Reading) and not one.low <= one.best <= one.high:
            raise Fault(f"ends the wrong way round: {one!r}")


@cache
def _made(rule: int, seed: int) -> tuple[Case, ...]:
    return tuple(RULES[rule].cases(Random(seed)))


def _picked(draw: Callable[[st.SearchStrategy[int]], int]) -> tuple[Case, str]:
    rule, seed = draw(st.integers(0, len(RULES) - 1)), draw(st.integers(0, 40))
    made = _made(rule, seed)
    return made[draw(st.integers(0, len(made) - 1))], ("europe", "north_america")[
        draw(st.integers(0, 1))
    ]


MEANT = st.composite(_picked)()
"""A string of known meaning, made anew from other numbers, and where the keeper lives."""


def meant(example: tuple[Case, str]) -> str:
    """Read as it was meant, said back, or asked about; never something else without a word."""
    case, region = example
    end, read = taken(region, case)
    if end == "wrong":
        raise Misread(read)
    return end
