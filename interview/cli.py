"""The door: reads the command line, says the first line, turns problems into exit codes.

Exit codes: 0 done; 1 done, and the audit says STOP; 2 what was given can't be used;
3 a bug (its log file is named); 130 interrupted, saved.
"""

from __future__ import annotations

import argparse
import errno
import io
import os
import shutil
import sys
import textwrap
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple, NoReturn

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.chat.talk import Manner
    from interview.core.derivation import Step
    from interview.graph.interview import Interview

__all__ = ["main"]

_GREETING = "Tankside: we walk round your turtle tank together, then audit it. No hurry."
_OUTPUT_GONE = (errno.EPIPE, errno.ENOSPC)
_PLAIN: dict[str, Any] = {
    "action": "store_true",
    "default": argparse.SUPPRESS,  # a command's own default would undo what stands before it
    "help": "plain lines, no colour or boxes",
}
_JSON: dict[str, Any] = {"action": "store_true", "help": "JSON on standard output"}


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code."""
    _make_streams_forgiving()
    try:
        arguments = _parser().parse_args(argv)
    except SystemExit as stop:
        return stop.code if isinstance(stop.code, int) else 2
    try:
        if arguments.run is _talk or arguments.run is _demo:
            columns = shutil.get_terminal_size().columns
            print(textwrap.fill(_GREETING, max(columns, 20)), flush=True)
        code = int(arguments.run(arguments))
        sys.stdout.flush()
        return code
    except KeyboardInterrupt:
        return 130
    except Exception as problem:
        return _explain_failure(problem)


def _make_streams_forgiving() -> None:
    """No character stops the program: output falls back to ASCII, input to a question mark."""
    from interview.report.fitting import ENCODING_ERRORS

    for name in ("stdin", "stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None or stream.closed:
            # Stays open as long as the program runs.
            stream = open(os.devnull, "r" if name == "stdin" else "w", encoding="utf-8")  # noqa: PTH123, SIM115
            setattr(sys, name, stream)
        if not isinstance(stream, io.TextIOWrapper):
            continue
        if name == "stdin":
            is_ascii = "ascii" in stream.encoding.lower()
            stream.reconfigure(encoding="utf-8" if is_ascii else None, errors="replace")
        else:
            stream.reconfigure(errors=ENCODING_ERRORS)


def _explain_failure(problem: Exception) -> int:
    """One sentence on stderr: 2 for what was given, 3 with a log file for a bug."""
    from interview.setups import SetupError

    if isinstance(problem, OSError) and problem.errno in _OUTPUT_GONE:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if problem.errno == errno.EPIPE:
            return 0
        problem = SetupError("The output can't be written: no space is left there.")
    if isinstance(problem, SetupError):
        _complain(f"tankside: {problem}")
        return 2
    import tempfile
    import traceback

    with tempfile.NamedTemporaryFile(
        "w", prefix="tankside-", suffix=".log", delete=False, encoding="utf-8"
    ) as log:
        traceback.print_exception(problem, file=log)
    _complain(
        f"tankside: something went wrong that is our fault. Every answer given is saved. "
        f"The details are in {log.name}."
    )
    return 3


def _complain(text: str) -> None:
    """One sentence on stderr; on a terminal no word is cut in two, in a log it is one line."""
    if sys.stderr.isatty():
        columns = max(shutil.get_terminal_size().columns, 20)
        text = textwrap.fill(text, columns, break_long_words=False, break_on_hyphens=False)
    print(text, file=sys.stderr)


class _Parser(argparse.ArgumentParser):
    """Says what is wrong with the command line in one sentence."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"tankside: {message}. Type “{self.prog} --help” for what works.\n")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="tankside",
        description="Interviews you about an indoor turtle tank, computes the whole of it and "
        "ends with a graded audit.",
        epilog="Without a command it talks. Setups are kept in TANKSIDE_FOLDER, or in "
        "“tankside” in your home folder.",
    )
    from interview import __version__

    parser.add_argument("--version", action="version", version=f"tankside {__version__}")
    commands = parser.add_subparsers(metavar="COMMAND")
    talk = commands.add_parser("talk", help="talk (the same as no command)")
    for each in (parser, talk):
        each.add_argument("--plain", **_PLAIN)
        each.add_argument(
            "--manner", choices=("guided", "counter"), default=argparse.SUPPRESS, help="how to ask"
        )
        each.set_defaults(run=_talk)
    talk.add_argument("setup", nargs="?", type=Path, help="a setup file to go on with or start")
    _add_audit(commands)
    recheck = commands.add_parser("recheck", help="audit again after something was moved")
    recheck.add_argument("setup", type=Path, metavar="SETUP")
    recheck.add_argument("--plain", **_PLAIN)
    recheck.set_defaults(run=_recheck)
    demo = commands.add_parser(
        "demo",
        help="replay one invented interview and its audit; --fast shows it at once",
        description="Replays one invented interview at reading pace, then its audit. "
        "With --fast it is shown at once.",
    )
    demo.add_argument("--plain", **_PLAIN)
    demo.add_argument("--fast", action="store_true", help="at once, not at reading pace")
    demo.set_defaults(run=_demo)
    _add_sums(commands)
    questions = commands.add_parser("questions", help="list the questions, or check them")
    questions.add_argument("--check", action="store_true", help="look for faults in the data")
    questions.set_defaults(run=_questions)
    return parser


