"""Reads files of many kinds, each for the first time in several threads at once.

A program of its own, because what it looks for ends the process. Prints how many it read.
"""

from __future__ import annotations

import sys
import tempfile
import threading
from pathlib import Path
from typing import Any

from interview.base.rows.reader import read
from interview.base.rows.row import Row

KINDS, THREADS, FIELDS = 250, 4, 40


def _kinds(number: int) -> type[Any]:
    """A kind of row nobody has read yet, that holds rows of another such kind."""
    words = dict.fromkeys((f"word_{n}" for n in range(FIELDS)), str | None)
    one = {"__annotations__": words, **dict.fromkeys(words, None)}
    inner = type(Row)(f"Inner{number}", (Row,), {**one, "__module__": __name__})
    outer = {"__annotations__": {"rows": tuple[inner, ...]}, "__module__": __name__}
    return type(Row)(f"Outer{number}", (Row,), outer)


def main() -> None:
    """Read them all."""
    sys.setswitchinterval(1e-6)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "rows.yaml"
        path.write_text("rows: [{word_1: a}, {word_2: b}]\n", "utf-8")
        found: list[Any] = []
        for number in range(KINDS):
            kind, start = _kinds(number), threading.Barrier(THREADS)

            def look(kind: type[Any] = kind, start: threading.Barrier = start) -> None:
                start.wait()
                found.append(read(path, kind))

            threads = [threading.Thread(target=look) for _ in range(THREADS)]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
    print(sum(len(one.rows) for one in found))


if __name__ == "__main__":
    main()
