"""`tankside explain`: how a tank's number comes about, from answers to sources."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from interview.commands.filled import filled
from interview.commands.options import JSON, PLAIN, Commands

if TYPE_CHECKING:
    from interview.core.derivation import Step

__all__ = ["add", "run", "show_derivation"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    explain = commands.add_parser("explain", help="show how a tank's number comes about")
    explain.add_argument("setup", type=Path, metavar="SETUP")
    explain.add_argument("quantity", metavar="QUANTITY", help="as shell_temperature")
    explain.add_argument(
        "--at",
        metavar="MOMENT",
        help="what holds of it then: “day 14:00”, “15 Jul 6 am”, “power_cut_24_h_winter 9 h”",
    )
    explain.add_argument("--plain", **PLAIN)
    explain.add_argument("--json", **JSON)
    explain.set_defaults(run=run, greets=False)


def run(arguments: argparse.Namespace) -> int:
    """Show the number with all that it rests on."""
    from interview.reckon.explaining import explain

    if arguments.at:
        from interview.commands.forecast.moment import run as run_moment

        return run_moment(arguments)
    interview, _ = filled(arguments.setup)
    step, origin_of = explain(interview, arguments.quantity)
    return show_derivation(step, origin_of, interview.system, as_json=arguments.json)


def show_derivation(
    step: Step, origin_of: Callable[[str], str], system: str, *, as_json: bool
) -> int:
    """Print a derivation as lines for people, or as JSON."""
    from interview.report.derivations import rendering

    if as_json:
        sys.stdout.write(rendering.as_json(step, origin_of))
    else:
        print("\n".join(rendering.as_lines(step, origin_of, system)))
    return 0
