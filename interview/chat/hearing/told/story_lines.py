"""What was taken from a story, as it is shown before it is kept."""

from __future__ import annotations

from interview.chat.hearing.told.taken import Story, labels_of_several
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.graph.staleness import same
from interview.words.amounts.reading import Reading
from interview.words.text.tokens import plain_words

__all__ = ["is_warmth", "label_of", "lines_of", "not_used"]


def lines_of(interview: Interview, story: Story) -> list[tuple[str, str]]:
    """A name and what was taken, for every answer of a story."""
    return [
        (
            label_of(interview, story, place),
            _taken(interview, story, place, said) + _in_place_of(interview, story, place, said),
        )
        for place, said in story.answers
    ]


def _in_place_of(interview: Interview, story: Story, place: Place, said: str) -> str:
    """What stands there and would be replaced."""
    held = interview.answers.get(place)
    if held is None:
        return ""
    value = understand(interview.question(place), said, interview.lists, story.region).value
    return "" if same(held.value, value) else f", in place of {held.said}"


def label_of(interview: Interview, story: Story, place: Place) -> str:
    """The name of a line, with the turtle's number where there are several."""
    several = interview.animal_count > 1 or any(p.animal for p, _ in story.answers)
    turtle = f"Turtle {place.animal + 1}: " if several and place.animal is not None else ""
    return turtle + interview.question(place).short


def _taken(interview: Interview, story: Story, place: Place, said: str) -> str:
    """The words, and what a choice among them was read as; of a guess what it is from."""
    if place in story.guessed and is_warmth(interview, place) and place not in story.heard:
        return f"{said} (the scale is my guess)"
    question = interview.question(place)
    value = understand(question, said, interview.lists, story.region).value
    chosen = next((o for o in interview.lists.options_of(question) if o.name == value), None)
    if place in story.heard:
        is_quoted = isinstance(value, Reading) and said in story.heard[place]
        clause = "" if is_quoted else f", from “{story.heard[place]}”"
        several = labels_of_several(interview, place, value) if isinstance(value, tuple) else ""
        return f"{chosen.label if chosen else several or said} (my guess{clause})"
    if isinstance(value, tuple) and ", ".join(map(str, value)).replace("_", " ") == said:
        return labels_of_several(interview, place, value) or said  # names alone may tell too little
    guess = " (my guess)" if place in story.guessed else ""
    if chosen is None or plain_words(chosen.label) == plain_words(said):
        return f"{said}{guess}"
    return f"{said} → {chosen.label}{guess}"


def not_used(story: Story, least: int = 1) -> str:
    """What gives back phrases nothing was taken from, of so many words at least; or ""."""
    told = (phrase for phrase in story.unused if len(phrase.split()) >= least)
    phrases = "; ".join(f"“{phrase}”" for phrase in told)
    strange = " or ".join(f"“{kind}”" for kind in dict.fromkeys(story.strange))
    no_facts = f"I have no facts about {strange}, so I'll ask the kind. " if strange else ""
    return f"{no_facts}{phrases and f'Not used: {phrases}.'}".rstrip()


def is_warmth(interview: Interview, place: Place) -> bool:
    """Whether a temperature is asked, of which nobody may have told the scale."""
    return interview.questionnaire.by_id[place.id].type == "temperature"
