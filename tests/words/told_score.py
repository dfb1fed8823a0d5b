"""How much of the told paragraphs is taken, and whether any of it is wrong."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from interview import assembly
from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.taken import Story
from interview.graph.answers import understand
from interview.graph.interview import Place
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

TOLD = Path(__file__).parent / "told"
_ALIKE = 0.05
"""Share by which two numbers may differ: 12 cm and 4 3/4 in are the same to who measures."""
_IMPLIED = {"heater_count": 1.0, "filter_count": 1.0}
"""Never wrong where the text speaks of one."""


@dataclass
class Score:
    """What was said for sure, what was taken of it, and what was taken wrongly."""

    said: Counter[str] = field(default_factory=Counter)
    taken: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)
    wrongly: set[Place] = field(default_factory=set)
    """Where; of use if a paragraph has a score of its own."""
    missed: list[str] = field(default_factory=list)
    guessed: int = 0
    """How many of those taken rightly no phrase took; they are shown as guesses."""
    guessed_wrongly: int = 0
    lines: list[str] = field(default_factory=list)
    """Every paragraph with all that was taken of it, and the words of which nothing was."""

    @property
    def misread(self) -> int:
        """How much phrases took wrongly."""
        return len(self.wrong) - self.guessed_wrongly

    @property
    def recall(self) -> float:
        return sum(self.taken.values()) / sum(self.said.values())

    @property
    def by_phrases(self) -> float:
        """The share of facts that phrases took: guesses know the texts they were learned from."""
        return (sum(self.taken.values()) - self.guessed) / sum(self.said.values())


def paragraphs(half: str) -> list[dict[str, Any]]:
    """The told paragraphs of one file: tuning, held_out, tuning_further or sentences."""
    rows = yaml.load((TOLD / f"{half}.yaml").read_text("utf-8"), yaml.BaseLoader)
    living = {"stage": "living"}  # whoever tells of a turtle has it
    return [{"id": row.get("say"), "text": row.get("say"), "may": living, **row} for row in rows]


@cache
def score(half: str) -> Score:
    """Read every paragraph of a half and hold it against what a careful reader takes."""
    found = Score()
    rows = paragraphs(half)
    unnoted = never_noted(rows)
    for paragraph in rows:
        add_scored(paragraph, found, unnoted)
    return found


def never_noted(rows: Sequence[dict[str, Any]]) -> set[str]:
    """Questions of which several choices may hold that no writer of a file noted anywhere.

    When these texts were written nobody was asked to, so what is heard of them is not judged.
    """
    asked = assembly.questionnaire().by_id.values()
    parts = ("facts", "may", "never")
    noted = {name for row in rows for part in parts for name in row.get(part, ())}
    return {one.id for one in asked if one.type == "choices"} - noted


def is_bare_test(question: Any, said: str) -> bool:
    """Whether it is a test kit's number without its unit, mg/L, which is ppm in water."""
    return question.type == "concentration" and said.replace(".", "").isdecimal()


def facts_of(facts: dict[str, Any]) -> Iterator[tuple[Place, str]]:
    for name, said in facts.items():
        if name != "animals":
            yield Place(name), ", ".join(said) if isinstance(said, list) else said
            continue
        for animal, row in enumerate(said):
            yield from ((Place(part, animal), words) for part, words in row.items())


def alike(one: Any, other: Any) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        if {*map(type, one + other)} == {str}:  # several choices hold, in any order
            return {*one} == {*other}
        return len(one) == len(other) and all(map(alike, one, other))
    if isinstance(one, Reading) and isinstance(other, Reading):
        size = max(abs(one.best), abs(other.best))
        return abs(one.best - other.best) <= _ALIKE * size + 1e-9
    return bool(one == other)


