"""Examples in the units a keeper uses: 4 3/4 in, or 11 cm."""

from __future__ import annotations

import re

from interview.graph.questions import Question

__all__ = ["example_in", "with_examples_in"]

_US = re.compile(r"(?:\d|\b)(?:in|ft|F|gph|oz|lb|qt|gal)$")


def example_in(question: Question, system: str) -> str:
    """The question's example in one system of units; as it is where it has only one form."""
    metric, either, us = question.example.partition(" or ")
    if not (either and system and _US.search(us)) or _US.search(metric):
        return question.example
    return us if system == "us" else metric


def with_examples_in(question: Question, text: str, system: str) -> str:
    """A sentence whose “as 11 cm or 4 3/4 in” names only the form in the keeper's units."""
    shown = example_in(question, system)
    if shown == question.example:
        return text
    text = text.replace(question.example, shown)
    metric = question.example.partition(" or ")[0]
    return re.sub(rf"\b(as|type) {re.escape(metric)}(?=[.,;]|$)", rf"\1 {shown}", text)
