"""Amounts that say how long, heavy or old somebody is, whatever was named before: he is 11 cm."""

from __future__ import annotations

from functools import partial

from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["is_of_somebody", "whose"]

_KINDS = ("<length>", "<mass>", "<duration>")
_KIND = "<kind>"
"""A kind of turtle, once it is known as one."""
_list = partial(known_words, "being")


def is_of_somebody(sentence: Sentence, at: int) -> bool:
    """Whether the amount at a word is an animal's or a person's own: the turtle is 11 cm now.

    Where somebody sits, as 11 cm from the lamp, is not.
    """
    return whose(sentence, at) != ""


def whose(sentence: Sentence, at: int) -> str:
    """Whose own an amount is: turtle, people, or name of somebody called by one; "" of no-one."""
    if sentence.word(at) not in _KINDS or sentence.word(at + 1) in _list("apart"):
        return ""
    verb = at - 1
    while sentence.word(verb) in _list("between"):
        verb -= 1
    if sentence.word(verb) == "," and sentence.word(verb - 1) in _list("grew"):
        verb -= 1
    if sentence.word(verb) in _list("with_verb"):
        return "turtle"
    if not (sentence.word(verb) in _list("verbs") or sentence.word(verb) in _list("grew")):
        return ""
    who = verb - 1
    while sentence.word(who) in _list("before"):
        who -= 1
    return _called(sentence, who) if who >= 0 else ""


def _called(sentence: Sentence, at: int) -> str:
    word, before = sentence.word(at), at - 1
    while sentence.word(before) in _list("articles"):
        before -= 1
    led = sentence.word(before)
    if led in known_words("up_to_a_place") or led in _list("of"):
        return ""  # the lamp over the turtle is 20 cm up
    name = "turtle" if word == _KIND else meant_by("things").get(word, "")
    name = name or meant_by("topics").get(word, "")
    if not name and sentence.parts[at].look in ("name", "owner"):
        return "name"
    return name if name in known_words("animate") else ""
