"""`tankside day`: the tank through 24 hours."""

from __future__ import annotations

import argparse

from interview.commands.failures import DONE
from interview.commands.forecast.running import add_command, enough, show, told
from interview.commands.options import Commands

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    add_command(
        commands,
        "day",
        "the tank through 24 hours: coldest, mean and warmest day",
        run,
        charted=True,
    )


def run(arguments: argparse.Namespace) -> int:
    """Run three days and show them."""
    from interview.advice.forecast.day import days_of
    from interview.report.forecast.day_page import day_blocks
    from interview.report.forecast.said import bands_of
    from interview.report.formats.time_json import day_json

    tank, title = told(arguments.setup, arguments.suppose)
    with enough(tank, arguments.setup):
        days, lacking = days_of(tank)
    ways = (bands_of(tank), tank.label_of, tank.system)
    show(
        lambda: day_blocks(title, days, lacking, *ways),
        lambda: day_json(title, days, lacking),
        arguments,
    )
    return DONE
