"""Answers told by what goes without saying: half full, room temperature, a son of three."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import dropwhile

from interview.base.units import convert
from interview.chat.hearing.references import matches
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.amounts.amount import written
from interview.words.amounts.hedges import instrument_in, split_hedge
from interview.words.amounts.quantity import apart, read_quantity, reads
from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import label
from interview.words.choices.absence import behind_unsure, is_unsure, wonders
from interview.words.forms.around import OtherSide
from interview.words.intents.household import at_risk_at_home
from interview.words.lexicon.files import known_words, words
from interview.words.lexicon.rules import is_said
from interview.words.mentions.parts import read_parts
from interview.words.text.refusal import NotUnderstood, quoted
from interview.words.text.tokens import joined, plain_words, tokenise

__all__ = [
    *("also_recorded", "below_rim", "in_context", "is_same", "length_unit"),
    *("no_such_depth", "nobody_knows", "tells_depth", "with_only_unit"),
]

_ONLY_UNIT = {"power": "W", "voltage": "V", "current": "A", "angle": "degrees"}
_WATER_LINE = Place("water_line_below_rim")
_NUMBERS = re.compile(r"\d+")
_CLAUSE_ENDS = re.compile(r"[,;!?]\s|\.\s|\s(?:and|but|so)\s", re.IGNORECASE)
_OF_THIS = frozenset({"it", "its", "that", "he", "hes", "she", "shes", "they", "theyre"})
_AROUND = frozenset({"the", "of", "about", "what", "which", "my", "our", "their", "her", "his"})
"""Words around the name of a question that nobody knows the answer to."""
_MOST_NAMING = 3
_OF_OTHERS = {"doesnt": "dont", "isnt": "im not", "hasnt": "havent", "is": "am"}
"""What others don't know, as if the keeper said it."""
_NUMBER = r"[\d.,]{1,12}(?:-?ish)?"
_NUMBER_LAST = re.compile(
    rf"(?:[a-z~ ]{{0,30}}\s)?{_NUMBER}(?:\s?(?:-|–|to|and)\s?{_NUMBER})?", re.IGNORECASE
)
_READ_WITH = re.compile(r"(.*\d)(\D+)")
"""A number and what it was read with."""
_FILLED = re.compile(
    r"(?:.* )?fill(?:ed|s)?(?: it| the tank)?(?: up)?(?: to)? (.+?)(?:(?: of the)? way(?: up)?)?",
    re.IGNORECASE,
)
_WAY_UP = re.compile(
    r"(?:its? |it's |it is )?(.+?)(?:(?: of the)? ?way up| of the way)", re.IGNORECASE
)
"""How far up the water stands, as a share of the tank’s height: filled to two thirds."""
_HOTTEST_WITHOUT_SCALE = 60.0
"""Hottest that is meant in °C where only a number is typed [degC] (assumption): 92 is in °F."""
_SAME = ("carapace_length", "species", "sex")
"""What alone may be told as the same: “same size”."""
_DESCRIBED = ("species", "live_plants", "warning_signs")
"""Where somebody who doesn't know goes on to tell what is seen."""
_AT_ROOM = ("water_temperature", "tap_temperature", "basking_room_temperature")


def in_context(interview: Interview, place: Place, line: str) -> str:
    """The answer as it would be typed in full; empty where the words are none of these."""
    if place == _WATER_LINE:
        known = interview.known()
        height = known.get("tank_height", 0.0) - known.get("wall_thickness", 0.0)
        return below_rim(interview, line.strip(" ."), height)
    if place.id == "vulnerable_person" and not interview.takes(place, line):
        at_risk = at_risk_at_home(line)
        unknown = "not sure" if nobody_knows(line) else ""
        return unknown if at_risk is None else "yes" if at_risk else "no"
    if place.id not in _DESCRIBED and _never_knew(interview, place, line):
        return "not sure"
    if nobody_knows(line):
        return "not sure"
    if place.animal and (is_same(line) or (place.id in _SAME and _is(line, f"same_{place.id}"))):
        return _as_before(interview, place, line)
    if place.id in _AT_ROOM and is_said(plain_words(line), "in_context", "room"):
        return _room(interview)
    return ""


