"""A setup file judged for the command, and how what is said of it is dressed."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interview.base.output import has_screen
from interview.commands.filled import filled
from interview.commands.options import is_plain

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.report.formats.interface import Format, Page
    from interview.report.page.coming import Shows

__all__ = [
    "Audited",
    "audit_file",
    "dress_of",
    "format_of",
    "judged_file",
    "page_face",
    "page_for",
]


class Audited(NamedTuple):
    """An audit with its advice; `before` is the tank as it is when changes were supposed."""

    audit: Audit
    advice: Advice
    before: Audit | None = None


def audit_file(path: Path, supposed: Sequence[str]) -> Audited:
    """Judge the tank of a setup file, as it is or as it would be, and advise on it."""
    from interview import assembly

    audit, before = judged_file(path, supposed)
    return Audited(audit, assembly.advice_of(audit), before)


def judged_file(path: Path, supposed: Sequence[str]) -> tuple[Audit, Audit | None]:
    """The audit of a setup file, with the changes if any are supposed, and then that before."""
    from interview import assembly

    interview, title = filled(path)
    audit = assembly.audit_of(interview, title)
    if not supposed:
        return audit, None
    from interview.chat.hearing.what_if import read_what_if
    from interview.supposing import read_suppositions, suppose

    changes = read_suppositions(interview, supposed, read_what_if)
    return suppose(audit, interview.given(), changes), audit


def page_for(audited: Audited, arguments: argparse.Namespace, file: str = "") -> Page:
    """What the page of an audit is made from, as asked for; `file` is the setup it came from."""
    import datetime

    from interview.report.formats.interface import Page

    today = datetime.date.today().isoformat()
    return Page(
        audited.audit,
        audited.advice,
        audited.before,
        today,
        arguments.whole,
        file,
        layers=tuple(arguments.layers),
        why=arguments.why,
    )


def dress_of(arguments: argparse.Namespace) -> Format:
    """The format asked for, to dress a page in."""
    from interview.report.formats.register import format_called

    return format_called(format_of(arguments))


def format_of(arguments: argparse.Namespace) -> str:
    """What the format is called: asked for by name or a short option, or what the output takes."""
    if arguments.json:
        return "json"
    if is_plain(arguments):
        return "plain"
    return arguments.format or ("terminal" if has_screen() else "plain")


def page_face(arguments: argparse.Namespace) -> Shows:
    """What shows blocks on the screen, in plain lines where these are asked for."""
    if format_of(arguments) == "plain":
        from interview.chat.faces.line_face import PlainFace

        return PlainFace()
    from interview.chat.faces.screen_page import ScreenPage

    return ScreenPage()
