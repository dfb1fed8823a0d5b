"""`tankside audit`: judge saved setups, one or several."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from pathlib import Path

from interview.base.output import refuse_full
from interview.commands.auditing import judged
from interview.commands.auditing.several import (
    at_a_glance,
    each_in_order,
    is_folder,
    named,
    one_as_json,
    setups_in,
)
from interview.commands.failures import DONE, INTERRUPTED, STOP
from interview.commands.options import JSON, PLAIN, Commands
from interview.report.formats.register import names, written_to_files

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    audit = commands.add_parser("audit", help="audit setup files, or all in a folder")
    audit.add_argument("setups", nargs="+", type=named, metavar="SETUP", help="a file or a folder")
    audit.add_argument("--format", choices=names(), help="how the page is dressed")
    audit.add_argument("--json", **{**JSON, "help": "the same as --format json"})
    for option, written in written_to_files().items():
        audit.add_argument(f"--{option}", type=Path, metavar="OUT", help=written.about)
    audit.add_argument(
        "--force", action="store_true", help="write over a file that is no page of Tankside's"
    )
    audit.add_argument("--plain", **{**PLAIN, "help": "the same as --format plain"})
    audit.add_argument(
        "--suppose",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="audit the tank as it would be, as water_line_below_rim=14cm; may be repeated",
    )
    audit.add_argument("--whole", action="store_true", help="every check with its limits")
    for name, about in _LAYERS.items():
        audit.add_argument(
            f"--{name}", dest="layers", action="append_const", const=name, default=[], help=about
        )
    audit.add_argument("--why", default="", metavar="CHECK", help="one check, as “basking heat”")
    audit.set_defaults(run=run, greets=False)


_LAYERS = {
    "more": "what is off in each section, what to measure, safety notes",
    "plans": "the plans, step by step",
    "numbers": "the tank in numbers",
    "buy": "what to buy, by specification",
    "calendar": "what to do when",
    "mishaps": "what happens when power, heater, lamp or filter fail",
}
"""What can be asked for in place of the first page."""


def run(arguments: argparse.Namespace) -> int:
    """Audit each file; one that can't be used is named, and the others are audited all the same."""
    paths = list(setups_in(arguments.setups))
    several = len(paths) > 1 or any(map(is_folder, arguments.setups))
    _check_files(arguments, several=several)
    refuse_full()
    if several and not _asks_for_pages(arguments):
        return at_a_glance(paths, arguments)
    if several:
        return each_in_order(paths, arguments)
    if _is_watched(arguments):
        return _shown_as_it_comes(arguments)
    if judged.format_of(arguments) == "json" and not _files(arguments):
        return one_as_json(paths[0], arguments)
    audited = judged.audit_file(paths[0], arguments.suppose)
    _present(audited, arguments)
    return STOP if audited.audit.grades.stop else DONE


def _asks_for_pages(arguments: argparse.Namespace) -> bool:
    """Whether of several setups each is to be told, not a line of each."""
    return bool(
        arguments.json
        or arguments.format
        or arguments.whole
        or arguments.layers
        or arguments.why
        or arguments.suppose
    )


def _is_watched(arguments: argparse.Namespace) -> bool:
    """Whether somebody looks at the page while it comes: nothing asks for a text of its own."""
    asked = (arguments.format, arguments.json, _files(arguments), arguments.layers, arguments.why)
    return sys.stdout.isatty() and not any(asked)


def _shown_as_it_comes(arguments: argparse.Namespace) -> int:
    """Show one audit part by part; the clock or Ctrl-C ends the search and shows the rest."""
    from interview import assembly
    from interview.chat.afterwards import JUDGING
    from interview.report.before_and_after import comparison_blocks
    from interview.report.page.coming import Coming

    face = judged.page_face(arguments)
    with face.working(JUDGING):
        audit, before = judged.judged_file(arguments.setups[0], arguments.suppose)
    if before:
        face.blocks(comparison_blocks(before, audit))
    coming = Coming(audit, assembly.advice_in_steps(audit, awaited=True), arguments.whole)
    coming.show(face)
    if coming.stopped:
        return INTERRUPTED
    return STOP if audit.grades.stop else DONE


def _present(audited: judged.Audited, arguments: argparse.Namespace) -> None:
    """Write or print one page."""
    from interview.chat.page_file import write_dressed

    page = judged.page_for(audited, arguments, file=str(arguments.setups[0]))
    files = _files(arguments)
    whole = replace(page, layers=(), why="")  # a file holds the page, whatever is looked at now
    for option, path in files.items():
        write_dressed(whole, written_to_files()[option].name, path)
    if files and judged.format_of(arguments) != "json":
        saved = ", ".join(map(str, files.values()))
        print(f"Saved {saved}. {audited.audit.grades.headline}")
        if not (arguments.layers or arguments.why):
            return
    sys.stdout.write(judged.dress_of(arguments).alone(page))


def _files(arguments: argparse.Namespace) -> dict[str, Path]:
    """The file for each option that writes one and was given."""
    given = ((option, getattr(arguments, option)) for option in written_to_files())
    return {option: path for option, path in given if path}


def _check_files(arguments: argparse.Namespace, *, several: bool) -> None:
    """Raise SetupError, before anything is worked out, where a file can't or mustn't be written."""
    from interview.chat.page_file import may_be_replaced
    from interview.setups import SetupError

    files = _files(arguments)
    for option, path in files.items():
        if several:
            raise SetupError(f"--{option} writes one file, so give it one setup, not several.")
        if arguments.format not in (None, "json"):
            raise SetupError(
                f"--{option} writes a file of its own, so leave --format out; json alone goes "
                "with it."
            )
        if not may_be_replaced(path) and not arguments.force:
            raise SetupError(
                f"{path} exists and is no page of Tankside's. --force writes over it all the same."
            )
    if len(set(files.values())) < len(files):
        raise SetupError("Two options name the same file; each needs one of its own.")
