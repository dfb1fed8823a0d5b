"""`tankside audit`: judge saved setups, one or several."""

from __future__ import annotations

import argparse
import functools
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interview.base.output import refuse_full
from interview.commands.failures import (
    BUG,
    DONE,
    INTERRUPTED,
    STOP,
    UNUSABLE,
    complain,
    said_of_bug,
)
from interview.commands.filled import filled
from interview.commands.options import JSON, PLAIN, Commands, is_plain
from interview.commands.several import cores, in_order, is_folder, named, setups_in
from interview.report.formats.register import names, written_to_files

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.report.formats.interface import Format, Page
    from interview.report.overview import Summary
    from interview.report.page.coming import Shows

__all__ = ["Audited", "add", "audit_file", "judged_file", "run"]

_FILES = {
    "markdown": "write Markdown to a file, its pictures beside it as SVG",
    "handout": "write one sheet of paper, as an HTML file to print",
    "ics": "write the care calendar as an iCalendar file",
}
"""What each option writes."""


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    audit = commands.add_parser("audit", help="audit setup files, or all in a folder")
    audit.add_argument("setups", nargs="+", type=named, metavar="SETUP", help="a file or a folder")
    audit.add_argument("--format", choices=names(), help="how the page is dressed")
    audit.add_argument("--json", **{**JSON, "help": "the same as --format json"})
    for option in written_to_files():
        audit.add_argument(f"--{option}", type=Path, metavar="OUT", help=_FILES[option])
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
        return _at_a_glance(paths, arguments)
    if several:
        return _each_in_order(paths, arguments)
    if _is_watched(arguments):
        return _shown_as_it_comes(arguments)
    if _format_of(arguments) == "json" and not _files(arguments):
        return _one_as_json(paths[0], arguments)
    audited = audit_file(paths[0], arguments.suppose)
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


class Written(NamedTuple):
    """What became of one file of several: its text for stdout, and why there is no page if so."""

    text: str
    code: int
    problem: str = ""
    summary: Summary | None = None


def _at_a_glance(paths: Sequence[Path], arguments: argparse.Namespace) -> int:
    """A line for each setup, the worst first; as many are audited at a time as there are cores."""
    from interview.report.overview import overview_blocks

    found = [_told(one) for one in in_order(_summed, paths, cores())]
    summaries = [one.summary for one in found if one.summary]
    if summaries:
        blocks = overview_blocks(summaries, len(found) - len(summaries))
        _page_face(plain=_format_of(arguments) == "plain").blocks(blocks)
    return max((one.code for one in found), default=DONE)


def _told(written: Written) -> Written:
    if written.problem:
        complain(f"tankside: {written.problem}")
    return written


def _summed(path: Path) -> Written:
    """One setup as a line of the table; it needs no plans."""
    import datetime

    from interview.report.overview import summary_of

    def work() -> Written:
        audit, _ = judged_file(path, ())
        summary = summary_of(audit, str(path), datetime.date.today())
        return Written("", STOP if audit.grades.stop else DONE, summary=summary)

    return _caught(work, path)


def _each_in_order(paths: Sequence[Path], arguments: argparse.Namespace) -> int:
    """Audit several files, as many at a time as there are cores.

    Each page is written as soon as it is there; where all stand in one document they are written
    at the end, so that what comes out is whole however the work ends.
    """
    before, between, after = _dress(arguments).around
    work = functools.partial(_written, arguments=arguments, form=_format_of(arguments))
    codes: list[int] = [DONE]
    held: list[str] = []
    try:
        for written in map(_told, in_order(work, paths, cores())):
            codes.append(written.code)
            if after and written.text:
                held.append(written.text)
            elif written.text:
                sys.stdout.write(written.text)
                sys.stdout.flush()
    finally:
        if held:
            sys.stdout.write(before + between.join(held) + after)
    return max(codes)


def _one_as_json(path: Path, arguments: argparse.Namespace) -> int:
    """The list with its one audit, or with what is wrong with the file."""
    written = _told(_written(path, arguments=arguments, form="json", alone=True))
    around = _dress(arguments).around
    sys.stdout.write(around[0] + written.text + around[2] if written.problem else written.text)
    return written.code


