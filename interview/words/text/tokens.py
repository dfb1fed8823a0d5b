"""Typed text as tokens: numbers, words and marks, each with its place in the text."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from interview.words.text.refusal import NotUnderstood, quoted
from interview.words.text.spelling import mended

__all__ = ["Text", "Token", "joined", "plain_words", "tokenise"]

_LONGEST = 160
_MOST = 60
_VULGAR = {
    mark: re.findall(r"\d+|/", unicodedata.normalize("NFKC", mark).replace("⁄", "/"))
    for mark in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
}
_SAME = str.maketrans(
    {
        **dict.fromkeys("”“″„‟", '"'),
        **dict.fromkeys("’‘′`´ʹ", "'"),
        **dict.fromkeys("–—−‐‑‒﹣-", "-"),
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\u200a\u2002\u2003\t\r", " "),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("∼˜≈≃", "~"),
        **dict.fromkeys("×✕✖╳", "×"),
        **dict(zip("⁄²³µμ≤≥", "/23uu<>", strict=True)),
    }
)
"""One character for one, so that places in the text stay what they are."""
_PIECE = re.compile(
    r"(?P<power>(?<=[a-z])(?:\^|\*\*)(?=[23](?![0-9])))"
    r"|(?P<number>[0-9]{1,3}(?:'[0-9]{3})+(?![0-9])|(?:[0-9]+(?:[.,][0-9]+)*|[.][0-9]+)(?:[eE][+-]?[0-9]+(?![^\W_]))?)"
    r"|(?P<word>(?:t[58]|nh[34]|no[23]|h2o)(?=ho\b|[\W_]|$)|(?:ft|in|cm|mm|m)(?=x ?[0-9])|"
    r"[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<mark>''|<=|>=|\+/-|\+-|\n|[^\s\u200b\ufeff])",
    re.IGNORECASE,
)
_DEGREE = re.compile(r"(?<=[0-9])( ?)[oO](?= ?(?:[CF]|c)\b)")
"""A small o for the sign: 27oC."""
_MARKS = {"''": '"', "<=": "<", ">=": ">", "+/-": "±", "+-": "±", "×": "x", "*": "x"}


class Token(NamedTuple):
    """One piece of typed text."""

    kind: str
    """number, word or mark."""
    text: str
    """Folded to lower case, without apostrophes, a near spelling put right."""
    raw: str
    """As typed, typographic variants aside."""
    glued: bool = False
    """No space before it."""
    start: int = 0
    end: int = 0
    """Its place in the text."""


@dataclass(frozen=True)
class Text:
    """A text and its tokens."""

    text: str
    same: Mapping[str, str] = field(default_factory=dict, repr=False)
    """Words by those they are read as."""

    @cached_property
    def tokens(self) -> list[Token]:
        """Its pieces."""
        every, same = _tokens(self.text), self.same
        return [one._replace(text=same[one.text]) if one.text in same else one for one in every]

    @cached_property
    def _folded(self) -> tuple[str, ...]:
        return tuple(token.text for token in self.tokens)

    def word(self, at: int) -> str:
        """A token, folded; "" outside the text."""
        return self._folded[at] if 0 <= at < len(self._folded) else ""

    def words(self, first: int, end: int) -> tuple[str, ...]:
        """Tokens, folded."""
        return self._folded[first:end]

    def said(self, first: int, end: int) -> str:
        """Tokens as they were typed, with single spaces."""
        return " ".join(self.text[self.tokens[first].start : self.tokens[end - 1].end].split())


def _tokens(text: str) -> Iterator[Token]:
    end = -1
    for piece in _PIECE.finditer(_DEGREE.sub(r"\1°", text.translate(_SAME))):
        kind, raw, start = piece.lastgroup or "mark", piece.group(), piece.start()
        glued, end = start == end, piece.end()
        if raw in _VULGAR:
            for number, part in enumerate(_VULGAR[raw]):
                kind = "mark" if part == "/" else "number"
                yield Token(kind, part, part, number > 0, start, end)
            end = -1
        elif kind == "word":
            yield Token(kind, mended(raw.casefold().replace("'", "")), raw, glued, start, end)
        elif kind != "power":
            folded = raw.replace("'", "") if kind == "number" else raw.casefold()
            yield Token(kind, _MARKS.get(raw, folded.casefold()), raw, glued, start, end)


def tokenise(text: str) -> list[Token]:
    """The tokens of one answer; a full stop after a word or at the end is dropped.

    Raises NotUnderstood for text that is empty or too long to be one answer.
    """
    if len(text) > _LONGEST:
        raise NotUnderstood("", f"That is too long for one answer: {quoted(text)}", "one value")
    every = [token for token in _tokens(text) if token.text != "\n"]
    tokens = [token for at, token in enumerate(every) if not _is_full_stop(every, at)]
    if not tokens:
        raise NotUnderstood("", "Nothing was typed", '"not sure" if you don\'t know')
    if len(tokens) > _MOST:
        raise NotUnderstood("", f"I can't make sense of {quoted(text)}", "one value")
    return tokens


def _is_full_stop(tokens: Sequence[Token], at: int) -> bool:
    if tokens[at].text != "." or at == 0:
        return False
    if at == len(tokens) - 1:
        return True
    inside = tokens[at - 1].kind == "number" and "." in tokens[at - 1].text
    return tokens[at - 1].kind != "mark" and not (inside and tokens[at + 1].glued)


def joined(tokens: Sequence[Token]) -> str:
    """Tokens as text again, as typed."""
    return "".join(
        token.raw if token.glued or number == 0 else f" {token.raw}"
        for number, token in enumerate(tokens)
    )


def plain_words(text: str) -> str:
    """Text for comparing choices: folded, apostrophes gone, any other mark a space."""
    folded = text.translate(_SAME).casefold().replace("'", "")
    return " ".join(re.findall(r"[^\W_]+", folded))
