"""What the commands share on the command line."""

from __future__ import annotations

import argparse
from typing import Any, NoReturn, TypeAlias

__all__ = ["JSON", "PLAIN", "Commands", "Parser", "is_plain"]

PLAIN: dict[str, Any] = {
    "action": "store_true",
    "default": argparse.SUPPRESS,  # a command's own default would undo what stands before it
    "help": "plain lines, no colour or boxes",
}
JSON: dict[str, Any] = {"action": "store_true", "help": "JSON on standard output"}


class Parser(argparse.ArgumentParser):
    """Says what is wrong with the command line in one sentence."""

    def error(self, message: str) -> NoReturn:
        """Leave with code 2 and the sentence."""
        self.exit(2, f"tankside: {message}. Type “{self.prog} --help” for what works.\n")


Commands: TypeAlias = "argparse._SubParsersAction[Parser]"
"""What a command is added to."""


def is_plain(arguments: argparse.Namespace) -> bool:
    """Whether plain lines were asked for, before the command or behind it."""
    return getattr(arguments, "plain", False)
