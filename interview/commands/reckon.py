"""`tankside reckon`: one number from names and values."""

from __future__ import annotations

import argparse

from interview.commands.explain import show_derivation
from interview.commands.options import JSON, Commands

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    reckon = commands.add_parser("reckon", help="work out one number, with its derivation")
    reckon.add_argument("quantity", metavar="QUANTITY", help="as ammonia_free_share")
    reckon.add_argument("given", nargs="*", metavar="NAME=VALUE", help="as ph=8")
    reckon.add_argument("--json", **JSON)
    reckon.set_defaults(run=run, greets=False)


def run(arguments: argparse.Namespace) -> int:
    """Work it out and show how."""
    from interview.reckon.pairs import typed_system
    from interview.reckon.sums import reckon

    step = reckon(arguments.quantity, arguments.given)
    system = typed_system(arguments.given)
    return show_derivation(step, lambda _: "", system, as_json=arguments.json)
