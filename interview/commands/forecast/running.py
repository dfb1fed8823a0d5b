"""What the commands of time share: options, the tank as it is or would be, and how it is shown."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interview.base.output import has_screen
from interview.commands.filled import filled
from interview.commands.options import JSON, PLAIN, Commands, is_plain

if TYPE_CHECKING:
    from interview.audit.tank import Tank
    from interview.report.blocks import Block

__all__ = ["Told", "add_command", "enough", "show", "told"]


class Told(NamedTuple):
    """A tank that was told of, and what it is called."""

    tank: Tank
    title: str


def add_command(
    commands: Commands,
    name: str,
    help_: str,
    run: Callable[[argparse.Namespace], int],
    *,
    charted: bool = False,
) -> None:
    """Put a command of time on the command line; `charted` where it draws."""
    command = commands.add_parser(name, help=help_)
    command.add_argument("setup", type=Path, metavar="SETUP")
    command.add_argument("--json", **JSON)
    command.add_argument("--plain", **PLAIN)
    command.add_argument(
        "--suppose",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="the tank as it would be, as cover_water=glass; may be repeated",
    )
    if charted:
        command.add_argument(
            "--svg", type=Path, metavar="FOLDER", help="write the charts there as SVG too"
        )
    command.set_defaults(run=run, greets=False)


def told(path: Path, supposed: Sequence[str]) -> Told:
    """The tank of a setup file, changed as supposed; SetupError where that can't be."""
    from interview import assembly

    interview, title = filled(path)
    tank = assembly.tank_of(interview, drawn=True)
    if not supposed:
        return Told(tank, title)
    from interview.advice.what_if.suppose import changed
    from interview.chat.hearing.what_if import read_what_if
    from interview.supposing import read_suppositions

    changes = read_suppositions(interview, supposed, read_what_if)
    return Told(changed(tank, changes), f"{title}, supposing {', '.join(supposed)}")


@contextmanager
def enough(tank: Tank, path: Path) -> Iterator[None]:
    """SetupError that says which answers a run can't do without, where they aren't told."""
    from interview.core.errors import Missing
    from interview.setups import SetupError

    try:
        yield
    except Missing as problem:
        labels = dict.fromkeys(tank.label_of(name) for name in problem.names)
        waits = ", ".join(f"“{label}”" for label in labels)
        raise SetupError(
            f"{path.name} doesn't tell enough to run the tank through time. Needed: {waits}."
        ) from problem


def show(
    blocks: Callable[[], Iterable[Block]], as_json: Callable[[], str], arguments: argparse.Namespace
) -> None:
    """Write the charts where that is asked for; print JSON, or blocks as the output takes them."""
    folder = getattr(arguments, "svg", None)
    saved = _write_charts(blocks(), folder, arguments.setup.stem) if folder else []
    if arguments.json:
        sys.stdout.write(as_json())
        return
    _print(blocks(), arguments)
    if saved:
        print(f"Saved {', '.join(map(str, saved))}.")


def _print(blocks: Iterable[Block], arguments: argparse.Namespace) -> None:
    if is_plain(arguments) or not has_screen():
        from interview.report.formats.plain import block_lines

        sys.stdout.write("".join(f"{line}\n" for line in block_lines(blocks)))
        return
    from interview.chat.faces.screen_page import ScreenPage

    ScreenPage().blocks(blocks)


def _write_charts(blocks: Iterable[Block], folder: Path, stem: str) -> list[Path]:
    """Each chart as a file of its own, and which; SetupError where one may not be written."""
    from interview.chat.page_file import may_be_replaced, write_page
    from interview.report.blocks import Drawing
    from interview.setups import SetupError

    pictures = (one.picture for one in blocks if isinstance(one, Drawing) and one.picture)
    files = {folder / f"{stem}.{picture.name}.svg": picture for picture in pictures}
    for target in files:
        if not may_be_replaced(target):
            raise SetupError(f"{target} exists and is no picture of Tankside's. Move it first.")
    for target, picture in files.items():
        write_page(picture.svg(), target)
    return [*files]
