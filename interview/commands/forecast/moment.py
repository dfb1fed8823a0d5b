"""`tankside explain SETUP CURVE --at MOMENT`: what holds at one point of a day, year or mishap."""

from __future__ import annotations

import argparse

from interview.commands.failures import DONE
from interview.commands.filled import filled
from interview.commands.forecast.running import enough, show

__all__ = ["run"]


def run(arguments: argparse.Namespace) -> int:
    """Run the tank there and show the balance."""
    from interview import assembly
    from interview.advice.forecast.moment import point_of
    from interview.core.errors import CannotWorkOut, Missing
    from interview.reckon.explaining import origins
    from interview.reckon.moments import read_curve, read_moment
    from interview.report.forecast.moment_page import moment_blocks
    from interview.report.formats.time_json import moment_json
    from interview.setups import SetupError

    curve, when = read_curve(arguments.quantity), read_moment(arguments.at)
    interview, title = filled(arguments.setup)
    tank = assembly.tank_of(interview, drawn=True)
    with enough(tank, arguments.setup):
        try:
            point = point_of(tank, curve, when)
        except Missing:
            raise
        except CannotWorkOut as problem:
            raise SetupError(f"{curve} has no such moment of this tank: {problem}.") from problem
    show(
        lambda: moment_blocks(title, point, tank.best, origins(interview), tank.system),
        lambda: moment_json(title, point, tank.best),
        arguments,
    )
    return DONE