def _written(
    path: Path, *, arguments: argparse.Namespace, form: str, alone: bool = False
) -> Written:
    """The page of one file as text; a file that can't be used, or a bug, stops no other."""
    from interview.report.formats.register import format_called

    dress = format_called(form)

    def work() -> Written:
        audited = audit_file(path, arguments.suppose)
        page = _page(audited, arguments, file=str(path))
        text = dress.alone(page) if alone else dress.dress(page)
        return Written(text, STOP if audited.audit.grades.stop else DONE)

    written = _caught(work, path)
    if written.problem:
        return written._replace(text=dress.missing(str(path), written.problem))
    return written


def _caught(work: Callable[[], Written], path: Path) -> Written:
    """What the work gives; else why there is nothing."""
    from interview.setups import SetupError

    try:
        return work()
    except SetupError as problem:
        return Written("", UNUSABLE, str(problem))
    except Exception as problem:
        return Written("", BUG, said_of_bug(problem, path.name).removeprefix("tankside: "))


def _is_watched(arguments: argparse.Namespace) -> bool:
    """Whether somebody looks at the page while it comes: nothing asks for a text of its own."""
    asked = (arguments.format, arguments.json, _files(arguments), arguments.layers, arguments.why)
    return sys.stdout.isatty() and not any(asked)


def _shown_as_it_comes(arguments: argparse.Namespace) -> int:
    """Show one audit part by part; Ctrl-C ends the search and shows the rest."""
    from interview import assembly
    from interview.chat.afterwards import JUDGING
    from interview.report.before_and_after import comparison_blocks
    from interview.report.page.coming import Coming

    face = _page_face(plain=_format_of(arguments) == "plain")
    with face.working(JUDGING):
        audit, before = judged_file(arguments.setups[0], arguments.suppose)
    if before:
        face.blocks(comparison_blocks(before, audit))
    coming = Coming(audit, assembly.advice_in_steps(audit, awaited=True), arguments.whole)
    coming.show(face)
    if coming.stopped:
        return INTERRUPTED
    return STOP if audit.grades.stop else DONE


def _page_face(*, plain: bool) -> Shows:
    if plain:
        from interview.chat.faces.line_face import PlainFace

        return PlainFace()
    from interview.chat.faces.screen_page import ScreenPage

    return ScreenPage()


def _present(audited: Audited, arguments: argparse.Namespace) -> None:
    """Write or print one page."""
    page = _page(audited, arguments, file=str(arguments.setups[0]))
    files = _files(arguments)
    whole = replace(page, layers=(), why="")  # a file holds the page, whatever is looked at now
    for option, path in files.items():
        _write(whole, written_to_files()[option], path)
    if files and _format_of(arguments) != "json":
        saved = ", ".join(map(str, files.values()))
        print(f"Saved {saved}. {audited.audit.grades.headline}")
        if not (arguments.layers or arguments.why):
            return
    sys.stdout.write(_dress(arguments).alone(page))


def _write(page: Page, form: str, path: Path) -> None:
    """Write one file; beside a Markdown file its pictures."""
    from interview.chat.page_file import may_be_replaced, write_page
    from interview.report.formats.register import format_called
    from interview.setups import SetupError

    if form == "markdown" and (path.is_file() or not path.exists()):
        page = replace(page, beside=path.stem)
        pictures = {path.with_name(name): picture for name, picture in page.pictures()}
        for target in pictures:
            if not may_be_replaced(target):
                raise SetupError(
                    f"{target} exists and is no picture of Tankside's, but one of that name "
                    "belongs beside the page. Move it, or name the page otherwise."
                )
        for target, picture in pictures.items():
            write_page(picture.svg(), target)
    write_page(format_called(form).dress(page), path)


def _dress(arguments: argparse.Namespace) -> Format:
    from interview.report.formats.register import format_called

    return format_called(_format_of(arguments))


def _format_of(arguments: argparse.Namespace) -> str:
    """The format asked for: by name, by the short options, or by what the output is."""
    from interview.chat.session import has_screen

    if arguments.json:
        return "json"
    if is_plain(arguments):
        return "plain"
    return arguments.format or ("terminal" if has_screen() else "plain")


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


def _page(audited: Audited, arguments: argparse.Namespace, file: str = "") -> Page:
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
