"""`tankside year`: the tank from January to December."""

from __future__ import annotations

import argparse

from interview.commands.failures import DONE
from interview.commands.forecast.running import add_command, enough, show, told
from interview.commands.options import Commands

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    add_command(commands, "year", "the tank through a year, month by month", run, charted=True)


def run(arguments: argparse.Namespace) -> int:
    """Run the year and show it."""
    from interview.advice.forecast.year import year_of
    from interview.report.forecast.said import bands_of
    from interview.report.forecast.year_page import year_blocks
    from interview.report.formats.time_json import year_json

    tank, title = told(arguments.setup, arguments.suppose)
    with enough(tank, arguments.setup):
        year = year_of(tank)
    ways = (bands_of(tank)["water"], tank.label_of, tank.system)
    show(lambda: year_blocks(title, year, *ways), lambda: year_json(title, year), arguments)
    return DONE
