"""The one refusal: what was understood, what is wrong, what to type instead."""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["NotUnderstood", "either", "quoted", "together"]

_LONGEST_QUOTE = 40


class NotUnderstood(ValueError):
    """Typed text that can't be used, with a full sentence that says why.

    Args:
        understood: the part that was read, quoted, with what it was read as; "" if nothing
        wrong: what stands in the way, as a clause ("it has no unit") or, when nothing
            was understood, as the whole first sentence without its full stop
        example: what to type instead, quoted, one or two forms
        meant: the one thing that was probably meant; "" where nothing or several come near
    """

    def __init__(self, understood: str, wrong: str, example: str, meant: str = "") -> None:
        self.meant = meant
        self.understood = understood
        self.wrong = wrong
        self.example = example
        first = f"I understood {understood}, but {wrong}" if understood else wrong
        super().__init__(f"{first}{'' if first.endswith('?') else '.'} Type {example}.")


def quoted(text: str) -> str:
    """Typed text made safe to say back: one line, printable, short, in quotation marks."""
    line = " ".join(text.split())
    clean = "".join(letter for letter in line if letter.isprintable())
    if len(clean) > _LONGEST_QUOTE:
        clean = clean[: _LONGEST_QUOTE - 1] + "…"
    return f"'{clean}'" if '"' in clean else f'"{clean}"'


def either(forms: Iterable[str]) -> str:
    """Forms as alternatives: a; a or b; a, b or c."""
    return _listed(forms, "or")


def together(forms: Iterable[str]) -> str:
    """Forms that hold at once: a; a and b; a, b and c."""
    return _listed(forms, "and")


def _listed(forms: Iterable[str], last: str) -> str:
    *most, end = [*forms] or [""]
    return f"{', '.join(most)} {last} {end}" if most else end
