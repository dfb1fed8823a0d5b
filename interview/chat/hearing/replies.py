"""Short replies that mean the same wherever they are typed: yes, no, leave."""

from __future__ import annotations

from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import is_said
from interview.words.text.tokens import plain_words

__all__ = [
    *("AFTER_THAT", "DONE", "LEAVE", "NO", "YES"),
    *("agreed_in", "asks_back", "says", "says_no", "says_yes", "word_of"),
]

YES = (
    *("y", "yes", "yes please", "yep", "yeah", "yea", "yup", "ok", "okay", "sure", "correct"),
    *("right", "thats right", "that's right", "yes thats right", "yes that's right"),
)
_MAY_ASK = {"ok", "okay", "sure", "correct", "right", "thats right", "that's right"}
"""Of these, what asks where its question mark stands."""
NO = ("n", "no", "no thanks", "no thank you", "nope", "nah")
AFTER_THAT = "Yes or no first; what you typed comes after that."
"""Of what is said where a yes or no is wanted."""
DONE = (
    *("done", "that is all", "thats all", "that's all", "enough", "finish", "im done", "i'm done"),
    "i am done",
)
"""What ends the questions wherever it is typed."""
LEAVE = ("stop", "quit", "exit")


def word_of(line: str) -> str:
    """A line as a reply: folded, without the full stop or the exclamation mark."""
    return line.casefold().strip(" .!?")


def says(line: str, what: str) -> bool:
    """Whether a line says one thing of a list of asked_instead and nothing else: skip it."""
    return is_said(plain_words(line), "asked_instead", what)


def asks_back(line: str) -> bool:
    """Whether a line asks if what was read holds, its mark left out or not: are you sure."""
    marked = line.rstrip().endswith("?") and word_of(line.replace("?", "")) in _MAY_ASK
    return marked or says(line, "asks_back")


def says_no(line: str) -> bool:
    """Whether a line says no and nothing else: thanks, no; nope all good; no need."""
    spoken = plain_words(line).split()
    around = known_words("asked_instead", "agreeing") | known_words(
        "asked_instead", "agreeing_around"
    )
    refusing = known_words("asked_instead", "refusing")
    return not refusing.isdisjoint(spoken) and (around | refusing).issuperset(spoken)


def says_yes(line: str) -> bool:
    """Whether a line says yes and nothing else: that sounds about right."""
    if asks_back(line):
        return False
    if word_of(line) in YES or says(line, "agrees"):
        return True
    spoken = f" {plain_words(line)} "
    agreeing = [way for way in known_words("asked_instead", "agreeing") if f" {way} " in spoken]
    for way in sorted(agreeing, key=len, reverse=True):
        spoken = spoken.replace(f" {way} ", "  ")
    asked = line.rstrip().endswith("?")
    around = known_words("asked_instead", "agreeing_around")
    return bool(agreeing) and not asked and around.issuperset(spoken.split())


def agreed_in(line: str) -> tuple[bool | None, str]:
    """Whether a line says yes or no, and what it says behind that; Enter is a yes."""
    if word_of(line) in ("", *NO) or says_yes(line):
        return word_of(line) not in NO, ""
    if asks_back(line):
        return None, line
    first, _, rest = line.replace(",", " ", 1).strip().partition(" ")
    word = word_of(first)
    return (word in YES if word in (*YES, *NO) else None), rest.strip()
