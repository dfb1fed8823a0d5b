"""A keeper's story cut into tokens that know their place in the text."""

from __future__ import annotations

import re

from interview.words.text.spelling import mended
from interview.words.text.tokens import Token

__all__ = ["Cut"]

_SAME = str.maketrans(
    {
        **dict.fromkeys("”“″„‟", '"'),
        **dict.fromkeys("’‘′`´ʹ", "'"),
        **dict.fromkeys("–—−‐‑‒﹣", "-"),
        **dict.fromkeys("×✕✖╳*", "x"),
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\u200a\u2002\u2003\t\r", " "),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("∼˜≈≃", "~"),
        "⁄": "/",
    }
)
"""One character for one, so that places in the text stay what they are."""
_VULGAR = {"½": "12", "⅓": "13", "⅔": "23", "¼": "14", "¾": "34", "⅛": "18", "⅜": "38", "⅝": "58"}
_PIECE = re.compile(
    r"(?P<number>[0-9]+(?:[.,][0-9]+)*|[.][0-9]+)"
    r"|(?P<word>t[58](?=ho\b|[\W_]|$)|(?:ft|in|cm|mm|m)(?=x ?[0-9])|[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<mark>''|\n|\S)",
    re.IGNORECASE,
)


class Cut:
    """The text as tokens, with their places."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens: list[Token] = []
        self.spans: list[tuple[int, int]] = []
        for piece in _PIECE.finditer(text.translate(_SAME)):
            self._add(piece.lastgroup or "mark", piece.group(), piece.start(), piece.end())

    def _add(self, kind: str, raw: str, start: int, end: int) -> None:
        glued = bool(self.spans) and self.spans[-1][1] == start
        if raw in _VULGAR:
            fraction = _VULGAR[raw]
            pieces = [("number", fraction[0]), ("mark", "/"), ("number", fraction[1])]
            glued = False
        else:
            word = mended(raw.casefold().replace("'", "")) if kind == "word" else raw
            pieces = [(kind, '"' if word == "''" else word)]
        for piece_kind, piece in pieces:
            self.tokens.append(Token(piece_kind, piece, raw, glued))
            self.spans.append((start, end))

    def word(self, at: int) -> str:
        """A token, folded; "" outside the text."""
        return self.tokens[at].text if 0 <= at < len(self.tokens) else ""

    def said(self, first: int, end: int) -> str:
        """Tokens as they were typed, with single spaces."""
        return " ".join(self.text[self.spans[first][0] : self.spans[end - 1][1]].split())