def _never_knew(interview: Interview, place: Place, line: str) -> bool:
    """Whether somebody doesn't know, and says of what, or why: no clue if it's a boy; it's old.

    Who is not sure and then tells it, as about a foot, knows.
    """
    rest = behind_unsure(line)
    if (
        not rest  # a plain “not sure” is read as such
        or "?" in line
        or wonders(line)
        or rest.startswith("why ")
        or any(part.said for part in read_parts(rest))
    ):
        return False
    options = interview.lists.options_of(interview.question(place))
    ways = [way for option in options for way in option.spellings]
    _, _, behind = line.partition(",")
    if any(f" {way} " in f" {plain_words(behind)} " for way in ways):
        return False  # not sure what it's made of, glass probably
    if rest.partition(" ")[0] in known_words("in_context", "of_what"):
        named = matches(interview, rest, ahead=True)  # how many watts the heater has
        return place in named or not named or not _OF_THIS.isdisjoint(rest.split())
    left = [word for word in rest.split() if word not in _AROUND]
    if 0 < len(left) <= _MOST_NAMING and (named := matches(interview, " ".join(left), ahead=True)):
        return place in named  # don't know the floor
    told = any(f" {way} " in f" {rest} " for way in ways)
    return not told and not interview.takes(place, rest)


def nobody_knows(line: str) -> bool:
    """Whether a line says no more than that somebody else doesn't know: she isn't sure."""
    first, *rest = plain_words(line).removeprefix("the ").split() or [""]
    if first not in known_words("in_context", "persons"):
        return False
    return is_unsure(" ".join(["i", *(_OF_OTHERS.get(word, word) for word in rest)]))


def is_same(line: str) -> bool:
    """Whether the words say no more than that all is as with a turtle before."""
    return _is(line, "same")


def _is(line: str, listed: str) -> bool:
    return is_said(plain_words(line), "in_context", listed)


def _as_before(interview: Interview, place: Place, line: str) -> str:
    """The words told of the first turtle, or of all before where they agree; else nothing."""
    before = range(1 if _is(line, "same_as_first") else place.animal or 0)
    told = {interview.answers.get(Place(place.id, number)) for number in before}
    answer = told.pop() if len(told) == 1 else None
    return answer.said if answer else ""


def also_recorded(interview: Interview, place: Place, line: str) -> Place | None:
    """Record at the open question that a line answers in the same breath: a quarter, every week.

    Returns where, None where nothing was taken.
    """
    question = interview.question(place)
    if not question.beside or apart(line, question.type, question.beside, interview.region) == line:
        return None
    for other in interview.questionnaire:
        at, pair = Place(other.id), other.type == question.beside and other.beside == question.type
        if pair and interview.relevance().get(at):
            if at in interview.answers or not interview.takes(at, line):
                return None
            interview.record(at, line)
            return at
    return None


def below_rim(interview: Interview, line: str, height: float) -> str:
    """The water line below the rim by how full a tank is, or by how deep its water stands.

    It is always an estimate; empty where the words tell neither, or the height [m] isn't known (0).
    """
    words = _without(line.split())
    if words and words[-1].rpartition("-")[2].casefold() in known_words("in_context", "full"):
        share = " ".join(words).rpartition(" " if "-" not in words[-1] else "-")[0]
        return _below_rim(interview, share)
    if filled := _FILLED.fullmatch(line) or _WAY_UP.fullmatch(line):
        return _below_rim(interview, filled[1])
    depth = _depth_in(interview, line) if tells_depth(line) else 0.0
    return _about(interview, height - depth) if height > depth > 0 else ""


def tells_depth(line: str) -> bool:
    """Whether words tell how deep water stands, or how high, and not how far below the rim."""
    lengths = [part.said for part in read_parts(line) if part.kind == "length"]
    sized = [one for one in _CLAUSE_ENDS.split(line) if any(length in one for length in lengths)]
    if not any(_is_deep(one, lengths) for one in sized):
        sized = [line]  # “2 in, from the top, deep enough”
    from_top = known_words("in_context", "from_top")
    if any(not from_top.isdisjoint(plain_words(one).split()) for one in sized):
        return False  # “2 in from the top, quite high”
    return any(_is_deep(one, lengths) for one in sized)


def _is_deep(text: str, lengths: Iterable[str]) -> bool:
    """Whether a text says that something is deep, or that one of some lengths is high."""
    spoken = f" {plain_words(text)} "
    ways = {*known_words("in_context", "depth"), *(f"{plain_words(one)} high" for one in lengths)}
    return any(f" {way} " in spoken for way in ways)


def no_such_depth(interview: Interview, place: Place, line: str) -> OtherSide | None:
    """Why a depth that is told can't be made a water line; None where none is told there."""
    if place != _WATER_LINE or not tells_depth(line):
        return None
    height = interview.known().get("tank_height")
    if height is None:
        wrong = "that is how deep the water is, and how high the tank is I don't know yet"
    elif _depth_in(interview, line) >= height:
        wrong = "that is how deep the water is, and the tank is no higher than that"
    elif any(part.kind == "length" for part in read_parts(line)):
        wrong = "that is how deep the water is, and I can't tell which amount of it counts"
    else:
        wrong = "that is how deep the water is, and its unit is missing"
    return OtherSide(quoted(line), wrong, "how far the water line is below the rim")


