"""Tanks for the advice's tests, and answers typed to the last digit."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import yaml

from interview import assembly, setups
from interview.audit.audit import Audit
from interview.audit.tank import Tank
from interview.graph.interview import Interview

TESTS = Path(__file__).parent.parent
DEMOS = TESTS.parent / "transcripts_demo"
TANKS = TESTS / "tanks"

SPELLED = {
    "m": ("m", 1.0),
    "degC": ("degC", 1.0),
    "W": ("W", 1.0),
    "m**3": ("L", 1e3),
    "m**3/s": ("L/h", 3.6e6),
    "kg": ("g", 1e3),
    "s": ("hours", 1 / 3600),
    "deg": ("degrees", 1.0),
    "mg/L": ("mg/L", 1.0),
    "V": ("V", 1.0),
    "A": ("A", 1.0),
    "%": ("%", 1.0),
}


@cache
def answers_in(path: Path) -> Mapping[str, Any]:
    """A setup's answers, each as the characters that a keeper would type."""
    found: Mapping[str, Any] = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)["answers"]
    return found


def interview_with(answers: Mapping[str, Any]) -> Interview:
    """An interview filled with typed answers; an empty one stays unanswered."""
    text = yaml.safe_dump(
        {
            "format": "tankside/1",
            "title": "a tank",
            "answers": {name: said for name, said in answers.items() if said != ""},
        },
        allow_unicode=True,
    )
    interview = assembly.new_interview()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "tank.yaml"
        path.write_text(text, encoding="utf-8")
        setups.fill(interview, setups.read(path, assembly.questionnaire()))
    return interview


def audit_of(path: Path, change: Mapping[str, Any] | None = None) -> Audit:
    """The audit of a setup file with some answers typed anew."""
    return assembly.audit_of(interview_with({**answers_in(path), **(change or {})}), path.stem)


def tank_of(path: Path, change: Mapping[str, Any] | None = None) -> Tank:
    """That tank for whoever needs no verdicts, not judged; a planned one without its list."""
    return assembly.tank_of(interview_with({**answers_in(path), **(change or {})}), drawn=True)


def typed(tank: Tank, values: Mapping[str, Any]) -> dict[str, str]:
    """Core values as typed answers, sizes in one; numbers keep every digit."""
    said: dict[str, str] = {}
    questions = assembly.questionnaire()
    for name, value in values.items():
        question = questions.by_id.get(name)
        if question is not None and not question.parts:
            said[name] = _said(value, tank.unit_of(name), question.type)
    for question in questions:
        if question.parts and set(question.parts) & set(values):
            sides = [values.get(part, tank.best.known.get(part)) for part in question.parts]
            said[question.id] = " x ".join(f"{float(side):.11g}" for side in sides) + " m"
    return said


def _said(value: Any, unit: str, kind: str) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return ", ".join(value) or "none"
    if kind == "share":
        return f"{float(value) * 100:.11g} %"
    if kind in ("count", "number", "rating", "price"):
        return repr(int(value)) if float(value).is_integer() else f"{float(value):.11g}"
    if kind == "per_week":
        return f"{float(value):.11g} times a week"
    word, factor = SPELLED[unit]
    return f"{float(value) * factor:.11g} {word}"


def same_value(one: Any, other: Any, relative: float) -> bool:
    """Whether two values of a quantity agree, words exactly."""
    if one is None or other is None or isinstance(one, str | bool | tuple):
        return bool(one == other)
    return bool(np.allclose(one, other, rtol=relative, atol=1e-15, equal_nan=True))


__all__ = [
    *("DEMOS", "TANKS", "TESTS", "answers_in", "audit_of", "interview_with"),
    *("same_value", "typed"),
]
