"""Choices: by number, name, first letters, other spellings; yes or no; counts; lists."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, partial

from interview.base.near_spelling import nearest
from interview.words.amounts.numbers import read_number
from interview.words.choices.absence import is_absent, is_unsure
from interview.words.lexicon.files import known_words
from interview.words.text.refusal import NotUnderstood, either, quoted, together
from interview.words.text.tokens import plain_words, tokenise

__all__ = [
    *("SEPARATORS", "Choice", "ask_which", "read_choice", "read_choices", "read_names"),
    *("read_yes_no",),
]

_list = partial(known_words, "choosing")

_LONGEST = 300
_ARTICLES = re.compile(
    r"^(?:(?:its|it is|ive got|i have|i|have|an?|the|my|number)\s+|no\s+(?=\d))+(?=\S)"
)
SEPARATORS = re.compile(r"\s*(?:[,;&+\n]|\band\b)\s*", re.IGNORECASE)
_MOST_DIGITS = 2


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose: its name in files, its label on screen, other spellings."""

    name: str
    label: str
    also: tuple[str, ...] = ()
    loose: tuple[str, ...] = ()
    """Of the other spellings, those that fit more than this one: to be said back."""
    vague: tuple[str, ...] = ()
    """Spellings that may be another choice as well: a cabinet may be made for a tank or not."""

    @property
    def spellings(self) -> tuple[str, ...]:
        """Every way to write it, made plain for comparing."""
        return _spellings(self.name, self.label, self.also)


@cache
def _spellings(name: str, label: str, also: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(plain_words(way) for way in (name, label, *also)))


def read_choice(text: str, options: Sequence[Choice]) -> Choice:
    """The one option meant.

    Raises NotUnderstood if none fits, naming the nearest, or if several do, naming them.
    """
    words = plain_words(text[:_LONGEST])
    ways = list(dict.fromkeys((words, _ARTICLES.sub("", words))))
    for wanted in dict.fromkeys((*ways, _without_looks(ways[-1]))):
        if exact := [option for option in options if wanted and wanted in option.spellings]:
            if len(exact) > 1:
                raise _several(text, exact, options)
            return exact[0]
    if _is_nothing(words) or is_absent(text):  # “no” is never the start of another
        none = [option for option in options if "none" in option.spellings]
        if len(none) != 1:
            raise _no_such(text, words, options)
        return none[0]
    for wanted in ways:
        found = [] if "%" in text else _matching(wanted, options)
        if len(found) == 1:
            return found[0]
        if len(found) > 1:
            raise _several(text, found, options)
    raise _no_such(text, words, options)


def ask_which(text: str, options: Sequence[Choice]) -> None:
    """Raise NotUnderstood, naming the choices it may be, where a spelling is a vague one."""
    words = _without_looks(_ARTICLES.sub("", plain_words(text[:_LONGEST])))
    if found := [option for option in options if words in map(plain_words, option.vague)]:
        raise _several(text, found, options)


def _without_looks(words: str) -> str:
    """What a thing is, without how it looks: an old oak dresser."""
    return " ".join(word for word in words.split() if word not in _list("looks"))


def _is_nothing(words: str) -> bool:
    return words in _list("no") | known_words("none")


def _matching(words: str, options: Sequence[Choice]) -> list[Choice]:
    """The options of the first way of matching that fits any: number, then letters."""
    if not words:
        return []
    if numbered := _by_number(words, options):
        return [numbered]
    prefixed = [o for o in options if any(way.startswith(words) for way in o.spellings)]
    return prefixed or [option for option in options if _has_words(option, words)]


_MOST_SHOWN = 12
"""Longer lists, as of kinds of turtle, stand on no screen: a number there is a length."""


def _by_number(words: str, options: Sequence[Choice]) -> Choice | None:
    tokens = tokenise(words) if len(words) < 20 and len(options) <= _MOST_SHOWN else []
    number = read_number(tokens) if tokens else None
    if number is None or number.end != len(tokens) or number.value.denominator != 1:
        return None
    place = int(number.value)
    return options[place - 1] if 1 <= place <= len(options) else None


def _has_words(option: Choice, words: str) -> bool:
    """Every word typed starts a word of one spelling: "musk tu" for common musk turtle.

    A lamp is not "no lamp", nor the other way round: a spelling that denies is met by words
    that deny, and by no others.
    """
    typed = words.split()
    if len(words) < 3:
        return False
    return any(
        all(any(word.startswith(start) for word in way.split()) for start in typed)
        for way in option.spellings
        if _list("denials").isdisjoint(way.split()) == _list("denials").isdisjoint(typed)
    )


