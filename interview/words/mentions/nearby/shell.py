"""Whether a length told of a turtle is its shell's, now: no pot's, no neck's, no difference."""

from __future__ import annotations

from functools import partial

from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.competing import is_read_again
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["is_of_a_shell"]

_list = partial(known_words, "animals")


def is_of_a_shell(sentence: Sentence, at: int) -> bool:
    """Whether what stands around a length leaves it to the turtle, as it is today."""
    return not (
        _is_of_what_follows(sentence, at)
        or _is_of_what_stands_before(sentence, at)
        or sentence.word(at + 1) in _list("differs")
        or is_read_again(sentence, at)
    )


def _is_of_what_follows(sentence: Sentence, at: int) -> bool:
    """A 60 cm tank, a 10 cm long log, 2 m of cable; but 18 cm tank 100 x 40 x 40 cm."""
    behind, article = at + 1, sentence.word(at - 1) in _list("articles")
    if sentence.word(behind) == "of":
        return sentence.word(behind + 1) not in _list("shell") | {"her", "his", "its", "the"}
    while sentence.word(behind) in _list("sized"):
        behind += 1
    word, after = sentence.word(behind), sentence.word(behind + 1)
    if meant_by("things").get(word, "turtle") != "turtle":
        return article or not (after[:1] == "<" or after in ("is", ":"))
    return article and _is_noun(sentence, behind)


def _is_of_what_stands_before(sentence: Sentence, at: int) -> bool:
    """A gap of 4 cm; its neck is 5 cm; how long it was, or may get."""
    before, subject = sentence.word(at - 1), at - 2
    if before == "of" or (before in ("is", "are") and subject > 0):  # Mo is 5 cm
        return _is_noun(sentence, subject)
    if before == "be":
        return not _list("to_come").isdisjoint(sentence.words[:at])
    digs = before.endswith("s") and _is_noun(sentence, at - 1)
    return digs or before in _list("no_shell_behind")


def _is_noun(sentence: Sentence, at: int) -> bool:
    """Whether a word names a thing, as far as it is none of those said of turtles."""
    word = sentence.word(at)
    if not word or word[:1] in ("<", ",") or sentence.parts[at].look in ("name", "owner"):
        return False
    turtles = ("any", "male", "female", "unknown", "shell", "young", "ranks", "sizes")
    said = (*turtles, "after", "before", "after_number", "people_too")
    return word not in known_words("fillers").union(*map(_list, said))
