"""A text in the pieces that an encoder knows, each with where it stands in the text.

Lower case, without accents, punctuation by itself, then of each word the longest piece that is
known, again and again: WordPiece, as the uncased models of Devlin, Chang, Lee and Toutanova have it
(2019, BERT: pre-training of deep bidirectional transformers, section 3 and the published code).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from typing import NamedTuple

__all__ = ["CLOSING", "OPENING", "UNKNOWN", "Piece", "pieces_of"]

OPENING, CLOSING, UNKNOWN = "[CLS]", "[SEP]", "[UNK]"
"""What stands before a text, behind it, and for a word of which a piece isn't known."""
_INSIDE = "##"
"""Before a piece that goes on with a word."""
_LONGEST = 100
"""Letters of a word; a longer one isn't known."""
_ASCII = frozenset("!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~")
_CONTROL = ("Cc", "Cf", "Co", "Cs")
_IDEOGRAPHS = ("CJK UNIFIED", "CJK COMPATIBILITY IDEOGRAPH")


class Piece(NamedTuple):
    """A piece by its number, and the characters of the text that it is of."""

    number: int
    start: int
    stop: int


class _Letter(NamedTuple):
    """A character as it is looked up, and where the one that it is of stands."""

    text: str
    at: int


def pieces_of(text: str, known: Mapping[str, int]) -> list[Piece]:
    """The pieces of a text, by the numbers of those known, without those that open and close it."""
    return [piece for word in _words(text) for piece in _pieces(word, known)]


def _words(text: str) -> Iterator[list[_Letter]]:
    word: list[_Letter] = []
    for letter in _letters(text):
        alone = _is_alone(letter.text)
        if word and (alone or letter.text == " "):
            yield word
            word = []
        if alone:
            yield [letter]
        elif letter.text != " ":
            word.append(letter)
    if word:
        yield word


def _letters(text: str) -> Iterator[_Letter]:
    """Lower case without accents and control characters; a space for any white space."""
    for at, character in enumerate(text):
        if character in "\t\n\r" or unicodedata.category(character)[0] == "Z":
            yield _Letter(" ", at)
        elif character != "\ufffd" and unicodedata.category(character) not in _CONTROL:
            for part in unicodedata.normalize("NFD", character):
                if unicodedata.category(part) != "Mn":
                    yield from (_Letter(lower, at) for lower in part.lower())


def _is_alone(letter: str) -> bool:
    """Whether it is a word of its own: punctuation, or an ideograph."""
    if letter.isascii():
        return letter in _ASCII
    is_mark = unicodedata.category(letter)[0] == "P"
    return is_mark or unicodedata.name(letter, "").startswith(_IDEOGRAPHS)


def _pieces(word: list[_Letter], known: Mapping[str, int]) -> list[Piece]:
    """The longest known beginning, and so on with the rest; UNKNOWN where that can't go on."""
    said, found, at = "".join(letter.text for letter in word), list[Piece](), 0
    while at < len(said):
        begins = _INSIDE * (at > 0)
        ends = range(len(said), at, -1) if len(said) <= _LONGEST else ()
        end = next((end for end in ends if begins + said[at:end] in known), at)
        if end == at:
            return [Piece(known[UNKNOWN], word[0].at, word[-1].at + 1)]
        found.append(Piece(known[begins + said[at:end]], word[at].at, word[end - 1].at + 1))
        at = end
    return found
