"""`tankside mishap`: what happens when something fails, and when."""

from __future__ import annotations

import argparse

from interview.commands.failures import DONE
from interview.commands.forecast.running import add_command, enough, show, told
from interview.commands.options import Commands

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    help_ = "if power, heater, lamp or filter fail: what happens when"
    add_command(commands, "mishap", help_, run, charted=True)


def run(arguments: argparse.Namespace) -> int:
    """Run every mishap and show them."""
    from interview.advice.forecast.lanes import Lanes
    from interview.advice.forecast.mishaps import LANES, mishaps_of
    from interview.report.forecast.mishap_page import mishap_blocks
    from interview.report.formats.time_json import mishap_json

    tank, title = told(arguments.setup, arguments.suppose)
    with enough(tank, arguments.setup):
        lanes = Lanes.of(tank, LANES)
    outcomes = mishaps_of(tank, lanes)
    lacking = lanes.tank.lacking
    show(
        lambda: mishap_blocks(title, outcomes, lacking, tank.label_of, tank.system),
        lambda: mishap_json(title, outcomes, lacking),
        arguments,
    )
    return DONE
