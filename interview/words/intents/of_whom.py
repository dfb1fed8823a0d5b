"""Of whom a sign is told: an animal, a thing, or nobody as it is denied."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import product

from interview.words.lexicon.files import people

__all__ = ["any_of", "is_a_turtle", "is_meant", "is_over"]


def any_of(phrases: Iterable[str]) -> str:
    """A pattern for any of some phrases, whose apostrophes may be left out."""
    spelled = spelled_out(phrases)
    said = (re.escape(one).replace(r"\ ", r"\s+").replace("'", "'?") for one in spelled)
    return f"(?:{'|'.join(said)})"


def spelled_out(phrases: Iterable[str]) -> Iterator[str]:
    """Each phrase; of “his|her eye” one with each of the words."""
    for phrase in phrases:
        yield from map(" ".join, product(*(word.split("|") for word in phrase.split())))


_ANSWERS_NO = r"no(?:,|\s+(?:he|she|it|they|we|i|my|the)(?:'?s)?\b)"
"""A “no” to what was asked denies nothing of what follows: no, he won't eat."""
_I_WILL = "ill"
"""What “I'll” is, too, where its apostrophe is left out."""
_CLAUSE_ENDS = re.compile(r"[,;:]|[.!?](?=\s|$)| and | but ")


@cache
def _around(name: str) -> re.Pattern[str]:
    """What stands around a sign, or in its clause, and tells of whom or of what it is."""
    said = {name: any_of(listed) for name, listed in people().clauses.items()}
    return re.compile(
        {
            "denied": rf"\b(?!{_ANSWERS_NO}){said['denies']}(?:\W+\w+){{0,2}}\W+$",
            "turtle": rf"(?:\W+is an?)?(?:\W+{said['turtle_adjectives']})*\W+{said['turtles']}",
            "animal": rf"\b{said['animal']}\b",
            "no turtle": rf"\b(?:{said['things']}|{said['others']})\b",
            "place": rf"\b{said['places']}\s+(?:\w+\s+){{0,2}}?{said['things']}\b",
            "to do": rf"\s+{said['does']}\b",
            "of thing": rf"\W+(?:(?:the|my|our|a)\W+)?{said['things']}\b",
            "of another": rf"\b{said['other_patients']}(?:['’]s(?:\W+{said['own_body']})?|\s+"
            rf"{said['has']})(?:\W+{said['has_such']}){{0,2}}\W+$",
            "named": rf"\b(?:{said['animal']}|{said['turtles']}|it|its|his)s?\b",
            "bites": r"\b(?:has|have|had|'s)(?:\W+(?!been)\w+)?\W+$",
            "bites another": rf"\W+(?:{said['keepers']}|(?:\w+\W+)?"
            rf"{said['other_patients']}(?!['’]s))\b",
            "past": rf"\b{said['past']}\b",
            "compared": rf"\b{said['compares']}\W+(?:{said['compared']}\W+){{0,3}}{said['past']}\b",
            "was": rf"\b{said['was']}\b(?!.*\b{said['is']}\b)",
            "anew": rf"(?<!never )(?<!not )\b{said['anew']}\b",
            "now": rf"\b{said['now']}\b",
            "well": rf"\b{said['well']}\b",
            "feared": rf"\b{said['feared']}\W+(?:(?:a|an|any)\W+)?$",
            "supposed": rf"\s+{said['supposed']}\s+(?:\w+\s+){{0,1}}?{said['worries']}\b",
            "body": rf"\W+(?:(?:the|its|his|her|their)\W+)?{said['body']}\b",
        }[name]
    )


@cache
def _written_plainly(name: str) -> frozenset[str]:
    """The signs of a list, without apostrophes."""
    listed: tuple[str, ...] = getattr(people(), name)
    return frozenset(sign.replace("'", "") for sign in spelled_out(listed))


def _is_named_in(before: str) -> bool:
    """Whether an animal is named in the clause that runs up to a sign."""
    clause = _clauses(before)[-1]
    return bool(_around("animal").search(clause)) and not _is_of_a_thing(before)


def _clauses(before: str) -> list[str]:
    """The clauses of the sentence that runs up to a sign."""
    return _CLAUSE_ENDS.split(_sentences(before)[-1])


def _sentences(text: str) -> list[str]:
    return re.split(r"[.!?](?=\s|$)", text)


def _is_of_a_thing(before: str) -> bool:
    """Whether the clause that runs up to a sign, or the one before it, is about no animal."""
    for clause in reversed(_clauses(before)):
        subject = _around("place").sub(" ", clause)
        animal = _around("animal").search(subject)
        if animal or _around("no turtle").search(subject):
            return not animal
    return False


def is_a_turtle(plain: str, end: int) -> bool:
    """Whether what is said up to a place is said of a turtle named right behind."""
    return _around("turtle").match(plain, end) is not None


def _is_elsewhere(name: str, found: re.Match[str]) -> bool:
    """Whether an illness is long past, only feared, or of somebody else: my cat is not eating."""
    if name not in ("at_once", "soon"):
        return False
    before = _clauses(found.string[: found.start()])[-1]
    behind, *then = _CLAUSE_ENDS.split(" . ".join(_sentences(found.string[found.end() :])[:2]))
    is_of_one = _around("named").search(before) is not None  # he is limp, could be dying
    return (
        _around("feared").search(before) is not None
        or (_around("supposed").match(behind) is not None and not is_of_one)
        or is_over(before + found[0], behind, then)
        or _is_of_another(found[0], before, behind)
    )


def is_over(told: str, behind: str, then: Iterable[str]) -> bool:
    """Whether something was long ago, is told as over, and nothing says that it is back.

    Args:
        told: its clause, up to its end
        behind: the rest of the clause
        then: the clauses behind
    """
    spoken = _around("compared").sub(" ", told + behind)
    if not _around("past").search(spoken) or not _around("was").search(told):
        return False
    return not any(map(_is_back, (told + behind, *then)))


def _is_back(clause: str) -> bool:
    """Whether a clause says that what was long ago is there again, or has an ill animal now."""
    is_now = _around("now").search(clause) and not _around("well").search(clause)
    return bool(is_now or _around("anew").search(clause))


def _is_of_another(sign: str, before: str, behind: str) -> bool:
    """Whether a sign is told of a person or a pet; of who has bitten, the one named behind."""
    if sign == "bitten" and _around("bites").search(before):
        return _around("bites another").match(behind) is not None
    another = _around("of another").search(before)
    return bool(another) and not _around("named").search(f"{sign}{behind}")


def is_meant(name: str, found: re.Match[str]) -> bool:
    """Whether a sign that was found in a folded text is meant, of an animal or of a person at risk.

    Args:
        name: the list it is of, as at_once
        found: where it stands
    """
    plain, end, sign = found.string, found.end(), found[0].replace("'", "")
    before = plain[: found.start()]
    if _around("denied").search(before) or _is_elsewhere(name, found):
        return False
    if is_a_turtle(plain, end):
        return name != "at_risk"  # I have a sick turtle; our baby is a slider
    if sign == _I_WILL and _around("to do").match(plain, end):
        return False
    of_body = _around("body").match(plain, end)
    if sign in _written_plainly("of_animals"):
        return bool(of_body) or _is_named_in(before)
    may_be_thing = sign in _written_plainly("of_things_too") and not of_body
    if may_be_thing and sign.endswith(" from") and _around("of thing").match(plain, end):
        return False
    return not (may_be_thing and _is_of_a_thing(before))
