"""`tankside audit`: judge saved setups, one or several."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from interview.commands.failures import complain
from interview.commands.filled import filled
from interview.commands.options import JSON, PLAIN, Commands, is_plain

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["Audited", "add", "audit_file", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    audit = commands.add_parser("audit", help="audit one or more setup files")
    audit.add_argument("setups", nargs="+", type=Path, metavar="SETUP")
    audit.add_argument("--json", **JSON)
    audit.add_argument("--markdown", type=Path, metavar="OUT", help="write Markdown to a file")
    audit.add_argument("--plain", **PLAIN)
    audit.add_argument(
        "--suppose",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="audit the tank as it would be, as water_line_below_rim=14cm; may be repeated",
    )
    audit.add_argument("--whole", action="store_true", help="every check with its limits")
    audit.set_defaults(run=run, greets=False)


def run(arguments: argparse.Namespace) -> int:
    """Audit each file; one that can't be used is named, and the others are audited all the same."""
    from interview.setups import SetupError

    several = len(arguments.setups) > 1
    if arguments.markdown and several:
        raise SetupError("--markdown writes one file, so give it one setup, not several.")
    codes: list[int] = []
    audits: list[Audited] = []
    for path in arguments.setups:
        try:
            audited = audit_file(path, arguments.suppose)
        except SetupError as problem:
            complain(f"tankside: {problem}")
            codes.append(2)
            continue
        codes.append(1 if audited.audit.grades.stop else 0)
        audits.append(audited)
        if not arguments.json:
            _present(audited, arguments)
    if arguments.json and audits:
        _present_json(audits, arguments, several)
    return max(codes)


class Audited(NamedTuple):
    """An audit with its advice; `before` is the tank as it is when changes were supposed."""

    audit: Audit
    advice: Advice
    before: Audit | None = None


def audit_file(path: Path, supposed: Sequence[str]) -> Audited:
    """Judge the tank of a setup file, as it is or as it would be."""
    from interview import assembly

    interview, title = filled(path)
    audit, before = assembly.audit_of(interview, title), None
    if supposed:
        from interview.chat.hearing.what_if import read_what_if
        from interview.supposing import hold_together, read_supposition, suppose

        changes: dict[str, Any] = {}
        for text in supposed:
            changes |= read_supposition(interview, text, read_what_if)
        hold_together(interview, changes)
        before, audit = audit, suppose(audit, interview.given(), changes)
    return Audited(audit, assembly.advice_of(audit), before)


def _present_json(audits: Sequence[Audited], arguments: argparse.Namespace, several: bool) -> None:
    """One JSON document: the audit, or a list of them when several files were named."""
    from interview.report.formats.json_form import audit_json

    if arguments.markdown:
        _write_markdown(audits[0], arguments.markdown)
    documents = [audit_json(a.audit, a.advice).rstrip("\n") for a in audits]
    sys.stdout.write(f"[{','.join(documents)}]\n" if several else f"{documents[0]}\n")


def _present(audited: Audited, arguments: argparse.Namespace) -> None:
    if arguments.markdown:
        _write_markdown(audited, arguments.markdown)
        print(f"Saved {arguments.markdown}. {audited.audit.grades.headline}")
        return
    from interview.chat.session import choose_face, has_screen

    face = choose_face(is_plain(arguments) or not has_screen())
    if audited.before:
        face.compare(audited.before, audited.audit)
    face.audit(audited.audit, audited.advice, whole=arguments.whole)


def _write_markdown(audited: Audited, target: Path) -> None:
    import datetime

    from interview.report.formats.markdown import markdown
    from interview.setups import SetupError

    text = markdown(audited.audit, datetime.date.today().isoformat(), audited.advice)
    try:
        target.write_text(text, encoding="utf-8")
    except OSError as problem:
        raise SetupError(f"{target} can't be written: {problem.strerror}.") from problem
