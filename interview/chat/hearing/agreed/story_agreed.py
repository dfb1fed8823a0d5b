"""A story's list put right line by line before it is kept: no heater power, change wall."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from interview.chat.faces.face import Asked
from interview.chat.hearing.agreed.corrected import corrections_in
from interview.chat.hearing.agreed.list_lines import (
    CHANGE,
    DROP,
    by_its_line,
    fits,
    is_bare_number,
    is_no_line,
    lines_meant,
    names_a_line,
    points_at_none,
)
from interview.chat.hearing.asked_instead import asks
from interview.chat.hearing.choosing import Choosing
from interview.chat.hearing.people import is_sentence
from interview.chat.hearing.replies import DONE, NO, agreed_in, asks_back, says, word_of
from interview.chat.hearing.told.elsewhere import is_of_others
from interview.chat.hearing.told.story import keep, read_story
from interview.chat.hearing.told.story_lines import label_of, lines_of, not_used
from interview.chat.hearing.told.taken import Story
from interview.chat.hearing.turtles.known_turtles import told_of
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.graph.staleness import same
from interview.words.choices.absence import is_unsure
from interview.words.intents.contrast import asserted
from interview.words.intents.which_turtle import turtles_in
from interview.words.lexicon.files import known_words
from interview.words.text.refusal import NotUnderstood, either
from interview.words.text.tokens import plain_words

__all__ = ["agreed"]

_ALL_WRONG = re.compile(
    r"(?=.*\b(?:no|not|wrong|isnt|forget)\b)"
    r"(?:(?:no|not|wrong|thats?|is|its?|isnt|right|all|of|this|everything|forget) ?)+"
)
_OBJECTS = re.compile(r"(?:but|except|only|just|apart from)\b", re.IGNORECASE)
"""Yes, but: not all of it stands."""
_WRONG = re.compile(r"(?:the |my |line |number )*(.+?) (?:is|are|was) (?:wrong|incorrect)")
_DENIES = re.compile(
    r"no (?!(?:its?|it's|that|thats|that's|he|she|hes|shes|he's|she's|the|my|we|i|not|make)\b)"
    r"[^,\d]{1,30}$",
    re.IGNORECASE,
)
"""No UVB: what there is none of, not a “no” and what it is."""
_LED = re.compile(
    r"^(?:(?:its|it's|it is|that's|thats|that is|make (?:that|it)|rather|actually|i meant|sorry|"
    r"he's|she's|he is|she is|but|no)[ ,]+)+",
    re.IGNORECASE,
)
"""What leads up to a correction."""
_LEAST_WORDS = 3
"""Of what is told behind a yes, and is heard later."""
_LEAST_SAID, _LEAST_WITH_A_NUMBER = 4, 3
"""Of what names no line, and is no slip in the name of one."""
_OPENING = 3
"""Words within which a “but” objects: yes but, that's right but."""
_STAGE = "stage"
"""Who tells of a turtle has it: it is guessed anew of every line."""
_COUNT, _KIND = Place("animal_count"), "species"
_WHICH_TURTLE = "I can't tell which turtle that is of. Type “change” and the line's number."
_WHICH_LINE = (
    "Which line is it? “change” and its number mends it, “no” and its number leaves it out; “no” "
    "forgets it all."
)
_UNSURE = (
    "Which line aren't you sure of? “no” and its number leaves it out, and I ask it later, with "
    "how to measure it; Enter keeps them all."
)
_COUNTED = re.compile(
    r"\b(?:only|just|it is|it's|its|there are|there's|theres|there is) (?:only |just )?"
    r"(?:a single|one|two|three|1|2|3)\b(?! (?:of|that|is|are|who|on|in)\b)",
    re.IGNORECASE,
)
"""How many there are: it is one turtle, only two."""
_ALONE = re.compile(r"(?: (?:now|left|here|though|really|actually))*\s*(?:$|[,;!?]|\.(?!\d))")
"""Behind a number that counts nothing else: only two now, but not only 2 lamps."""
_OF_WHAT = "Which line is that of? “change 2 to 22 cm” mends the second one."
_BEYOND = (
    "That I can't tell you here; the audit says what your tank needs. First: is the list right?"
)
_NOTHING = "I found nothing for the list in that. Enter keeps it; “no” and a number leaves one out."
_STANDS = "That stands there already; Enter keeps it all."
_ASK = Asked(
    "Is that right?",
    "Enter keeps it all, “no” forgets it all; “no” and a line’s name or number leaves that "
    "one out, “change” and a name or number mends it.",
)

_WHY = (
    "Each line is an answer that I read in your words. I may have misread them, so nothing is kept "
    "until you agree; what is left out I ask later, with how to measure it."
)


