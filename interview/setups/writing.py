"""A setup written as YAML, whole or not at all."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from interview.base.files.writing import write_whole
from interview.setups.setup import FORMAT, Setup

__all__ = ["text_of", "write"]


def write(path: Path, setup: Setup) -> None:
    """Save a setup whole: a crash or a full disk leaves the old file as it was. Raises OSError."""
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, text_of(setup))


def text_of(setup: Setup) -> str:
    """The setup as YAML."""
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
    dumper = _dumper(f"{setup.title}{''.join(setup.answers.values())}")
    text: str = yaml.serialize(_node(rows), Dumper=dumper, allow_unicode=True, width=100)
    return text


def _dumper(words: str) -> Any:
    """What writes it, after every answer: in C seven times as fast, but an emoji as its number."""
    is_plain = max(words, default="") <= "\uffff"
    return getattr(yaml, "CBaseDumper", yaml.BaseDumper) if is_plain else yaml.BaseDumper


def _node(value: Any) -> yaml.Node:
    """Plain scalars stay as typed: `no` is written no, not 'no'."""
    if isinstance(value, dict):
        pairs = [(_node(key), _node(item)) for key, item in value.items()]
        return yaml.MappingNode("tag:yaml.org,2002:map", pairs, flow_style=False)
    if isinstance(value, list):
        rows = [_node(item) for item in value]
        return yaml.SequenceNode("tag:yaml.org,2002:seq", rows, flow_style=False)
    return yaml.ScalarNode("tag:yaml.org,2002:str", str(value))
