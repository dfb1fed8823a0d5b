"""What a choice or a yes was taken for, said back when it was not typed in so many words."""

from __future__ import annotations

from collections.abc import Sequence

from interview.words.choices.choice import SEPARATORS, Choice
from interview.words.lexicon.files import known_words
from interview.words.text.refusal import quoted
from interview.words.text.tokens import plain_words

__all__ = ["echo", "echo_yes_no"]


def echo(said: str, chosen: Sequence[Choice]) -> str:
    """The options by their labels; empty when every one was typed as it is spelled.

    A name that fits several kinds is no spelling of one: what it was taken for is said.
    """
    if loose := [option for option in chosen if _is_loose(said, option)]:
        taken = f"I took {quoted(said)} as {loose[0].label}"
        return f"{taken}; if yours is another kind, type “change species”."
    spelled = {way for option in chosen for way in option.spellings}
    parts = [plain_words(part) for part in SEPARATORS.split(said)]
    literal = plain_words(said) in spelled or spelled.issuperset(part for part in parts if part)
    if literal or not chosen:
        return ""
    return f"I took {quoted(said)} as {'; '.join(option.label for option in chosen)}."


def _is_loose(said: str, option: Choice) -> bool:
    words = plain_words(said)
    return any(way in (words, f"{words}s", words.removesuffix("s")) for way in option.loose)


def echo_yes_no(said: str, yes: bool) -> str:
    """Yes or no; empty when the first word already is one."""
    first, *_ = [*plain_words(said).split(), ""]
    if first in known_words("choosing", "plain_yes" if yes else "plain_no"):
        return ""
    return f"I took {quoted(said)} as {'yes' if yes else 'no'}."