def agreed(talk: Choosing, story: Story) -> Story | None:
    """The story as the keeper agrees to it; None when it is to be forgotten."""
    _show(talk, story)
    if given_back := not_used(story):
        talk.face.say(given_back)
    kept: Story | None = None
    while story.answers:
        line = talk.hear_now(_ASK)
        talk.hear_of_illness(line)
        line = by_its_line(talk.interview, story, line)
        word, (agrees, rest) = word_of(line), agreed_in(line)
        if fewer := _with_fewer(talk.interview, story, rest if agrees is False else line):
            story = fewer
            _show(talk, story)
            continue
        otherwise, whose = _told_otherwise(talk.interview, story, line)
        if otherwise is not None:
            story = _put_right(talk, story, otherwise, whose=whose)
            _show(talk, story)
            continue
        if word in DONE:
            talk.hear_later(line)
            agrees, rest = True, ""
        if says(line, "all_stands"):
            agrees, rest = True, ""
        goes_on = len(rest.split()) >= _LEAST_WORDS and not _OBJECTS.match(rest)
        if agrees and (not rest or goes_on):
            if rest:
                talk.hear_later(rest)
            kept = story
            break
        all_wrong = not asks_back(line) and _ALL_WRONG.fullmatch(plain_words(word))
        if word in (*NO, "back") or all_wrong:
            break
        if is_unsure(word):
            talk.face.say(_UNSURE, "help")
            continue
        if word == "skip" or says(line, "skip"):
            talk.face.say(_ASK.hint, "help")
            continue
        if word in ("why", "how") or asks(line) or asks_back(line):
            asks_more = is_sentence(line) and not asks_back(line)
            talk.face.say(_BEYOND if asks_more else _WHY, "help")
            continue
        if plain_words(line) in {plain_words(said) for _, said in story.answers}:
            talk.face.say(_STANDS)
            continue
        said = asserted(line if agrees is None else rest)
        retold = None if _DENIES.match(line) else _retold(talk, story, said)
        if retold is not None:
            if retold is not story:
                story = retold
                _show(talk, story)
            continue
        line = line.strip(" .!?")
        if points_at_none(line):
            talk.face.say(_WHICH_LINE)
            continue
        if is_no_line(story, line):
            talk.face.say(_OF_WHAT, "refusal")
            continue
        if wrong := _WRONG.fullmatch(line.casefold()):
            line = f"change {wrong[1]}"
        if _talks(line) and not names_a_line(talk.interview, story, line):
            talk.face.say(_WHICH_LINE if _objects(line) else _NOTHING)
            continue
        mended = _mended(talk, story, line)
        if mended is not None:
            story = mended
            _show(talk, story)
    if kept is None:
        talk.face.say("Then I forget that, and ask one thing at a time.")
    return kept


def _show(talk: Choosing, story: Story) -> None:
    rows = enumerate(lines_of(talk.interview, story), 1)
    talk.face.listing("I take it that:", [(f"{n}. {name}", said) for n, (name, said) in rows])


def _with_fewer(interview: Interview, story: Story, line: str) -> Story | None:
    """The story with the turtles that a line counts instead, where these are fewer.

    None where it counts none, or only tells of some of them.
    """
    counted = _COUNTED.search(line)
    if not counted or turtles_in(line):
        return None
    before, behind = line[: counted.end()], line[counted.end() :]
    told = read_story(interview, f"{before} turtle{behind}" if _ALONE.match(behind) else line)
    counts = [dict(one.answers).get(_COUNT, "") for one in (told, story)]
    if not all(map(str.isdecimal, counts)) or int(counts[0]) >= int(counts[1]):
        return None
    of_tank = [row for row in story.answers if row[0].animal is None and row[0] != _COUNT]
    own = [row for row in told.answers if row[0].animal is not None or row[0] == _COUNT]
    kinds = {said for at, said in story.answers if at.id == _KIND}
    if len(kinds) == 1 and not any(at.id == _KIND for at, _ in own):
        own += [(Place(_KIND, n), kind) for n in range(int(counts[0])) for kind in kinds]
    return _in_order(interview, replace(story, answers=()), dict([*of_tank, *own]))


def _in_order(interview: Interview, story: Story, answers: Mapping[Place, str]) -> Story:
    """The story with these answers, as they are asked."""
    order = list(interview.questionnaire.by_id)
    places = sorted(answers, key=lambda place: (order.index(place.id), place.animal or 0))
    return replace(story, answers=tuple((place, answers[place]) for place in places))


def _told_otherwise(interview: Interview, story: Story, line: str) -> tuple[Story | None, bool]:
    """What a line tells that the list has otherwise; what it adds, too, where it objects to it.

    And whether it tells of a turtle too, and not of which.
    """
    agrees, rest = agreed_in(line)
    said = line if agrees is None or _DENIES.match(line) else rest
    drop = DROP.fullmatch(line.strip(" .!?"))
    denies = agrees is None and asserted(line) == line.strip(" .!")  # not a slider, but a cooter
    leaves_out = drop and (denies or len(lines_meant(interview, story, drop[1])) == 1)
    if not said or leaves_out or CHANGE.fullmatch(said) or asks(line):
        return None, False
    held, several = dict(story.answers), len({at.animal for at, _ in story.answers} - {None}) > 1
    listed = _as_listed(interview, story)
    told, whose = told_of(listed, asserted(said), _one_turtle(story), of_turtles=several)
    alone = several and (whose or any(at.animal is not None for at, _ in told.answers))
    sure = [row for row in told.answers if row[0].id != _STAGE and row[0] not in told.heard]
    of_some = whose or any(at.animal is not None and at.id != _KIND for at, _ in told.answers)
    some = [str(n) for n in range(1, listed.animal_count if of_some else 2)]
    sure = [row for row in sure if not (alone and row[0] == _COUNT and row[1] in some)]
    new = [row for row in sure if held.get(row[0]) != row[1] and _is_news(listed, *row)]
    tells = len(said.split()) >= _LEAST_WITH_A_NUMBER and (not agrees or _objects(line))
    if tells and not (new or whose):
        new, told = corrections_in(listed, said, adds=True), replace(told, unused=())
    is_of_these = not agrees or _objects(line) or any(place in held for place, _ in new)
    is_told = (new and is_of_these) or (whose and (agrees is False or not new))
    return (replace(told, answers=tuple(new)) if is_told else None), whose


