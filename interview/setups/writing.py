"""A setup written as YAML, whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import Any

import yaml

from interview.setups.setup import FORMAT, Setup

__all__ = ["write"]


def write(path: Path, setup: Setup) -> None:
    """Save a setup whole: a crash or a full disk leaves the old file as it was."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", text=True)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(_text(setup))
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def _text(setup: Setup) -> str:
    answers: dict[str, Any] = {}
    animals: list[dict[str, str]] = [{} for _ in range(setup.animals)]
    for place, said in setup.answers.items():
        if place.animal is None:
            answers[place.id] = said
        else:
            animals[place.animal][place.id] = said
    if animals:
        answers["animals"] = animals
    rows: dict[str, Any] = {"format": FORMAT, "title": setup.title, "answers": answers}
    if setup.doubtful:
        rows["doubtful"] = list(setup.doubtful)
    if setup.finer:
        rows["finer"] = "yes"
    text: str = yaml.serialize(_node(rows), Dumper=yaml.BaseDumper, allow_unicode=True, width=100)
    return text


def _node(value: Any) -> yaml.Node:
    """Plain scalars stay as typed: `no` is written no, not 'no'."""
    if isinstance(value, dict):
        pairs = [(_node(key), _node(item)) for key, item in value.items()]
        return yaml.MappingNode("tag:yaml.org,2002:map", pairs, flow_style=False)
    if isinstance(value, list):
        rows = [_node(item) for item in value]
        return yaml.SequenceNode("tag:yaml.org,2002:seq", rows, flow_style=False)
    return yaml.ScalarNode("tag:yaml.org,2002:str", str(value))