def _add_audit(commands: argparse._SubParsersAction[_Parser]) -> None:
    audit = commands.add_parser("audit", help="audit one or more setup files")
    audit.add_argument("setups", nargs="+", type=Path, metavar="SETUP")
    audit.add_argument("--json", **_JSON)
    audit.add_argument("--markdown", type=Path, metavar="OUT", help="write Markdown to a file")
    audit.add_argument("--plain", **_PLAIN)
    audit.add_argument(
        "--suppose",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="audit the tank as it would be, as water_line_below_rim=14cm; may be repeated",
    )
    audit.add_argument("--whole", action="store_true", help="every check with its limits")
    audit.set_defaults(run=_audit)


def _add_sums(commands: argparse._SubParsersAction[_Parser]) -> None:
    reckon = commands.add_parser("reckon", help="work out one number, with its derivation")
    reckon.add_argument("quantity", metavar="QUANTITY", help="as ammonia_free_share")
    reckon.add_argument("given", nargs="*", metavar="NAME=VALUE", help="as ph=8")
    reckon.add_argument("--json", **_JSON)
    reckon.set_defaults(run=_reckon)
    explain = commands.add_parser("explain", help="show how a tank's number comes about")
    explain.add_argument("setup", type=Path, metavar="SETUP")
    explain.add_argument("quantity", metavar="QUANTITY", help="as shell_temperature")
    explain.add_argument("--json", **_JSON)
    explain.set_defaults(run=_explain)


def _talk(arguments: argparse.Namespace) -> int:
    from interview.chat.session import choose_face, sit_down

    setup = getattr(arguments, "setup", None)
    manner: Manner = getattr(arguments, "manner", "guided")
    return sit_down(choose_face(_plain(arguments)), setup, manner)


def _plain(arguments: argparse.Namespace) -> bool:
    """Whether plain lines were asked for, before the command or behind it."""
    return getattr(arguments, "plain", False)


def _recheck(arguments: argparse.Namespace) -> int:
    from interview.chat.recheck import recheck
    from interview.chat.session import choose_face

    return recheck(choose_face(_plain(arguments)), arguments.setup)


def _audit(arguments: argparse.Namespace) -> int:
    """Audit each file; one that can't be used is named, and the others are audited all the same."""
    from interview.setups import SetupError

    several = len(arguments.setups) > 1
    if arguments.markdown and several:
        raise SetupError("--markdown writes one file, so give it one setup, not several.")
    codes: list[int] = []
    audits: list[Audited] = []
    for path in arguments.setups:
        try:
            audited = _audit_of(path, arguments.suppose)
        except SetupError as problem:
            _complain(f"tankside: {problem}")
            codes.append(2)
            continue
        codes.append(1 if audited.audit.grades.stop else 0)
        audits.append(audited)
        if not arguments.json:
            _present(audited, arguments)
    if arguments.json and audits:
        _present_json(audits, arguments, several)
    return max(codes)


def _present_json(audits: Sequence[Audited], arguments: argparse.Namespace, several: bool) -> None:
    """One JSON document: the audit, or a list of them when several files were named."""
    from interview.report.json_form import audit_json

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

    face = choose_face(_plain(arguments) or not has_screen())
    if audited.before:
        face.compare(audited.before, audited.audit)
    face.audit(audited.audit, audited.advice, whole=arguments.whole)


def _write_markdown(audited: Audited, target: Path) -> None:
    import datetime

    from interview.report.markdown import markdown
    from interview.setups import SetupError

    text = markdown(audited.audit, datetime.date.today().isoformat(), audited.advice)
    try:
        target.write_text(text, encoding="utf-8")
    except OSError as problem:
        raise SetupError(f"{target} can't be written: {problem.strerror}.") from problem


class Audited(NamedTuple):
    """An audit with its advice; `before` is the tank as it is when changes were supposed."""

    audit: Audit
    advice: Advice
    before: Audit | None = None


def _audit_of(path: Path, supposed: Sequence[str]) -> Audited:
    from interview import assembly

    interview, title = _filled(path)
    audit, before = assembly.audit_of(interview, title), None
    if supposed:
        from interview.supposing import hold_together, read_supposition, suppose

        changes: dict[str, Any] = {}
        for text in supposed:
            changes |= read_supposition(interview, text)
        hold_together(interview, changes)
        before, audit = audit, suppose(audit, interview.given(), changes)
    return Audited(audit, assembly.advice_of(audit), before)


def _filled(path: Path) -> tuple[Interview, str]:
    """The interview a setup file holds, and its title; SetupError names the file."""
    from interview import assembly, setups

    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    try:
        setups.fill(interview, setup)
    except setups.SetupError as problem:
        raise setups.SetupError(f"{path.name}, {problem}") from problem
    return interview, setup.title or path.stem


def _reckon(arguments: argparse.Namespace) -> int:
    from interview.reckon import reckon, typed_system

    step = reckon(arguments.quantity, arguments.given)
    system = typed_system(arguments.given)
    return _show_derivation(step, lambda _: "", system, as_json=arguments.json)


def _explain(arguments: argparse.Namespace) -> int:
    from interview.reckon import explain

    interview, _ = _filled(arguments.setup)
    step, origin_of = explain(interview, arguments.quantity)
    return _show_derivation(step, origin_of, interview.system, as_json=arguments.json)


def _show_derivation(
    step: Step, origin_of: Callable[[str], str], system: str, *, as_json: bool
) -> int:
    from interview.report import derivation

    if as_json:
        sys.stdout.write(derivation.as_json(step, origin_of))
    else:
        print("\n".join(derivation.as_lines(step, origin_of, system)))
    return 0


def _demo(arguments: argparse.Namespace) -> int:
    from interview.chat.demo import replay

    return replay(plain=_plain(arguments), fast=arguments.fast)


def _questions(arguments: argparse.Namespace) -> int:
    from interview.chat.catalogue import check, listing

    return check() if arguments.check else listing()


if __name__ == "__main__":
    sys.exit(main())
