"""Slips of the finger in the words that matter: filtr, cannister, temprature."""

from __future__ import annotations

from functools import cache

__all__ = ["mended"]

_WORDS = [
    "aquarium",
    "basking",
    "canister",
    "conditioner",
    "external",
    "floating",
    "gravel",
    "halogen",
    "heater",
    "heaters",
    "horizontal",
    "horizontally",
    "incandescent",
    "internal",
    "mounted",
    "painted",
    "platform",
    "slider",
    "sliders",
    "submersible",
    "temperature",
    "thermometer",
    "turtle",
    "turtles",
    "vertical",
    "vertically",
    "filter",
    "filters",
    "female",
    "breeder",
    "gallon",
    "gallons",
    "inches",
    "acrylic",
    "ammonia",
    "nitrite",
    "nitrate",
    "dechlorinator",
]
_SHORT_FOR = {
    **dict.fromkeys(("htr", "htrs", "heatr", "heatrs"), "heater"),
    **dict.fromkeys(("filtr", "filt"), "filter"),
    **dict.fromkeys(("watr", "wter", "wtr"), "water"),
    **dict.fromkeys(("ext", "extl"), "external"),
    **dict.fromkeys(("int", "intl"), "internal"),
    **dict.fromkeys(("inchs", "inchess"), "inches"),
    **dict.fromkeys(("baskin", "baskng"), "basking"),
    **dict.fromkeys(("turtel", "turtul", "turle"), "turtle"),
    **dict.fromkeys(("femal", "femail"), "female"),
    **dict.fromkeys(("galon", "galons", "gallen"), "gallon"),
}
"""What staff and thumbs leave out."""
_REAL = frozenset({"hater", "haters", "turtles", "nitrites", "nitrates", "filer", "panted"})
_SHORTEST = 5


def _dropped(word: str) -> set[str]:
    """The word without one of its inner letters."""
    return {word[:at] + word[at + 1 :] for at in range(1, len(word) - 1)}


@cache
def _slips() -> dict[str, str]:
    """Every word with one inner letter dropped or two neighbours swapped → the word."""
    found: dict[str, str] = {}
    for word in _WORDS:
        swapped = {
            word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(1, len(word) - 2)
        }
        for slip in (_dropped(word) | swapped) - set(_WORDS) - _REAL:
            found[slip] = word
    return found


def mended(word: str) -> str:
    """The word meant, where one inner letter was dropped, doubled or swapped, or some left out."""
    if word in _SHORT_FOR:
        return _SHORT_FOR[word]
    if len(word) < _SHORTEST or word in _WORDS or word in _REAL or len(word) > 15:
        return word
    if word in _slips():
        return _slips()[word]
    doubled = [word[:at] + word[at + 1 :] for at in range(1, len(word)) if word[at] == word[at - 1]]
    return next((one for one in doubled if one in _WORDS), word)
