"""What is typed where a shop is asked of itself: an answer, a question, a customer's story."""

from __future__ import annotations

import re

from interview.chat.faces.face import Face
from interview.chat.hearing.asked_instead import asks
from interview.chat.hearing.people import home_told
from interview.chat.hearing.replies import word_of
from interview.chat.hearing.told.story import read_story
from interview.graph.interview import Interview, Place
from interview.words.choices.absence import is_unsure
from interview.words.lexicon.files import known_words, meant_by
from interview.words.text.tokens import plain_words

__all__ = [
    *("LONGEST", "answers_back", "as_ours", "customer_in", "customers_name", "first_part"),
    *("home_of", "is_left_out", "is_of_a_customer", "owner_first"),
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
_OWNS = re.compile(rf"{_NAMED.pattern}(?P<verb>['’]s(?: got)?| with| \w+) (?=\S)")
"""Mrs Reed has, Mrs Reed uses, Mrs Reed’s: whose what follows is."""
_PLURAL = {"has": "have", "is": "are", "does": "do", "was": "were", "with": "have"}
"""What we do, by what she does; else it ends in an s less."""
_HAD = r"(?:['’](?:s|ve) got| has(?: got)?| have(?: got)?| keeps?| bought)"
_SOMEBODY = re.compile(
    r"^(?:well,? |so,? |yes,? |and )?(?:she|he|they|(?P<who>[a-z]+(?: [a-z]+){0,3}?)(?: here)?)"
    rf"(?P<verb>{_HAD}|(?: who)? with| who(?:['’]s got| has| keeps| bought)) "
    r"(?=(?:an?|one|two|three|the|\d+|some) (?P<what>[^.,;]{3,60}))",
    re.IGNORECASE,
)
"""She's got a slider, a man with a slider: a customer has it, as far as it is an animal or a thing
of a tank."""
_ONE = r"\b(?:(?:the|a|my|this|our|another|one) )?(?:customer|client)"
_CUSTOMER = re.compile(
    rf"{_ONE}(?: here)? (?P<verb>has|have|had|keeps|wants|uses|bought|got)\b", re.IGNORECASE
)
_CUSTOMERS = re.compile(rf"{_ONE}['’]s\b", re.IGNORECASE)
_NEAR = 5
"""Words within which what a customer has is named."""
_PARTS = re.compile(r"\s*(?:,|[:;](?=\s)|\s[-–—](?=\s))\s*")
"""Between a customer’s name and what is told of them."""
LONGEST = 60
"""Characters of a title in the list."""
_LEFT_OUT = ("skip", "next", "pass", "usual", "the usual", "standard", "normal", "the normal")


def is_of_a_customer(interview: Interview, line: str) -> bool:
    """Whether a line tells of a customer's tank or turtle."""
    return any(place.id not in _BESIDE for place, _ in read_story(interview, line).answers)


def first_part(line: str) -> tuple[str, str]:
    """Whose a story is, as far as that stands before a comma or a dash, and the story."""
    name, *rest = _PARTS.split(line.strip(), maxsplit=1)
    return (name, rest[0]) if rest else ("", line)


def as_ours(line: str) -> str:
    """The line as the tank's own: “we have” where it begins with what she or a customer has."""
    found = _SOMEBODY.match(line)
    if found and _is_of_a_tank(found["what"]) and _is_somebody(found["who"]):
        line = f"{_we(found['verb'])} {line[found.end() :]}"
    line = _CUSTOMER.sub(lambda one: _we(one["verb"]), line)
    return _CUSTOMERS.sub("our", line)


def customer_in(line: str) -> str:
    """The words a line begins with that are a customer without a name: the young couple."""
    words = plain_words(line).split()
    led = known_words("at_counter", "described") | {"the", "a", "an", "this", "that", "another"}
    at = next((n for n, word in enumerate(words) if word not in led), len(words))
    return " ".join(words[: at + 1]) if {*words[at : at + 1]} & _persons() else ""


def _persons() -> frozenset[str]:
    return known_words("at_counter", "persons")


def _is_somebody(who: str | None) -> bool:
    return not who or customer_in(who) == plain_words(who)


def _is_of_a_tank(what: str) -> bool:
    named = known_words("animals", "any") | known_words("animals", "heads") | {*meant_by("things")}
    words = plain_words(what).split()[:_NEAR]
    return any({word, word.removesuffix("s")} & named for word in words)


def _we(verb: str) -> str:
    """What we do, where somebody does it: has, uses, wants, bought, with."""
    said = verb.strip().casefold().removeprefix("who").strip()
    if said.endswith("got") and said != "got":
        return "we have"
    first, *rest = said.split()
    plain = _PLURAL.get(first) or (first[:-1] if first.endswith("s") else first)
    return " ".join(["we", plain, *rest])


def customers_name(line: str) -> str:
    """Whom a line names and no more: Mrs Brown, it's for customer 14; "" where it tells else.

    A title of the list is no longer than LONGEST.
    """
    named = _NAMED.fullmatch(line.strip(" ."))
    return (named["title"] or named["name"])[:LONGEST] if named else ""


def owner_first(line: str) -> tuple[str, str]:
    """The customer whom a line names as who has what it tells, and that as the tank's own.

    A name may stand between commas anywhere: a map turtle, Mrs Reed.
    """
    parts = _PARTS.split(line.strip())
    named = next((part for part in parts if customers_name(part)), "")
    if named and len(parts) > 1:
        return customers_name(named), ", ".join(part for part in parts if part != named)
    owner = _OWNS.match(line.strip())
    if not owner:
        return "", line
    verb, rest = owner["verb"], line.strip()[owner.end() :]
    if verb in ("'s", "’s"):
        ours = f"our {rest}"
    elif verb[0] != " " or verb.strip().casefold() in {"with", *known_words("at_counter", "deeds")}:
        ours = f"{_we(verb)} {rest}"
    else:
        return "", line
    return (owner["title"] or owner["name"])[:LONGEST], ours


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
    elif asks(line) or word == "help":
        face.say(about, "help")
    else:
        return False
    return True


def home_of(interview: Interview, line: str) -> str:
    """The region a shop's words tell: Bristol, UK shop, near Leeds."""
    name = home_told(interview, line) or home_told(interview, f"in {line}")
    return name.replace("_", " ")
