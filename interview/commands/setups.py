"""`tankside setups`: lists, opens, renames, puts back and deletes what is saved."""

from __future__ import annotations

import argparse
import datetime
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from interview.commands.options import PLAIN, Commands, is_plain
from interview.commands.talk import add_manner

if TYPE_CHECKING:
    from interview.chat.talks.asking import Manner
    from interview.setups.shelf import Shelved

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    setups = commands.add_parser(
        "setups",
        help="what is saved: list, open, rename, put back, delete",
        description="Lists the saved setups. A setup is meant by its number in the list, by its "
        "file, or by words of its title.",
    )
    setups.set_defaults(run=run, greets=False, do=_list)
    actions = setups.add_subparsers(metavar="ACTION")
    opened = actions.add_parser("open", help="go on with one")
    opened.add_argument("--plain", **PLAIN)
    add_manner(opened)
    renamed = actions.add_parser("rename", help="give one another title")
    back = actions.add_parser("back", help="put back the version before the last talk")
    deleted = actions.add_parser("delete", help="delete one, with its earlier versions")
    does: tuple[tuple[argparse.ArgumentParser, Callable[[argparse.Namespace], int]], ...] = (
        (opened, _open), (renamed, _rename), (back, _put_back), (deleted, _delete),
    )  # fmt: skip
    for action, do in does:
        action.add_argument("setup", metavar="SETUP", help="number, file or words of the title")
        action.set_defaults(do=do)
    renamed.add_argument("title", metavar="TITLE", help="the new title")
    deleted.add_argument("--yes", action="store_true", help="without being asked, for scripts")


def run(arguments: argparse.Namespace) -> int:
    """Do what was asked for; the list without an action."""
    do: Callable[[argparse.Namespace], int] = arguments.do
    return do(arguments)


def _list(_: argparse.Namespace) -> int:
    from interview.setups import folder

    rows = _rows()
    if not rows:
        print(f"Nothing is saved in {folder()} yet. “tankside” starts an interview.")
        return 0
    print(f"Saved in {folder()}, the newest first:")
    for number, row in enumerate(rows, start=1):
        day = datetime.datetime.fromtimestamp(row.saved.written).date().isoformat()
        print(f"  {number}. {row.title} ({row.saved.path.name}, {row.state}, {day})")
        if row.previous:
            print(f"     The version before is kept: “tankside setups back {number}”.")
    print("“tankside setups open 1” goes on with the first; rename and delete work alike.")
    return 0


def _rows() -> list[Shelved]:
    from interview import assembly
    from interview.setups.shelf import shelf

    return shelf(assembly.questionnaire())


def _meant(arguments: argparse.Namespace) -> Path:
    from interview.setups.shelf import meant

    return meant(arguments.setup, _rows())


def _open(arguments: argparse.Namespace) -> int:
    from interview.chat.session import choose_face, sit_down

    manner: Manner = getattr(arguments, "manner", "guided")
    return sit_down(choose_face(is_plain(arguments)), _meant(arguments), manner)


def _rename(arguments: argparse.Namespace) -> int:
    from interview import assembly
    from interview.setups.shelf import retitle

    path = _meant(arguments)
    old = retitle(path, arguments.title, assembly.questionnaire())
    print(f"{path.name} was “{old}”; its title is changed.")
    return 0


def _put_back(arguments: argparse.Namespace) -> int:
    from interview.setups.shelf import put_back

    path = _meant(arguments)
    put_back(path)
    print(f"{path.name} is as it was before the last talk. “back” again undoes this.")
    return 0


def _delete(arguments: argparse.Namespace) -> int:
    from interview.setups.shelf import delete

    path = _meant(arguments)
    if not (arguments.yes or _agreed(path)):
        print("Nothing was deleted.")
        return 0
    delete(path)
    print(f"{path.name} and its earlier versions are deleted.")
    return 0


def _agreed(path: Path) -> bool:
    try:
        title = next((row.title for row in _rows() if row.saved.path.samefile(path)), path.stem)
        said = input(f"Delete “{title}”, {path}, and its earlier versions? Type yes to delete: ")
    except EOFError:
        print()
        return False
    return said.casefold().strip(" .!") in ("y", "yes")
