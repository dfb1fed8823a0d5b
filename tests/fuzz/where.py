"""Puts what other tests have built within reach, wherever the fuzzing is started from."""

from __future__ import annotations

import sys
from pathlib import Path

__all__ = ["TESTS"]

TESTS = Path(__file__).parent.parent
for _room in (".", "terminal", "chat", "words", "fuzz"):
    if str(TESTS / _room) not in sys.path:
        sys.path.insert(0, str(TESTS / _room))
