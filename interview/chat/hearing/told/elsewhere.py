"""A short line that answers another question than the one that was asked."""

from __future__ import annotations

from interview.graph.interview import Interview, Place
from interview.words.intents.story import is_filler
from interview.words.text.tokens import plain_words

__all__ = ["answered_elsewhere"]

_LEAST_LETTERS = 3


def answered_elsewhere(interview: Interview, line: str) -> Place | None:
    """The open question of which a line is a choice, word for word; None where none or several."""
    said = plain_words(line)
    if len(said) < _LEAST_LETTERS or is_filler(said):
        return None
    of_one = (None, 0) if interview.animal_count == 1 else (None,)
    found = [
        place
        for place in interview.open_places()
        if place.animal in of_one
        and any(
            said in choice.spellings
            for choice in interview.lists.options_of(interview.question(place))
            if choice.name not in ("none", "unknown")
        )
    ]
    return found[0] if len(found) == 1 else None
