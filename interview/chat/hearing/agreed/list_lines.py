"""Which line of a list is meant: by its number, its name, or what stands there."""

from __future__ import annotations

import re

from interview.chat.hearing.told.story_lines import label_of
from interview.chat.hearing.told.taken import Story
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.words.amounts.numbers import read_number
from interview.words.lexicon.files import listed
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words, tokenise

__all__ = [
    *("CHANGE", "DROP", "by_its_line", "fits", "is_no_line"),
    *("is_bare_number", "lines_meant", "names_a_line", "points_at_none"),
]

DROP = re.compile(
    r"(?:no|not|drop|forget|without|wrong|remove|delete|scrap|strike|leave out|take out)[ ,:]+"
    r"(?:the |my |line |an? )?(.+)",
    re.IGNORECASE,
)
CHANGE = re.compile(
    r"(?:change|mend|correct|fix)[ ,:]+(?:the |my |line )?(.+?)(?: to (.+))?$", re.IGNORECASE
)
_IS_TO_BE = re.compile(
    r"(?:the |line |number |no\.? ?|#)*(.+?) (?:is|should be|must be) (.+)", re.I
)
"""Number 4 is 22 cm: which line, and what it should be."""
_ALL_BUT = re.compile(
    r"(?:yes,? )?(?:all|everything|all of (?:it|them)) (?:but|except|apart from|bar)(?: for)? "
    r"(?:the |my |line |number )*(.+)",
    re.IGNORECASE,
)
_LINE_IS = re.compile(r"(?:the )?(?:line|number|no\.?|#) ?(\d+) (?:is|should be|must be) .+", re.I)
_POINTS = {"it", "that", "this", "them", "those", "these", "one", "all", "everything"}
"""Words that name no line: drop it."""
_MOST_TURTLES = 12
"""That somebody counts in one word."""
_STAGE = "stage"


def by_its_line(interview: Interview, story: Story, line: str) -> str:
    """What is said of one line, as it would be typed: change 4 to 22 cm, no heater power."""
    to_be, all_but = _IS_TO_BE.fullmatch(line), _ALL_BUT.fullmatch(line.strip(" .!"))
    if all_but and len(lines_meant(interview, story, all_but[1])) == 1:
        return f"no {all_but[1]}"
    found = _by_number(story, to_be[1]) if to_be else []
    if to_be and found and fits(interview, story, found[0], to_be[2]):
        return f"change {to_be[1]} to {to_be[2]}"
    return line


def _by_number(story: Story, name: str) -> list[Place]:
    """The line that goes by a number: 4, the second one."""
    places = [place for place, _ in story.answers]
    nth = plain_words(name).removesuffix(" one").removesuffix(" line")
    turns = listed("animals", "ordinals")
    number = int(name) if name.isdecimal() else turns.index(nth) + 1 if nth in turns else 0
    return places[number - 1 : number] if number else []


def is_bare_number(said: str) -> bool:
    """Whether words are a number and nothing else, 22 or twenty two; “three” may count turtles."""
    tokens = tokenise(said)
    number = read_number(tokens)
    alone = number is not None and number.end == len(tokens)
    return alone and (said.isdecimal() or number is None or number.value > _MOST_TURTLES)


def is_no_line(story: Story, line: str) -> bool:
    """Whether a line is a number, or begins with one, that no line of the list goes by."""
    told = _LINE_IS.fullmatch(line)
    number = told[1] if told else line if is_bare_number(line) else ""
    return bool(number) and not _by_number(story, number)


def points_at_none(line: str) -> bool:
    """Whether a line leaves out what it doesn't name: drop it, no all of them."""
    drop = DROP.fullmatch(line)
    named = plain_words(drop[1]).replace("all of", "") if drop else line
    return _POINTS.issuperset(named.split())


def names_a_line(interview: Interview, story: Story, line: str) -> bool:
    """Whether a line leaves out or changes one of those that were heard, by its name."""
    change, drop = CHANGE.fullmatch(line), DROP.fullmatch(line)
    name = change[1] if change else drop[1] if drop else line
    return bool(lines_meant(interview, story, name))


def lines_meant(interview: Interview, story: Story, name: str) -> list[Place]:
    """The lines that go by a number or a name: whole, else by all of its words."""
    places = [place for place, _ in story.answers]
    numbered = _by_number(story, name)
    if numbered or name.isdecimal():
        return numbered
    wanted = plain_words(name)
    names = {place: _names(interview, story, place) for place in places}
    said = [place for place, said in story.answers if plain_words(said) == wanted]
    whole = [place for place in places if wanted in names[place]] or said
    words = set(wanted.split())
    part = [p for p in places if words and any(words <= set(n.split()) for n in names[p])]
    return whole or part


def _names(interview: Interview, story: Story, place: Place) -> list[str]:
    question = interview.question(place)
    ways = (label_of(interview, story, place), place.id, *question.trade_names, question.label)
    return [plain_words(way.replace("_", " ")) for way in ways]


def fits(interview: Interview, story: Story, place: Place, said: str) -> bool:
    """Whether words answer the question of a line."""
    question = interview.question(place)
    try:
        counts = read_number(tokenise(said)) is not None and interview.lists.options_of(question)
        if place.id == _STAGE or counts:  # no option is meant by its number
            return False
        understand(question, said, interview.lists, story.region, interview.system)
    except NotUnderstood:
        return False
    return True
