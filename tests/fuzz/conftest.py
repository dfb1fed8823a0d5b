"""Lets the fuzzing use what the other rooms' tests have built."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import where  # noqa: F401