def _is_news(listed: Interview, place: Place, said: str) -> bool:
    """Whether words mean something else than what is listed: a musk is a musk turtle."""
    answer = listed.answers.get(place)
    return answer is None or not same(answer.value, listed.try_answer(place, said).value)


def _as_listed(interview: Interview, story: Story) -> Interview:
    """The interview as it would be with the list kept: its turtles are known then."""
    listed = Interview(interview.questionnaire, interview.lists)
    listed.answers.update(interview.answers)
    keep(listed, story)
    return listed


def _one_turtle(story: Story) -> Place | None:
    """Where a list tells of one turtle, a place of that."""
    places = [place for place, _ in story.answers if place.animal is not None]
    return places[0] if len({place.animal for place in places}) == 1 else None


def _put_right(talk: Choosing, story: Story, told: Story, *, whose: bool) -> Story:
    """The story with what was told otherwise; what may be of either turtle stays as it was."""
    held, new = dict(story.answers), dict(told.answers)
    if whose:
        talk.face.say(_WHICH_TURTLE, "refusal")
    if given_back := not_used(told):
        talk.face.say(given_back)
    return replace(
        _in_order(talk.interview, story, {**held, **new}),
        guessed=(story.guessed - new.keys()) | (told.guessed & new.keys()),
        heard={place: clause for place, clause in story.heard.items() if place not in new},
    )


def _retold(talk: Choosing, story: Story, line: str) -> Story | None:
    """The story with the one line that a bare correction fits: it's 22 cm; None where none does.

    The same story where it fits several, which is asked then.
    """
    said = _LED.sub("", line.strip(" .!")).strip()
    if not said or is_bare_number(said) or lines_meant(talk.interview, story, said):
        return None
    found = [
        place
        for place, _ in story.answers
        if fits(talk.interview, story, place, said)
        and not is_of_others(talk.interview.question(place), said)
    ]
    if len(found) == 1:
        return story.with_answer(found[0], said)
    if found:
        names = either(f"“{label_of(talk.interview, story, place)}”" for place in found)
        talk.face.say(f"What is {said}: {names}? Type “change” and the line's number.", "refusal")
        return story
    return None


def _talks(line: str) -> bool:
    """Whether a line tells something, rather than leaves out or changes a line of the list."""
    counts = any(map(str.isdigit, line)) and not (DROP.fullmatch(line) or CHANGE.fullmatch(line))
    return len(line.split()) >= (_LEAST_WITH_A_NUMBER if counts else _LEAST_SAID)


def _objects(line: str) -> bool:
    """Whether a line says that not all of the list stands; a later “but” only goes on."""
    spoken, objects = plain_words(line).split(), known_words("asked_instead", "objects")
    return "but" in spoken[:_OPENING] or not (objects - {"but"}).isdisjoint(spoken)


def _mended(talk: Choosing, story: Story, line: str) -> Story | None:
    """The story with one line left out or changed; None where none was."""
    interview, face = talk.interview, talk.face
    change, drop = CHANGE.fullmatch(line), DROP.fullmatch(line)
    name = change[1] if change else drop[1] if drop else line
    found = lines_meant(interview, story, name)
    if len(found) != 1:
        which = " or ".join(f"“{label_of(interview, story, place)}”" for place in found)
        trouble = f"Which one: {which}?" if found else f"No line goes by “{name}”."
        face.say(f"{trouble} Type yes, no, or as “no 2” or “change 2”.", "refusal")
        return None
    (place,) = found
    if change:
        return _changed(talk, story, place, change[2] or "")
    face.say(f"I leave out “{label_of(interview, story, place)}” and ask it later.")
    return story.without([place])


def _changed(talk: Choosing, story: Story, place: Place, said: str) -> Story:
    """The story with new words at a place, asked for until they are understood."""
    interview, question = talk.interview, talk.interview.question(place)
    asked = Asked(
        question.label,
        question.hint,
        animal=label_of(interview, story, place).removesuffix(question.short),
        choices=[(option.name, option.label) for option in question.choices],
    )
    while True:
        said = said or talk.hear_now(asked)
        if not said:
            return story
        try:
            understand(question, said, interview.lists, story.region, interview.system)
        except NotUnderstood as problem:
            talk.face.say(str(problem), "refusal")
            said = ""
        else:
            return story.with_answer(place, said)
