"""What a shop is asked once: region, room and mains, kept in one small file for all customers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from interview import setups
from interview.chat.faces.face import Asked, Face, Left
from interview.chat.hearing.in_context import with_only_unit
from interview.chat.hearing.nearly import nearly
from interview.chat.hearing.replies import NO, word_of
from interview.chat.talks.answers_so_far import shown_answer
from interview.chat.talks.listening import hear_aside
from interview.chat.together.row_parts import ends_told, parts_of
from interview.chat.together.shop_told import (
    LONGEST,
    answers_back,
    customer_in,
    customers_name,
    first_part,
    home_of,
    is_left_out,
    is_of_a_customer,
    owner_first,
)
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.setups import Setup, SetupError
from interview.words.mentions.parts import read_parts
from interview.words.text.refusal import NotUnderstood

__all__ = ["customers_label", "shop_file", "take_from_shop"]

_OF_SHOP = ("region", "room_temperature_low", "room_temperature_high", "mains_voltage")
"""The units follow from these: those that the room is told in."""
_ROOM = (Place("room_temperature_low"), Place("room_temperature_high"))
_MAINS = Place("mains_voltage")
_ONCE = (
    "First for the shop, once: where it is and how its customers’ rooms are. I take that for every "
    "customer; “change region” mends it for one. Enter leaves a line out."
)
_LATER = "That is of the customer: I take it once the shop is done."
_LABEL = Asked(
    "Which customer is this?",
    "A name or a number for the list of setups; Enter leaves it out.",
)
_LABELS = {
    "region": "Where is the shop?",
    "room_temperature_low": "How cold do your customers’ rooms get, at their coldest?",
    "room_temperature_high": "How warm do your customers’ rooms get, at their warmest?",
}
"""What a shop is asked other than a keeper at home."""
_BEGUN = "begun.yaml"
"""The lines told before somebody left; it goes once all were asked."""


def shop_file() -> Path:
    """Where the shop’s own answers are kept; never among the setups of customers."""
    return setups.folder() / "shop" / "defaults.yaml"


def customers_label(face: Face, interview: Interview, told: list[str]) -> tuple[str, list[str]]:
    """What a customer goes by in the list, "" where nobody says; and what is to be heard of it.

    Who was named in what was `told` before is not asked for, and a name alone is not heard again.
    """
    stories = [one for one in told if not customers_name(one)]
    if name := next(filter(None, map(_named_in, told)), ""):
        return name, stories
    line = hear_aside(face, _LABEL)
    if word_of(line) in ("", *NO) or is_left_out(line):
        return "", stories
    name, story = _label_and_story(interview, line)
    return name[:LONGEST], [*stories, *filter(None, [story])]


def _named_in(line: str) -> str:
    return customers_name(line) or owner_first(line)[0]


def _label_and_story(interview: Interview, line: str) -> tuple[str, str]:
    """A customer's name and what is told with it; else who it is, or the line as it stands."""
    if name := customers_name(line):
        return name, ""
    name, story = owner_first(line)
    if name:
        return name, story
    name, story = first_part(line)
    if is_of_a_customer(interview, line):
        if name and not is_of_a_customer(interview, name):
            return name, story
        return (name or line) if customer_in(line) else "", line
    tells = name and (customer_in(name) or any(part.unit for part in read_parts(story)))
    return (name, story) if tells else (line, "")


