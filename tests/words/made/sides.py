"""Lengths with a word that says which side was measured, and what that word decides."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from made.lengths import ORDINARY
from made.spans import CM, INCH, MM, Case, plain, point

# What may stand around a length where it fits the question, and the words that name another side.
FITS = {
    "carapace_length": ("{} long", "{} in length", "{} straight", "{} SCL", "shell is {} long"),
    "water_line_below_rim": (
        "{} below the rim",
        "{} from the top",
        "{} down from the top",
        "{} under the rim",
        "{} below the top edge",
        "{} short of the rim",
        "{} beneath the lip",
        "it is {} below the edge",
    ),
    "substrate_depth": ("{} deep", "{} thick", "{} of it", "a layer of {}"),
    "wall_thickness": ("{} thick", "{} glass", "{} in thickness"),
    "platform_foam_thickness": ("{} thick", "{} of foam", "{} high"),
    "heater_length": ("{} long", "{} in length"),
    "hose_diameter": ("{} wide", "{} inside", "{} bore", "{} inner diameter"),
    "hose_length": ("{} long", "{} in all", "{} together", "{} altogether"),
    "platform_wall_gap": ("{} wide", "{} from the glass"),
    "platform_height_above_water": (
        "{} above the water",
        "{} over the water",
        "{} out of the water",
    ),
    "uvb_lamp_length": ("{} long", "{} in length", "a {} tube"),
    "heat_lamp_height": (
        "{} above the platform",
        "{} over the dock",
        "{} away",
        "{} from the dock",
    ),
    "uvb_lamp_height": ("{} above the platform", "{} over the dock", "{} away", "{} from the dock"),
    "joist_span": ("{} long", "{} between the walls", "{} from wall to wall"),
    "joist_spacing": ("{} apart", "{} on centre", "{} on center", "{} centre to centre", "{} oc"),
    "grain_size": ("{} across", "{} in diameter", "{} each"),
    "intake_height": ("{} above the sand", "{} off the bottom", "{} above the gravel"),
    "heater_height": ("{} above the bottom", "{} off the sand", "{} up from the bottom"),
    "lamp_plastic_gap": ("{} away", "{} from the curtain", "{} clear"),
}
OTHER_SIDE = {
    "carapace_length": ("wide", "high", "tall", "deep"),
    "water_line_below_rim": ("wide", "long"),
    "substrate_depth": ("wide", "long"),
    "wall_thickness": ("long", "tall", "high"),
    "platform_foam_thickness": ("long", "wide"),
    "heater_length": ("wide", "thick", "deep"),
    "hose_diameter": ("long", "deep"),
    "hose_length": ("wide", "thick", "deep"),
    "platform_wall_gap": ("high", "tall"),
    "platform_height_above_water": ("wide", "long", "deep"),
    "uvb_lamp_length": ("wide", "thick", "deep"),
    "heat_lamp_height": ("wide", "long", "deep"),
    "uvb_lamp_height": ("wide", "long", "deep"),
    "joist_span": ("deep", "tall", "thick"),
    "joist_spacing": ("deep", "tall", "high"),
    "grain_size": ("deep",),
    "intake_height": ("wide", "long"),
    "heater_height": ("wide", "long"),
    "lamp_plastic_gap": ("wide", "long"),
}
# The tank told from below: how much water there is, never how far it stands from the rim.
FROM_BELOW = (
    "{} deep",
    "{} of water",
    "water is {} deep",
    "the water is {} deep",
    "{} of water in it",
    "{} depth",
    "a depth of {}",
    "{} in depth",
    "{} high",
    "the water stands {} high",
    "{} tall",
    "filled {} deep",
    "{} from the bottom",
    "{} above the bottom",
    "{} up from the bottom",
    "filled to {} from the bottom",
)
SHELL_SIDES = {
    "wide": "shell_width",
    "high": "shell_height",
    "tall": "shell_height",
    "deep": "shell_height",
}


def _an_amount(rng: Random, question: str) -> tuple[str, float]:
    low, high = ORDINARY[question]
    if high <= 3:
        mm = round(rng.uniform(low * 10, high * 10), 1 if high < 2 else 0)
        return f"{plain(mm)} mm", mm * MM
    if rng.random() < 0.5:
        cm = rng.randint(int(low) + 1, int(high))
        return f"{cm} cm", cm * CM
    inches = rng.randint(max(1, int(low / 2.54) + 1), int(high / 2.54))
    return rng.choice((f"{inches} in", f'{inches}"', f"{inches} inches")), inches * INCH


def cases(rng: Random) -> Iterator[Case]:
    """Lengths that say which side is measured: fitting words are read, others never are."""
    for question, forms in FITS.items():
        for form in forms:
            for _ in range(3):
                text, value = _an_amount(rng, question)
                yield Case(form.format(text), question, "side", ((point(value),),))
    for question, words in OTHER_SIDE.items():
        for word in words:
            for _ in range(4):
                text, value = _an_amount(rng, question)
                told_for = SHELL_SIDES[word] if question == "carapace_length" else ""
                told = point(value) if told_for else None
                yield Case(f"{text} {word}", question, "side", told_for=told_for, told=told)
    for form in FROM_BELOW:
        for _ in range(8):
            text, value = _an_amount(rng, "water_line_below_rim")
            yield Case(
                form.format(text),
                "water_line_below_rim",
                "side",
                told_for="water_depth",
                told=point(value),
            )
