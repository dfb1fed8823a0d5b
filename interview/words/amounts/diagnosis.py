"""Why a text is not a quantity of the dimension wanted: the refusal that helps most."""

from __future__ import annotations

from interview.words.amounts.amount import match_unit
from interview.words.amounts.dimensions import Frame, dimensions
from interview.words.amounts.numbers import read_number
from interview.words.lexicon.files import units
from interview.words.text.refusal import NotUnderstood, quoted
from interview.words.text.tokens import Token, joined

__all__ = ["refusal_for"]


def refusal_for(tokens: list[Token], frame: Frame) -> NotUnderstood:
    """The refusal of text that read as no amount of the frame's dimension."""
    dimension, example = frame.dimension, frame.example
    number, text = read_number(tokens), quoted(joined(tokens))
    if number is None:
        if match_unit(tokens, 0, dimension.name) is not None:
            return NotUnderstood(text, "there is no number with it", example)
        return NotUnderstood("", f"I can't read {text} as {dimension.noun}", example)
    own = match_unit(tokens, number.end, dimension.name)
    other = _other_dimension(tokens, number.end, dimension.name)
    if other is not None and (own is None or other[1] > own[1]):
        noun, end = other
        read = f"{quoted(joined(tokens[:end]))}, which is {noun}"
        return NotUnderstood(read, f"{dimension.noun} is needed here", example)
    end = number.end if own is None else own[1]
    if end >= len(tokens):
        return NotUnderstood("", f"I can't read {text}", example)
    read, rest = quoted(joined(tokens[:end])), quoted(joined(tokens[end:]))
    if own is not None or dimension.bare is not None:
        return NotUnderstood(read, f"not {rest} after it", f"only {read}, or {example}")
    bare_noun = dimension.noun.removeprefix("an ").removeprefix("a ")
    return NotUnderstood(read, f"not {rest} as a unit of {bare_noun}", example)


def _other_dimension(tokens: list[Token], at: int, own: str) -> tuple[str, int] | None:
    """The dimension whose unit explains most of what follows a number."""
    best: tuple[str, int] | None = None
    for name in units().common:
        found = None if name == own else match_unit(tokens, at, name)
        if found is not None and (best is None or found[1] > best[1]):
            best = dimensions()[name].noun, found[1]
    return best
