"""The door: reads the command line, says the first line, turns problems into exit codes.

Exit codes: 0 done; 1 done, and the audit says STOP; 2 what was given can't be used;
3 a bug (its log file is named); 130 interrupted, saved.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

__all__ = ["main"]

_GREETING = "Tankside: we walk round your turtle tank together, then audit it. Take your time."


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code."""
    try:
        arguments = _parser().parse_args(argv)
    except SystemExit as stop:
        return stop.code if isinstance(stop.code, int) else 2
    if arguments.run is _talk or arguments.run is _demo:
        print(_GREETING, flush=True)
    try:
        return int(arguments.run(arguments))
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except Exception as problem:
        return _explain_failure(problem)


def _explain_failure(problem: Exception) -> int:
    """One sentence on stderr: 2 for what was given, 3 with a log file for a bug."""
    from interview.setups import SetupError

    if isinstance(problem, SetupError):
        print(f"tankside: {problem}", file=sys.stderr)
        return 2
    import tempfile
    import traceback

    with tempfile.NamedTemporaryFile(
        "w", prefix="tankside-", suffix=".log", delete=False, encoding="utf-8"
    ) as log:
        traceback.print_exception(problem, file=log)
    print(
        f"tankside: something went wrong that is our fault. Your answers are saved. "
        f"The details are in {log.name}.",
        file=sys.stderr,
    )
    return 3


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
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
        each.add_argument("--plain", action="store_true", help="plain lines, no colour or boxes")
        each.add_argument(
            "--manner", choices=("guided", "counter"), default="guided", help="how to ask"
        )
        each.set_defaults(run=_talk, setup=None)
    talk.add_argument("setup", nargs="?", type=Path, help="a setup file to go on with or start")
    _add_audit(commands)
    demo = commands.add_parser("demo", help="replay one invented interview and its audit")
    demo.add_argument("--plain", action="store_true", help="plain lines, no colour or boxes")
    demo.add_argument("--fast", action="store_true", help="at once, not at reading pace")
    demo.set_defaults(run=_demo)
    _add_sums(commands)
    questions = commands.add_parser("questions", help="list the questions, or check them")
    questions.add_argument("--check", action="store_true", help="look for faults in the data")
    questions.set_defaults(run=_questions)
    return parser


def _add_audit(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    audit = commands.add_parser("audit", help="audit one or more setup files")
    audit.add_argument("setups", nargs="+", type=Path, metavar="SETUP")
    audit.add_argument("--json", action="store_true", help="JSON on standard output")
    audit.add_argument("--markdown", type=Path, metavar="OUT", help="write Markdown to a file")
    audit.add_argument("--plain", action="store_true", help="plain lines, no colour or boxes")
    audit.add_argument("--whole", action="store_true", help="every check with its limits")
    audit.set_defaults(run=_audit)


def _add_sums(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    reckon = commands.add_parser("reckon", help="work out one number, with its derivation")
    reckon.add_argument("quantity", metavar="QUANTITY", help="as ammonia_free_share")
    reckon.add_argument("given", nargs="*", metavar="NAME=VALUE", help="as ph=8")
    reckon.add_argument("--json", action="store_true", help="JSON on standard output")
    reckon.set_defaults(run=_reckon)
    explain = commands.add_parser("explain", help="show how a tank's number comes about")
    explain.add_argument("setup", type=Path, metavar="SETUP")
    explain.add_argument("quantity", metavar="QUANTITY", help="as shell_temperature")
    explain.add_argument("--json", action="store_true", help="JSON on standard output")
    explain.set_defaults(run=_explain)


def _talk(arguments: argparse.Namespace) -> int:
    from interview.chat.session import choose_face, sit_down

    return sit_down(choose_face(arguments.plain), arguments.setup, arguments.manner)


def _audit(arguments: argparse.Namespace) -> int:
    if arguments.markdown and len(arguments.setups) > 1:
        from interview.setups import SetupError

        raise SetupError("--markdown writes one file, so give it one setup, not several.")
    return max(_audit_one(path, arguments) for path in arguments.setups)


def _audit_one(path: Path, arguments: argparse.Namespace) -> int:
    import datetime

    from interview import assembly, setups

    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    audit = assembly.audit_of(interview, setup.title or path.stem)
    if arguments.markdown:
        from interview.report.markdown import markdown

        try:
            text = markdown(audit, datetime.date.today().isoformat())
            arguments.markdown.write_text(text, encoding="utf-8")
        except OSError as problem:
            raise setups.SetupError(
                f"{arguments.markdown} can't be written: {problem.strerror}."
            ) from problem
    if arguments.json:
        from interview.report.json_form import audit_json

        sys.stdout.write(audit_json(audit))
    elif not arguments.markdown:
        from interview.chat.session import choose_face

        face = choose_face(arguments.plain or not sys.stdout.isatty())
        face.audit(audit, whole=arguments.whole)
    return 1 if audit.grades.stop else 0


def _reckon(arguments: argparse.Namespace) -> int:
    from interview.reckon import reckon
    from interview.report import derivation

    step = reckon(arguments.quantity, arguments.given)
    if arguments.json:
        sys.stdout.write(derivation.as_json(step, lambda _: ""))
    else:
        print("\n".join(derivation.as_lines(step, lambda _: "")))
    return 0


def _explain(arguments: argparse.Namespace) -> int:
    from interview import assembly, setups
    from interview.reckon import explain
    from interview.report import derivation

    interview = assembly.new_interview()
    setups.fill(interview, setups.read(arguments.setup, interview.questionnaire))
    step, origin_of = explain(interview, arguments.quantity)
    if arguments.json:
        sys.stdout.write(derivation.as_json(step, origin_of))
    else:
        print("\n".join(derivation.as_lines(step, origin_of, interview.system)))
    return 0


def _demo(arguments: argparse.Namespace) -> int:
    from interview.chat.demo import replay

    return replay(plain=arguments.plain, fast=arguments.fast)


def _questions(arguments: argparse.Namespace) -> int:
    from interview.chat.catalogue import check, listing

    show: Callable[[], int] = check if arguments.check else listing
    return show()


if __name__ == "__main__":
    sys.exit(main())
