"""A day as a page: one chart, one table of three days, what to know of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from interview.advice.forecast.day import Day
from interview.advice.forecast.lanes import Value
from interview.core.errors import CannotWorkOut
from interview.report.blocks import Block, Heading, Paragraph, Table
from interview.report.forecast.charts import day_drawings
from interview.report.forecast.said import CAUTION, Band, lacking_said, reach, with_doubt
from interview.vocabulary.phrases import rounded

__all__ = ["day_blocks"]

_MINUTE = 60.0  # s
_TELLING = 600.0  # s over the band, from which it is said
_NAMES = {"coldest": "Coldest day", "mean": "Mean day", "warmest": "Warmest day"}


def day_blocks(
    title: str,
    days: Sequence[Day],
    lacking: Mapping[str, CannotWorkOut],
    bands: dict[str, Band],
    label_of: Callable[[str], str],
    system: str,
) -> Iterator[Block]:
    """The page of a day.

    Args:
        title: what the keeper calls the tank
        days: coldest, mean and warmest
        lacking: what couldn't be followed, and why
        bands: what is wanted of water and shell [degC]
        label_of: a name in the keeper's words
        system: units
    """
    mean = next(day for day in days if day.season == "mean")
    yield Heading(1, f"A day in: {title}")
    yield Paragraph(_in_short(mean, system))
    yield from day_drawings(mean, bands, system)
    yield Table(("Through 24 hours", *(_NAMES[day.season] for day in days)), _rows(days, system))
    if mean.shell is not None:
        yield Paragraph(
            "The shell is that of the largest animal if it lies under the lamp as long as that "
            "burns; most lie there some hours only. In water it takes on the water's warmth."
        )
    yield from lacking_said(lacking, label_of, system)
    yield Paragraph(CAUTION)


def _in_short(day: Day, system: str) -> str:
    said = [
        f"On a day in the mean of the year the water goes from {reach(day.water, 'degC', system)},"
        f" with the room at {reach(day.room, 'degC', system)}."
    ]
    if day.hours_in_band is not None and day.shell is not None:
        inside = f"inside its basking band for {rounded(day.hours_in_band.best, 's', system)}"
        if day.hours_in_band.best < 60:
            inside = "at no time inside its basking band"
        if day.hours_over_band is not None and day.hours_over_band.best >= _TELLING:
            inside += f" and over it for {rounded(day.hours_over_band.best, 's', system)}"
        said.append(
            f"An animal that stays under the lamp is {inside}; its shell reaches "
            f"{rounded(day.shell.best, 'degC', system)}."
        )
    if day.duty is not None:
        said.append(f"The heater is on for {rounded(day.duty.best * 86400, 's', system)} of it.")
    said.append(f"All of it uses {rounded(day.energy.best, 'J', system)}.")
    return " ".join(said)


def _rows(days: Sequence[Day], system: str) -> tuple[tuple[str, ...], ...]:
    def row(name: str, cell: Callable[[Day], str | None]) -> tuple[str, ...] | None:
        cells = [cell(day) for day in days]
        return None if None in cells else (name, *(text or "" for text in cells))

    def told(day: Day, name: str, unit: str, shown: str = "") -> str | None:
        value = getattr(day, name)
        return None if value is None else with_doubt(value, unit, system, shown)

    rows = (
        row("Room", lambda day: reach(day.room, "degC", system)),
        row("Water", lambda day: reach(day.water, "degC", system)),
        row("Air over it, at least", lambda day: with_doubt(day.air[0], "degC", system)),
        row("Platform, at most", lambda day: told(day, "platform", "degC")),
        row("Shell, at most", lambda day: told(day, "shell", "degC")),
        row("Shell in its band", lambda day: _lasting(day.hours_in_band, system)),
        row("Shell over its band", lambda day: _lasting(day.hours_over_band, system)),
        row("UV index, lamps on", lambda day: told(day, "uv_index", "1", "uv_index_shell")),
        row("Heater on", lambda day: told(day, "duty", "1", "uvb_lamp_output")),
        row("Energy", lambda day: told(day, "energy", "J")),
    )
    return tuple(one for one in rows if one)


def _lasting(time: Value | None, system: str) -> str | None:
    """“3 h (1 to 7 h)”, or “none (up to 7 h)”."""
    if time is None or time.best >= _MINUTE:
        return None if time is None else with_doubt(time, "s", system)
    most = rounded(time.high, "s", system)
    return f"none (up to {most})" if time.high >= _MINUTE else "none"
