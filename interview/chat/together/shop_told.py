"""What is typed where a shop is asked of itself: an answer, a question, a customer's story."""

from __future__ import annotations

import re

from interview.chat.faces.face import Face
from interview.chat.hearing.people import home_told
from interview.chat.hearing.replies import word_of
from interview.chat.hearing.told.story import read_story
from interview.graph.interview import Interview, Place
from interview.words.choices.absence import is_unsure

__all__ = [
    *("LONGEST", "answers_back", "customers_name", "first_part", "home_of", "is_left_out"),
    *("is_of_a_customer", "owner_first"),
]

_BESIDE = ("stage", "region", "room_temperature_low", "room_temperature_high", "mains_voltage")
_TITLED = r"(?:Mrs?|Ms|Miss|Dr|mrs?|ms|miss|dr)\.? (?:[A-Z]\w*|[a-z][\w'-]+)(?: [A-Z][\w'-]*)?"
_NAMED = re.compile(
    r"(?:(?i:it'?s|this is|that'?s|here is|we have) )?(?i:for )?(?:"
    rf"(?P<title>{_TITLED})|"
    r"(?i:(?:the )?(?:customer|client)(?: is|:)? (?:called |named |number |no\.? ?)?)"
    r"(?P<name>[A-Z][\w'-]*(?: [A-Z][\w'-]*)?|\d{1,6}))"
)
"""A customer’s name with its title, or behind “customer”."""
_OWNS = re.compile(
    rf"{_NAMED.pattern}(?:['’]s got| (?:has|have|keeps|owns|bought|got|(?P<wish>wants))(?: got)?) "
    r"(?=\S)"
)
"""Mrs Reed has: whose what follows is."""
LONGEST = 60
"""Characters of a title in the list."""
_LEFT_OUT = ("skip", "next", "pass", "usual", "the usual", "standard", "normal", "the normal")


def is_of_a_customer(interview: Interview, line: str) -> bool:
    """Whether a line tells of a customer's tank or turtle."""
    return any(place.id not in _BESIDE for place, _ in read_story(interview, line).answers)


def first_part(line: str) -> tuple[str, str]:
    """Whose a story is, as far as that stands before a comma, and the story."""
    name, comma, rest = line.partition(",")
    return (name.strip(), rest.strip()) if comma else ("", line)


def customers_name(line: str) -> str:
    """Whom a line names and no more: Mrs Brown, it's for customer 14; "" where it tells else.

    A title of the list is no longer than LONGEST.
    """
    named = _NAMED.fullmatch(line.strip(" ."))
    return (named["title"] or named["name"])[:LONGEST] if named else ""


def owner_first(line: str) -> tuple[str, str]:
    """The customer whom a line begins with as who has what it tells, and that as the tank's own."""
    whose, rest = first_part(line)
    if rest and (name := customers_name(whose)):
        return name, rest
    owner = _OWNS.match(line.strip())
    if not owner:
        return "", line
    name = (owner["title"] or owner["name"])[:LONGEST]
    verb = "want" if owner["wish"] else "have"  # what is only wanted is not there
    return name, f"we {verb} {line.strip()[owner.end() :]}"


def is_left_out(line: str) -> bool:
    """Whether the shop leaves a line out."""
    return word_of(line) in _LEFT_OUT or is_unsure(line)


def answers_back(face: Face, interview: Interview, place: Place, line: str, about: str) -> bool:
    """Say why something is asked, or how it is found out; False where nobody asks that."""
    question, word = interview.question(place), word_of(line).strip("?")
    if word.startswith("why"):
        face.say(question.help, "help")
    elif word.startswith("how"):
        face.say(question.hint, "help")
    elif line.strip().endswith("?") or word == "help":
        face.say(about, "help")
    else:
        return False
    return True


def home_of(interview: Interview, line: str) -> str:
    """The region a shop's words tell: Bristol, UK shop, near Leeds."""
    name = home_told(interview, line) or home_told(interview, f"in {line}")
    return name.replace("_", " ")
