"""How the tests run: the same samples for everybody, and workers only for the whole suite.

The samples of the property tests are drawn the same way on every machine and nothing is kept
between runs; what a long random run finds becomes an `@example` beside the test. The long run:

    pytest --hypothesis-profile=long

Marks: `pytest -m "not slow"`, `-m terminal`, `-m reference`.
"""

from __future__ import annotations

import ctypes
import gc
import os
import re
import signal
import sys
from collections.abc import Generator, Iterator
from functools import cache
from pathlib import Path

# A worker a core: matrices are multiplied by one thread each, as numpy is told when it loads.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest
import yaml
from hypothesis import HealthCheck, settings
from kept import forget_file, keep_audits

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.graph.interview import Interview

HERE = Path(__file__).parent

# A slow machine is no fault: what must be quick says so beside its own test.
_ANY_PACE = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("repeatable", derandomize=True, database=None, **_ANY_PACE)
settings.register_profile("long", max_examples=2500, print_blob=True, **_ANY_PACE)
settings.load_profile("repeatable")

# What the tests keep in YAML is read in C, as the program reads its own: eight times as fast.
yaml.SafeLoader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
yaml.BaseLoader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

REFERENCE = re.compile(
    r"^ *(import|from) "
    r"(CoolProp|PyCO2SYS|astral|fluids|gsw|ht|iapws|phreeqpython|psychrolib|pvlib)\b",
    re.MULTILINE,
)
C_LIBRARY = None if sys.platform == "win32" else ctypes.CDLL(None)
OUTSIDE = ("test_reference", "test_outside_values")
SLOW = {
    *("test_calibration", "test_signed", "test_doable", "test_demo", "test_tanks", "test_anytime"),
    *("test_planning", "test_fuzz", "test_any_answers", "test_every_data_file", "test_plans"),
    *("test_whole_interview", "test_every_screen", "test_moving_about", "test_witness"),
    *("test_meanings", "test_impossible", "test_tidy", "test_developers", "test_wheel"),
    *("test_chances", "test_search", "test_told", "test_recheck", "test_first_page"),
}


def pytest_configure(config: pytest.Config) -> None:
    # Files are dealt out as they are collected below, in place of by how many tests they hold.
    config.option.loadscopereorder = False


def pytest_sessionstart() -> None:
    keep_audits()
    # What runs in the background inherits deaf ears, and so would every program tried here.
    signal.signal(signal.SIGINT, signal.default_int_handler)
    signal.signal(signal.SIGHUP, signal.SIG_DFL)


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(
    collector: pytest.Collector,
) -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """Let every second worker go through the folders from the end.

    Who loads a file first rewrites its asserts, which takes longer than all else of loading it: in
    a new clone no two then do it for the same.
    """
    report = yield
    number = int(os.environ.get("PYTEST_XDIST_WORKER", "gw0")[2:])
    if number % 2 and isinstance(collector, pytest.Dir | pytest.Package):
        report.result.reverse()
    return report


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark tests by where they stand and by what their file imports; slow files come first.

    Several processes then end at about the same time.
    """
    for item in items:
        if _compares(item.path) or item.path.stem in OUTSIDE:
            item.add_marker("reference")
        if item.path.parent.name == "terminal":
            item.add_marker("terminal")
        if item.path.stem in SLOW:
            item.add_marker("slow")
    items.sort(key=lambda item: (item.path.stem not in SLOW, item.path))


def pytest_collection_finish() -> None:
    """What was loaded by now stays: no search for lost objects has to go through it again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20)  # little is lost in circles, and a search costs as much as before


@cache
def _compares(file: Path) -> bool:
    """Whether a test file imports a reference library, at its head or where it first needs it."""
    return REFERENCE.search(file.read_text("utf-8")) is not None


@pytest.fixture(scope="module", autouse=True)
def _forgotten(request: pytest.FixtureRequest) -> Iterator[None]:
    """What a test file has cached goes with its last test."""
    yield
    for thing in vars(request.module).values():
        if hasattr(thing, "cache_clear") and thing.__module__ == request.module.__name__:
            thing.cache_clear()
    forget_file()
    # Freed pages of the heap go back to the system: a worker runs a hundred files.
    getattr(C_LIBRARY, "malloc_trim", int)(0)


@pytest.fixture(scope="module")
def musk() -> Interview:
    """The demo tank: water line 11 cm, heat lamp 22 cm, UVB lamp 30 cm, floating platform."""
    interview = assembly.new_interview()
    path = demo_folder() / "musk_turtle.yaml"
    setups.fill(interview, setups.read(path, interview.questionnaire))
    return interview


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """One process for a room, a file or a test; for the whole suite as many as there are cores."""
    named = {(config.invocation_params.dir / arg.split("::")[0]).resolve() for arg in config.args}
    if named & {HERE, HERE.parent}:
        return None
    config.option.dist = "no"
    return 0
