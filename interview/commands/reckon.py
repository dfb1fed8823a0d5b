"""`tankside reckon`: one number from names and values; without a name, what there is to reckon."""

from __future__ import annotations

import argparse
import json
import textwrap
from typing import TYPE_CHECKING

from interview.commands.explain import show_derivation
from interview.commands.options import JSON, Commands

if TYPE_CHECKING:
    from interview.core.formula import Formula

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    reckon = commands.add_parser("reckon", help="work out one number, with its derivation")
    reckon.add_argument(
        "quantity", nargs="?", default="", metavar="QUANTITY",
        help="as ammonia_free_share; left out, all are listed",
    )  # fmt: skip
    reckon.add_argument("given", nargs="*", metavar="NAME=VALUE", help="as ph=8")
    reckon.add_argument("--json", **JSON)
    reckon.set_defaults(run=run, greets=False)


def run(arguments: argparse.Namespace) -> int:
    """Work it out and show how; or list what there is."""
    if not arguments.quantity:
        return _listing(as_json=arguments.json)
    from interview.reckon.pairs import typed_system
    from interview.reckon.sums import reckon

    step = reckon(arguments.quantity, arguments.given)
    system = typed_system(arguments.given)
    return show_derivation(step, lambda _: "", system, as_json=arguments.json)


def _listing(*, as_json: bool) -> int:
    """Every quantity and single sum by subject, with its core unit and what it takes."""
    from interview.core.wiring import laws, quantities

    subjects: dict[str, list[Formula]] = {}
    for _, formula in sorted({**laws(), **quantities().formulas}.items()):
        subjects.setdefault(formula.function.__module__.split(".")[2], []).append(formula)
    if as_json:
        tree = {subject: {f.name: _row(f) for f in found} for subject, found in subjects.items()}
        print(json.dumps(tree, indent=2, ensure_ascii=False))
        return 0
    for subject, found in sorted(subjects.items()):
        print(f"\n{subject}")
        for formula in found:
            takes = ", ".join(item.name for item in formula.inputs)
            text = f"{formula.name} [{formula.unit}]: {formula.meaning}; takes {takes}"
            print(textwrap.fill(text, 78, initial_indent="  ", subsequent_indent="    "))
    return 0


def _row(formula: Formula) -> dict[str, object]:
    takes = [item.name for item in formula.inputs]
    return {"unit": formula.unit, "means": formula.meaning, "takes": takes}