def _depth_in(interview: Interview, line: str) -> float:
    """The one length told in a line [m]; 0 where there is none, or more than one number."""
    told = [part.said for part in read_parts(line) if part.kind == "length"]
    if len(told) != 1 or len(_NUMBERS.findall(line.replace(told[0], ""))):
        return 0.0
    return read_quantity(told[0], "length", region=interview.region).best


def _without(words: list[str]) -> list[str]:
    """The words without those in front that only lead up to the amount."""
    leads = known_words("in_context", "before")
    return list(dropwhile(lambda word: plain_words(word) in leads, words))


def _about(interview: Interview, below: float) -> str:
    unit = "inch" if interview.system in ("us", "uk_inches") else "cm"
    return f"about {written(round(convert(below, 'm', unit), 1), unit)}"


def _below_rim(interview: Interview, words: str) -> str:
    """The water line of a tank that is full to a share of its height: always an estimate."""
    height = interview.known().get("tank_height")
    try:
        _, tokens = split_hedge(tokenise(words))
        share = read_quantity(joined(tokens), "share", region=interview.region).best
    except NotUnderstood:
        return ""
    if height is None or not 0 < share <= 1:
        return ""
    return _about(interview, height * (1 - share))


def _room(interview: Interview) -> str:
    """Between the coldest and the warmest the room gets."""
    known = interview.known()
    low, high = known.get("room_temperature_low"), known.get("room_temperature_high")
    if low is None or high is None or not low < high:
        return ""
    unit = "degF" if interview.system == "us" else "degC"
    ends = [written(round(convert(end, "degC", unit), 1), unit) for end in (low, high)]
    return f"{ends[0]} to {ends[1]}"


def with_only_unit(interview: Interview, place: Place, line: str) -> str:
    """The line with its unit put behind the number; empty when there is nothing to put.

    The setup file keeps the line with the unit, as files never leave one out.
    """
    question = interview.question(place)
    read_with = _READ_WITH.fullmatch(line.strip())
    if read_with and _is_beside(question.type, read_with[2]) and not interview.takes(place, line):
        in_full = with_only_unit(interview, place, read_with[1])
        return in_full and f"{in_full}{read_with[2]}"
    if not _NUMBER_LAST.fullmatch(line.strip()):
        return ""
    if question.type == "temperature":
        return _with_only_scale(interview, place, line.strip())
    if question.clock and len(re.findall(_NUMBER, line)) > 1:  # 8 to 20: from and until
        return ""
    if question.type == "length":
        return _with_own_length(interview, place, line.strip())
    unit = "hours" if question.clock else _ONLY_UNIT.get(question.type)
    if unit is None:
        return ""
    with_unit = f"{line.strip()} {unit}"
    kind, region = question.type, interview.region
    is_bare = not reads(line, kind, region)
    return with_unit if is_bare and reads(with_unit, kind, region) else ""


def _is_beside(kind: str, said: str) -> bool:
    """Whether words behind a number say how sure it is, or what a temperature was read with."""
    after = plain_words(said)
    hedges = any(after in ways for ways in words().hedges_after.values())
    return (hedges and said[0] == " ") or (
        kind == "temperature" and bool(instrument_in(tokenise(said)))
    )


def _with_own_length(interview: Interview, place: Place, line: str) -> str:
    """The line with the keeper's own unit, where the question is told in that: 33, for 33 cm."""
    unit = length_unit(interview)
    told_so = unit and f" {unit}" in f"{interview.question(place).example} "
    with_unit = f"{line} {unit}"
    is_bare = told_so and not reads(line, "length", interview.region)
    return with_unit if is_bare and interview.takes(place, with_unit) else ""


def length_unit(interview: Interview) -> str:
    """The one unit in which all lengths were told so far, thin or wide ones aside; else nothing."""
    values = [answer.value for answer in interview.answers.values()]
    readings = [one for value in values for one in (value if isinstance(value, tuple) else [value])]
    told = {one.unit for one in readings if isinstance(one, Reading)} & {"cm", "inch", "foot"}
    return label(told.pop()) if told in ({"cm"}, {"inch"}) else ""


def _with_only_scale(interview: Interview, place: Place, line: str) -> str:
    """The line with the scale in which alone it can be: 78 in a room is no °C; else nothing."""
    if interview.takes(place, line):
        return ""
    read = {scale: f"{line} °{scale}" for scale in "CF"}
    can_be = [said for said in read.values() if _is_usual(interview, place, said)]
    return can_be[0] if len(can_be) == 1 else ""


def _is_usual(interview: Interview, place: Place, said: str) -> bool:
    """Whether a temperature is taken there, and is none that nobody tells without its scale."""
    try:
        value = interview.try_answer(place, said).value
    except (NotUnderstood, AnswerRefused):
        return False
    return isinstance(value, Reading) and value.best <= _HOTTEST_WITHOUT_SCALE