def add_scored(paragraph: dict[str, Any], found: Score, unnoted: Set[str] = frozenset()) -> None:
    """Read a paragraph and add what was right and wrong; of questions nobody noted nothing is."""
    interview = assembly.new_interview()
    story = read_story(interview, paragraph["text"])
    found.lines += [f"{paragraph['id']}:", *_lines(story)]
    facts = dict(facts_of(paragraph["facts"]))
    region = understand(
        interview.questionnaire.by_id["region"],
        facts.get(Place("region"), "europe"),
        interview.lists,
        "",
    ).value
    may = dict(facts_of(paragraph.get("may", {})))
    count = facts.get(Place("animal_count"), "1")
    for animal in range(1, int(count) if count.isdecimal() else 1):
        for part in ("species", "carapace_length", "sex"):  # told once of all of them
            if Place(part, 0) in facts and Place("species", 1) not in facts:
                may.setdefault(Place(part, animal), facts[Place(part, 0)])
    kinds = [place.animal for place in facts if place.id == "species"]

    def value(place: Place, said: str) -> Any:
        question = interview.questionnaire.by_id[place.id]
        try:
            return understand(question, said, interview.lists, str(region)).value
        except NotUnderstood:
            return value(place, f"{said} mg/L") if is_bare_test(question, said) else said

    taken = dict(story.answers)
    depth = facts.pop(Place("water_depth"), None) or may.pop(Place("water_depth"), None)
    if depth and Place("water_line_below_rim") in taken:
        size = value(Place("tank_size"), taken.get(Place("tank_size"), ""))
        line = value(Place("water_line_below_rim"), taken.pop(Place("water_line_below_rim")))
        meant = read_quantity(depth, "length", region=str(region)).best
        fits = isinstance(size, tuple) and abs(size[2].best - line.best - meant) < 0.03
        found.said["water_depth"] += 1
        found.taken["water_depth"] += fits
        found.guessed += fits and Place("water_line_below_rim") in story.heard
        found.guessed_wrongly += not fits and Place("water_line_below_rim") in story.heard
        if not fits:
            found.wrongly.add(Place("water_line_below_rim"))
            found.wrong.append(f"{paragraph['id']}: water line {line} for a depth of {depth}")
    elif "water_depth" in paragraph["facts"]:
        found.said["water_depth"] += 1
        found.missed.append(f"{paragraph['id']}: water_depth {depth}")
    for place, said in facts.items():
        found.said[place.id] += 1
        if place not in taken:
            found.missed.append(f"{paragraph['id']}: {_name(place)} {said}")
    for place, said in taken.items():
        wrong = len(found.wrong)
        wanted = facts.get(place)
        got = value(place, said)
        if wanted is not None and alike(got, value(place, wanted)):
            found.taken[place.id] += 1
            found.guessed += place in story.heard
        elif place.id in unnoted or (wanted is None and _is_implied(place, got, len(kinds))):
            continue
        elif wanted is not None or place.id in paragraph.get("never", []):
            found.wrong.append(f"{paragraph['id']}: {_name(place)} {said!r}, not {wanted}")
        elif place in may:
            if not alike(got, value(place, may[place])):
                found.wrong.append(f"{paragraph['id']}: {_name(place)} {said!r}, not {may[place]}")
        else:
            found.wrong.append(f"{paragraph['id']}: {_name(place)} {said!r}, which nobody said")
        if len(found.wrong) > wrong:
            found.wrongly.add(place)
            found.guessed_wrongly += place in story.heard


def _lines(story: Story) -> Iterator[str]:
    for place, said in story.answers:
        how = ", learned" if place in story.heard else ", guessed" * (place in story.guessed)
        yield f"  {_name(place)}: {said}{how}"
    yield f"  - {' | '.join(' '.join(phrase.split()) for phrase in story.unused)}"


def _name(place: Place) -> str:
    return place.id if place.animal is None else f"{place.id} of turtle {place.animal + 1}"


def _is_implied(place: Place, got: Any, kinds: int) -> bool:
    if place.id == "animal_count":
        return kinds == 0 or getattr(got, "best", None) == kinds
    if place.id == "sex":
        return True
    return place.id in _IMPLIED and getattr(got, "best", None) == _IMPLIED[place.id]
