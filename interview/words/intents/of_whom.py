"""Of whom a sign is told: an animal, a thing, or nobody as it is denied."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache

from interview.words.lexicon.files import people
from interview.words.lexicon.rules import ways_of

__all__ = ["any_of", "is_a_turtle", "is_meant", "is_only_asked", "is_over", "names_an_animal"]


def any_of(phrases: Iterable[str]) -> str:
    """A pattern for any of some phrases of people.yaml; apostrophes may be left out."""
    return f"(?:{'|'.join(map(_phrase, phrases))})"


def _phrase(phrase: str) -> str:
    """A phrase as a pattern; the head of people.yaml explains the notation."""
    told, _, not_behind = phrase.partition(" ! ")
    first, *more = _TOKEN.findall(told)
    unless = "".join(map(_behind, _TOKEN.findall(not_behind)))
    return _any_way(first) + "".join(map(_behind, more)) + (rf"(?!{unless}\b)" if unless else "")


def _behind(token: str) -> str:
    if token.strip("[]") == "..":
        return rf"(?:\s+(?!{any_of(people().clauses['parts'])}\b)\w[\w'’-]*){{0,3}}?"
    return rf"(?:\s+{_any_way(token)}){'?' if token.startswith('[') else ''}"


def _any_way(token: str) -> str:
    said = (re.escape(way).replace("_", r"\s+").replace("'", "'?") for way in ways_of(token))
    return f"(?:{'|'.join(said)})"


_TOKEN = re.compile(r"\[[^\]]*\]|\S+")
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
            "denied": rf"\b(?!{_ANSWERS_NO})(?:{said['denies']}(?:\W+\w+){{0,2}}\W+"
            rf"|{said['denied_verbs']}(?:\s+\w+){{0,2}}\s+)$",
            "not done": rf"\b{any_of(people().signs_soon['not_eating'])}\b",
            "turtle": rf"(?:\W+is an?)?(?:\W+{said['turtle_adjectives']})*\W+{said['turtles']}",
            "animal": rf"\b{said['animal']}\b",
            "no turtle": rf"\b(?:{said['things']}s?|{said['others']})\b",
            "place": rf"\b{said['places']}\s+(?:\w+\s+){{0,2}}?{said['things']}\b",
            "to do": rf"\s+{said['does']}\b",
            "of thing": rf"\W+(?:(?:the|my|our|a)\W+)?{said['things']}\b",
            "of another": rf"\b(?:{said['other_patients']}s?(?:['’]s(?:\W+{said['own_body']})?|\s+"
            rf"{said['has']})|(?:{said['strangers']}['’]?s|{said['former']}(?=.*\b(?:had|was|were)\b))"
            rf"\W+(?:\w+\W+)?{said['turtles']}(?:\s+{said['has']})?)(?:\W+{said['has_such']}){{0,2}}\W+$",
            "subject": rf"(?:(?:^\W*|\b(?:my|our|his|her|their)\W+(?:\w+\W+)?)"
            rf"{said['other_patients']}s?|\b(?:me|us))\W+$",
            "vague": rf"{said['vague']}s?",
            "asked": rf"\W*(?:{said['asked_by']}\W+)?{said['wonders']}\b(?!.*\b{said['stated']}\b)"
            rf"|.*\b{said['whether']}\b",
            "named": rf"\b(?:{said['animal']}|{said['turtles']}|it|its|his)s?\b",
            "bite": rf"\b{said['bites']}$",
            "has": r"\b(?:has|have|had|'s)(?:\W+(?!been)\w+)?\W+$",
            "bites another": rf"\W+(?:(?:on|at|up|through|into)\W+)?(?:{said['keepers']}\b"
            rf"|(?:(?!{said['places']}\b)\w+\W+){{0,2}}?(?:{said['other_patients']}\b(?!['’]s)"
            rf"|(?:{said['things']}|{said['chewed']})s?\b)"
            rf"|(?:the|an?)\W+(?!(?:{said['turtle_parts']}|{said['turtles']})\b))",
            "it": r"\W+it\b",
            "past": rf"\b(?:{said['past']}|in\s+(?:19|20)\d\d)\b",
            "begun": rf"\b{said['begun']}\b",
            "compared": rf"\b{said['compares']}\W+(?:{said['compared']}\W+){{0,3}}{said['past']}\b",
            "was": rf"\b{said['was']}\b(?!.*\b{said['is']}\b)",
            "anew": rf"(?<!never )(?<!not )\b{said['anew']}\b",
            "now": rf"\b{said['now']}\b",
            "healed": rf"\b(?:{said['since']}\b.*(?<!not ){said['well']}"
            rf"|(?<!not ){said['well']}\W+(?:\w+\W+){{0,2}}{said['since']}|{said['ended']})\b",
            "unwell": rf"\b{said['parts']}\b",
            "besides": rf"\b(?:{said['besides']}|{said['things']}s?)\b",
            "well": rf"\b{said['well']}\b",
            "feared": rf"\b{said['feared']}\W+(?:(?:a|an|any)\W+)?$",
            "in general": rf"\W*(?:{said['asked_by']}\W+)?{said['asks']}\b"
            rf"(?!.*\b{said['one_turtle']}\b).*\b{said['any_turtle']}\b"
            rf"|.*\b{said['hearsay']}\b(?:\W+that)?(?!.*\b{said['one_turtle']}\b)",
            "of the dead": rf"\b{said['died_of']}\W+(?:\w+\W+)?$",
            "opens its mouth": rf"\b{said['opens_mouth']}\b",
            "supposes": rf"\b{said['supposes']}\b",
            "supposed": rf"\s+{said['supposed']}\s+(?:\w+\s+){{0,1}}?{said['worries']}\b",
            "body": rf"\W+(?:(?:the|its|his|her|their)\W+)?{said['body']}\b",
        }[name]
    )


@cache
def _listed(name: str) -> re.Pattern[str]:
    """The signs of a list."""
    return re.compile(any_of(getattr(people(), name)))


def _is_named_in(before: str) -> bool:
    """Whether an animal is named in the clause that runs up to a sign, or before one it begins."""
    *earlier, clause = _clauses(before)
    clause = clause if clause.strip() or not earlier else earlier[-1]
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


def names_an_animal(text: str) -> bool:
    """Whether a text speaks of an animal."""
    return _around("named").search(text.casefold()) is not None


def _is_elsewhere(name: str, found: re.Match[str]) -> bool:
    """Whether an illness is long past, only feared, or of somebody else: my cat is not eating."""
    if name not in ("at_once", "soon"):
        return False
    before = _clauses(found.string[: found.start()])[-1]
    behind, *then = _CLAUSE_ENDS.split(" . ".join(_sentences(found.string[found.end() :])[:2]))
    is_of_one = _around("named").search(before) is not None  # he is limp, could be dying
    return (
        any(_around(why).search(before) for why in ("feared", "of the dead"))
        or ("mouth" in found[0] and _around("opens its mouth").search(before) is not None)
        or is_only_asked(found)
        or (_around("supposed").match(behind) is not None and not is_of_one)
        or is_over(before + found[0], behind, then, may_heal=name == "soon")
        or _is_of_another(found[0], before, behind)
    )


def is_only_asked(found: re.Match[str]) -> bool:
    """Whether a sign is thought of, and not told: how do I know if she is dying."""
    before = _clauses(found.string[: found.start()])[-1]
    behind = _CLAUSE_ENDS.split(_sentences(found.string[found.end() :])[0])[0]
    vague = _around("vague").fullmatch(found[0]) and not is_a_turtle(found.string, found.end())
    return bool(
        _around("supposes").search(before)
        or _around("in general").match(before + found[0] + behind)
        or (vague and _around("asked").match(before))
    )


def is_over(told: str, behind: str, then: Sequence[str], *, may_heal: bool = False) -> bool:
    """Whether something was long ago, is told as over, and nothing says that it is back.

    It is told in a clause up to its end, with the rest of that behind, `then` others. Where it
    `may_heal` it is over too where one of these says that all is well now.
    """
    spoken = _around("compared").sub(" ", told + behind)
    is_past = _around("past").search(spoken) or (may_heal and any(map(_is_healed, then)))
    if not is_past or not _around("was").search(told):
        return False
    if _around("begun").search(told + behind) and not any(map(_is_healed, (behind, *then))):
        return False
    return not any(map(_is_back, (told + behind, *then)))


def _is_healed(clause: str) -> bool:
    """Whether a clause says that all is well now, and not of something else."""
    but = any(_around(name).search(clause) for name in ("unwell", "besides"))
    return bool(_around("healed").search(clause)) and not but


def _is_back(clause: str) -> bool:
    """Whether a clause says that what was long ago is there again, or has an ill animal now."""
    is_now = _around("now").search(clause) and not _around("well").search(clause)
    return bool(is_now or _around("anew").search(_around("healed").sub(" ", clause)))


def _is_of_another(sign: str, before: str, behind: str) -> bool:
    """Whether a sign is told of a person or a pet; of who has bitten, the one named behind."""
    bite = _around("bite").search(sign)
    if bite and (bite.start() or _around("has").search(before)):
        of_a_thing = _around("it").match(behind) and _is_of_a_thing(before)
        bites_nobody = bite.start() and not behind.strip()  # “he's got bitten” is told of him
        return bool(of_a_thing or bites_nobody or _around("bites another").match(behind))
    another = _around("of another").search(before)
    named = another and _around("named").search(f"{sign}{behind}")
    return bool(_around("subject").search(before) or (another and not named))


def is_meant(name: str, found: re.Match[str]) -> bool:
    """Whether a sign of a list, found in a folded text, is meant of an animal or a person."""
    plain, end, sign = found.string, found.end(), found[0].replace("'", "")
    before = plain[: found.start()]
    if _around("denied").search(_around("not done").sub(" ", before)) or _is_elsewhere(name, found):
        return False
    if is_a_turtle(plain, end):
        return name != "at_risk"  # I have a sick turtle; our baby is a slider
    if sign == _I_WILL and _around("to do").match(plain, end):
        return False
    of_body = _around("body").match(plain, end)
    if _listed("of_animals").fullmatch(sign):
        return bool(of_body) or _is_named_in(before)
    may_be_thing = _listed("of_things_too").fullmatch(sign) and not of_body
    if may_be_thing and sign.endswith(" from") and _around("of thing").match(plain, end):
        return False
    return not (may_be_thing and _is_of_a_thing(before))
