"""A mutation run forks: in the child nothing may be remembered of the core as it was."""

from __future__ import annotations

import os
import sys

import pytest


def pytest_sessionstart(session: pytest.Session) -> None:
    if "MUTANT_UNDER_TEST" not in os.environ:
        return
    for name, module in list(sys.modules.items()):
        if name.startswith("interview.core"):
            for thing in list(vars(module).values()):
                own = str(getattr(thing, "__module__", "")).startswith("interview.core")
                if own and hasattr(thing, "cache_clear"):
                    thing.cache_clear()