_MOST_NUMBERED = 9
"""Of longer lists the names are told, not the numbers."""


def _place(option: Choice, options: Sequence[Choice]) -> str:
    if len(options) > _MOST_NUMBERED:
        return quoted(re.split(r" \(", option.label)[0])
    return f"{options.index(option) + 1} for {option.label}"


def _several(text: str, found: list[Choice], options: Sequence[Choice]) -> NotUnderstood:
    shown = found[:4]
    wrong = "it fits " + together(option.label for option in shown)
    wrong += " and others" if len(found) > len(shown) else ""
    return NotUnderstood(quoted(text), wrong, either(_place(o, options) for o in shown))


def _no_such(text: str, words: str, options: Sequence[Choice]) -> NotUnderstood:
    owners = {way: option for option in options for way in _ways_and_words(option)}
    near = list(dict.fromkeys(owners[way] for way in nearest(words, owners)))
    if near:
        wrong = f"There is no choice {quoted(text)}; did you mean {either(o.label for o in near)}?"
        meant = near[0].name if len(near) == 1 else ""
        example = either(_place(option, options) for option in near)
        return NotUnderstood("", wrong, f"yes, or {example}" if meant else example, meant)
    if len(options) <= 5:
        return NotUnderstood(
            "", f"There is no choice {quoted(text)}", either(_place(o, options) for o in options)
        )
    names = either(re.split(r" \(|,", option.label)[0] for option in options)
    way = (
        "the number or the first letters" if len(options) <= _MOST_NUMBERED else "the first letters"
    )
    return NotUnderstood("", f"There is no choice {quoted(text)}", f"{way} of {names}")


@cache
def _ways_and_words(option: Choice) -> list[str]:
    """Whole spellings, and their longer words alone, for near misses."""
    ways = option.spellings
    return [*ways, *(word for way in ways if " " in way for word in way.split() if len(word) > 4)]


def read_choices(text: str, options: Sequence[Choice]) -> tuple[Choice, ...]:
    """Several options, separated by commas, "and" or spaces between numbers; none is ()."""
    words = plain_words(text)
    nothing = _is_nothing(words) or words == "0" or is_absent(text)
    if nothing and not any(words in option.spellings for option in options):
        return ()
    if words in _list("all"):
        return tuple(options)
    if whole := [option for option in options if words in option.spellings]:
        return (whole[0],)
    parts = text.split() if re.fullmatch(r"[\d\s]+", text) else SEPARATORS.split(text)
    chosen = [read_choice(part, options) for part in parts if plain_words(part)]
    if not chosen:
        raise _no_such(text, words, options)
    return tuple(dict.fromkeys(chosen))


def read_yes_no(text: str) -> bool:
    """Yes or no, in any of the usual words."""
    words = plain_words(text)
    if not is_unsure(text) and len(words) <= 60:
        first, _, rest = words.partition(" ")
        rest = rest.removeprefix("and ").removesuffix(" please").removesuffix(" thanks")
        for name, polite in (("yes", "please_too"), ("no", "thanks_too")):
            known = known_words(name)
            if words in known or (first in known and rest in known | _list(polite)):
                return name == "yes"
    raise NotUnderstood("", f"I can't read {quoted(text)} as yes or no", '"yes" or "no"')


def read_names(text: str) -> tuple[str, ...]:
    """Names of live plants separated by commas, semicolons or "and"; none is ().

    Raises NotUnderstood for words that name none, as yes, or that deny one.
    """
    words = plain_words(text)
    nothing = _is_nothing(words) or words == "0" or _only_fakes(words)
    if nothing or is_absent(text, _list("live_plants")):
        return ()
    parts = (" ".join(part.split()).strip(" .") for part in SEPARATORS.split(text))
    names = tuple(dict.fromkeys(name for name in parts if name))
    if not names or not all(_is_name(name) for name in names):
        raise NotUnderstood(
            "", f"I can't read {quoted(text)} as names", '"none", or names such as "anubias, moss"'
        )
    return tuple(name for name in names if not _list("fake") & {*plain_words(name).split()})


def _only_fakes(words: str) -> bool:
    typed = set(words.split())
    return bool(typed & _list("fake")) and typed <= _list("fake") | _list("fake_too")


def _is_name(text: str) -> bool:
    """Whether words may name something: not yes, not a number, not "no moss"."""
    words = plain_words(text)
    denied = words.partition(" ")[0] in _list("denials") or is_absent(text)
    counted = words.isdecimal() and len(words) <= _MOST_DIGITS
    vague = words in known_words("yes") | known_words("vague")
    return bool(words) and not (counted or denied or vague)