def take_from_shop(face: Face, interview: Interview) -> list[str]:
    """Answer for the customer what is the same for all of the shop; asked once, then said.

    Returns what was told of the customer meanwhile.

    A file that can't be used, or written, is told and costs nobody the talk. Who leaves between
    these questions finds the lines told so far the next time, and is asked the others.
    """
    path, begun = shop_file(), shop_file().with_name(_BEGUN)
    told: dict[Place, str] = {}
    later: list[str] = []
    try:
        if path.exists():
            told = setups.read(path, interview.questionnaire).answers
        else:
            with suppress(SetupError, OSError):  # what can't be read again is asked again
                told = _begun(begun, interview)
            try:
                _ask_once(face, interview, told, later)
            except Left:
                with suppress(SetupError, OSError):  # who leaves, leaves
                    if told:
                        _write(begun, told)
                raise
            _write(path, told)
            begun.unlink(missing_ok=True)
    except (SetupError, OSError) as problem:
        face.say(f"The shop’s own answers can't be kept: {problem}")
        return later
    rows = []
    for place, said in told.items():
        name = interview.question(place).short
        try:
            interview.record(place, said)
            rows.append((name, shown_answer(interview, place)))
        except (NotUnderstood, AnswerRefused) as problem:
            face.say(f"{name}, in {path}: {problem}", "refusal")
    if _MAINS not in told and (usual := _usual_mains(interview)):
        rows.append((interview.question(_MAINS).short, f"{usual}, as is usual there"))
    if rows:
        face.listing("From the shop:", rows)
    return later


def _usual_mains(interview: Interview) -> str:
    """The voltage of a region's mains; "" where none is usual."""
    from interview.core.electricity.load import supply_voltage
    from interview.core.errors import Missing

    try:
        return f"{supply_voltage(region=interview.region or 'elsewhere'):g} V"
    except Missing:
        return ""


def _begun(path: Path, interview: Interview) -> dict[Place, str]:
    """The lines that were told before somebody left; they tell units and places of the others."""
    told = setups.read(path, interview.questionnaire).answers if path.exists() else {}
    for place, said in told.items():
        with suppress(NotUnderstood, AnswerRefused):
            interview.record(place, said)
    return told


def _write(path: Path, told: Mapping[Place, str]) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    setups.write(path, Setup("The shop", dict(told)))


def _ask_once(face: Face, interview: Interview, told: dict[Place, str], later: list[str]) -> None:
    """Ask for each line that is not told yet, and add it at once; a customer's story waits."""
    face.say(_ONCE)
    for place in (Place(name) for name in _OF_SHOP):
        question = interview.question(place)
        choices = [(option.name, option.label) for option in question.choices]
        asked = Asked(_LABELS.get(place.id, question.label), question.hint, choices=choices)
        is_usual = place == _MAINS and bool(_usual_mains(interview))
        while place not in told and not is_usual and (line := hear_aside(face, asked)):
            if is_left_out(line):
                break
            if customers_name(line) or is_of_a_customer(interview, line):
                later.append(line)
                face.say(_LATER)
                continue
            if answers_back(face, interview, place, line, _ONCE):
                continue
            for at, said in _told_at(interview, place, line):
                if at not in told:
                    _keep(face, interview, told, at, said)


def _told_at(interview: Interview, place: Place, line: str) -> Iterable[tuple[Place, str]]:
    """What a line tells of the shop: both ends of its rooms at once, behind where it is, too."""
    rest = line.partition(",")[2] if place.id == "region" else line
    ends = ends_told(interview, rest) if rest and place.id != "mains_voltage" else []
    if len(ends) < len(_ROOM) and place == _ROOM[0]:
        ends = parts_of(interview, _ROOM, line)
    both = list(zip(_ROOM, ends, strict=True)) if len(ends) == len(_ROOM) else []
    return both if both and place in _ROOM else [(place, line), *both]


def _keep(
    face: Face, interview: Interview, told: dict[Place, str], place: Place, line: str
) -> None:
    """Take one line, and say so where it is taken as something else; or why it isn't."""
    in_region = place.id == "region"  # “Ohio”, “near Leeds”
    home = home_of(interview, line) if in_region else ""
    in_full = home or with_only_unit(interview, place, line)
    if not in_full and len(found := nearly(interview, place, line)) == 1:
        (in_full,) = found  # the usual, 230 V
    try:
        answer = interview.record(place, in_full or line).answer
    except (NotUnderstood, AnswerRefused) as problem:
        face.say(str(problem), "refusal")
    else:
        told[place] = answer.said
        if in_full and in_full.casefold() != line.casefold():
            face.say(f"I took “{line}” as {shown_answer(interview, place)}.")
