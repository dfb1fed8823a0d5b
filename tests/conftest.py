"""How the tests run: the same samples for everybody, and workers only for the whole suite.

The samples of the property tests are drawn the same way on every machine and nothing is kept
between runs; what a long random run finds becomes an `@example` beside the test. The long run:

    pytest --hypothesis-profile=long
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from kept import keep_audits

HERE = Path(__file__).parent

# A slow machine is no fault: what must be quick says so beside its own test.
_ANY_PACE = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("repeatable", derandomize=True, database=None, **_ANY_PACE)
settings.register_profile("long", max_examples=2500, print_blob=True, **_ANY_PACE)
settings.load_profile("repeatable")


def pytest_sessionstart() -> None:
    keep_audits()


@pytest.fixture(scope="module", autouse=True)
def _forgotten(request: pytest.FixtureRequest) -> Iterator[None]:
    """What a test file has cached goes with its last test."""
    yield
    for thing in vars(request.module).values():
        if hasattr(thing, "cache_clear") and thing.__module__ == request.module.__name__:
            thing.cache_clear()


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """One process for a room, a file or a test; for the whole suite as many as there are cores."""
    named = {(config.invocation_params.dir / arg.split("::")[0]).resolve() for arg in config.args}
    if named & {HERE, HERE.parent}:
        return None
    config.option.dist = "no"
    return 0
