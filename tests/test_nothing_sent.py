"""Nothing is ever sent anywhere: no module can, and no command tries to."""

from __future__ import annotations

import ast
import io
import socket
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from interview import cli

ROOT = Path(__file__).parent.parent
PLANNED = ROOT / "transcripts_demo" / "reeves_turtle_planned.yaml"
# Modules of Python that reach other machines, or other programs that might.
REACHING = {
    *("socket", "socketserver", "ssl", "http", "urllib", "ftplib", "smtplib", "imaplib", "poplib"),
    *("telnetlib", "nntplib", "xmlrpc", "wsgiref", "webbrowser", "asyncio", "subprocess", "pty"),
    *("requests", "httpx", "aiohttp", "urllib3"),
}
# Events of PEP 578, listed in the manual of Python under “Audit events table”.
EVENTS = {
    *("socket.connect", "socket.bind", "socket.getaddrinfo", "socket.gethostbyname"),
    *("socket.gethostbyaddr", "socket.sendto", "socket.sendmsg", "urllib.Request"),
    *("http.client.connect", "ftplib.connect", "smtplib.connect", "webbrowser.open"),
    *("subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.spawn"),
}
_heard: list[str] | None = None


def _listen(event: str, arguments: tuple[Any, ...]) -> None:
    if _heard is None:
        return
    inside = getattr(socket, "AF_UNIX", None)  # how an event loop wakes itself
    if event in EVENTS or (event == "socket.__new__" and arguments[1] != inside):
        _heard.append(event)


@contextmanager
def _listened() -> Iterator[list[str]]:
    """What reaches out meanwhile. A hook can't be taken out again, so it is there once."""
    global _heard
    if not hasattr(sys, "_tankside_listens"):
        sys.addaudithook(_listen)
        sys._tankside_listens = True  # type: ignore[attr-defined]
    _heard = heard = []
    try:
        yield heard
    finally:
        _heard = None


def _imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield str(node.module)


def test_no_module_imports_what_reaches_out() -> None:
    found = {
        (str(path.relative_to(ROOT)), name)
        for path in (ROOT / "interview").rglob("*.py")
        for name in _imported(path)
        if name.partition(".")[0] in REACHING and name != "urllib.parse"  # takes names apart
    }
    assert not found


def test_what_reaches_out_is_heard() -> None:
    with _listened() as heard:
        with socket.socket() as one:
            assert one.fileno() >= 0
        with pytest.raises(OSError):
            socket.getaddrinfo("127.0.0.1", "no such service")
    assert heard == ["socket.__new__", "socket.getaddrinfo"]


TALK = "living\neurope\n18 °C\n25 °C\nno\n1\ncommon musk turtle\nwhy\n9.5 cm\nstop\n"
COMMANDS = (
    ("talk", "--plain"),
    ("setups",),
    ("audit", str(PLANNED), "--markdown", "page.md", "--handout", "page.html", "--ics", "care.ics"),
    ("audit", str(PLANNED), "--json"),
    ("explain", str(PLANNED), "water_volume"),
    ("questions",),
    ("audit", "missing.yaml"),
)


@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: " ".join(words[::3])[-30:])
def test_no_command_reaches_out(
    words: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path))
    monkeypatch.setattr("sys.stdin", io.StringIO(TALK))
    with _listened() as heard:
        code = cli.main(list(words))
    assert code == (2 if "missing.yaml" in words else 0)
    assert not heard


def test_neither_does_a_bug(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def broken(*_: object, **__: object) -> int:
        raise RuntimeError

    monkeypatch.setattr("interview.commands.demo.replay", broken)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    with _listened() as heard:
        assert cli.main(["demo"]) == 3
    assert not heard and list(tmp_path.glob("tankside-*.log"))
