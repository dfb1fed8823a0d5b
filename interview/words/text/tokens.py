"""Typed text cut into numbers, words and marks, with typographic variants made one."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from interview.words.text.refusal import NotUnderstood, quoted

__all__ = ["Token", "joined", "plain_words", "tokenise"]

_LONGEST = 160
_MOST = 60

_VULGAR = {
    mark: f" {unicodedata.normalize('NFKC', mark).replace('⁄', '/')} "
    for mark in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
}
_SAME = str.maketrans(
    {
        **_VULGAR,
        **dict.fromkeys("”“″„‟", '"'),
        **dict.fromkeys("’‘′`´ʹ", "'"),
        **dict.fromkeys("–—−‐‑‒﹣-", "-"),
        **dict.fromkeys("×✕✖╳*", "×"),
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\u200a\u2002\u2003\t\r\n", " "),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("∼˜≈≃", "~"),
        "⁄": "/",
        "²": "2",
        "³": "3",
        "µ": "u",
        "μ": "u",
        "℃": "°c",
        "℉": "°f",
        "≤": "<",
        "≥": ">",
        "\u200b": "",
        "\ufeff": "",
    }
)
_POWER = re.compile(r"(?<=[A-Za-z])(?:\^|××)(?=[23](?![0-9]))")
_PIECE = re.compile(
    r"(?P<number>(?:[0-9]+(?:[.,][0-9]+)*|[.][0-9]+)(?:[eE][+-]?[0-9]+(?![^\W_]))?)"
    r"|(?P<word>[^\W\d_]+(?:'[^\W\d_]+)?)"
    r"|(?P<mark>''|<=|>=|\+/-|\+-|\S)"
)
_MARKS = {"''": '"', "<=": "<", ">=": ">", "+/-": "±", "+-": "±"}


@dataclass(frozen=True, slots=True)
class Token:
    """One piece of typed text."""

    kind: str
    """number, word or mark."""
    text: str
    """Folded to lower case."""
    raw: str
    """As typed, typographic variants aside."""
    glued: bool
    """No space before it."""


def _cut(text: str) -> list[Token]:
    tokens: list[Token] = []
    end = 0
    for piece in _PIECE.finditer(text):
        kind = piece.lastgroup or "mark"
        raw = piece.group()
        folded = _MARKS.get(raw, raw.casefold())
        glued = bool(tokens) and piece.start() == end
        end = piece.end()
        if folded == "." and tokens and (tokens[-1].kind != "mark" or end == len(text)):
            continue
        tokens.append(Token(kind, folded, raw, glued))
    return tokens


def tokenise(text: str) -> list[Token]:
    """The pieces of `text`; a full stop after a word or at the end is dropped.

    Raises:
        NotUnderstood: for text that is empty or too long to be one answer.
    """
    if len(text) > _LONGEST:
        raise NotUnderstood("", f"That is too long for one answer: {quoted(text)}", "one value")
    tokens = _cut(_POWER.sub("", text.translate(_SAME)).strip())
    if not tokens:
        raise NotUnderstood("", "Nothing was typed", '"not sure" if you don\'t know')
    if len(tokens) > _MOST:
        raise NotUnderstood("", f"I can't make sense of {quoted(text)}", "one value")
    return tokens


def joined(tokens: list[Token]) -> str:
    """Tokens as text again, as typed."""
    return "".join(
        token.raw if token.glued or number == 0 else f" {token.raw}"
        for number, token in enumerate(tokens)
    )


def plain_words(text: str) -> str:
    """Text for comparing choices: folded, apostrophes gone, any other mark a space."""
    folded = text.translate(_SAME).casefold().replace("'", "")
    return " ".join(re.findall(r"[^\W_]+", folded))
