"""The questions as a list for people, and their faults for whoever writes them."""

from __future__ import annotations

import textwrap

from interview import assembly

__all__ = ["check", "listing"]


def listing() -> int:
    """Print every question by topic, with what can be typed."""
    for topic in assembly.questionnaire().topics:
        print(f"\n{topic.name}")
        for question in topic.questions:
            finer = " (finer)" if question.finer is not None else ""
            text = f"{question.id}: {question.label}{finer}"
            print(textwrap.fill(text, 78, initial_indent="  ", subsequent_indent="    "))
            offered = ", ".join(option.name for option in question.choices)
            if offered or question.example:
                said = f"one of {offered}" if offered else f"such as {question.example}"
                print(textwrap.fill(said, 78, initial_indent="      ", subsequent_indent="      "))
    return 0


def check() -> int:
    """Print every fault of questions, checks and their wiring; 0 when there is none."""
    found = assembly.faults()
    for fault in found:
        print(fault)
    print(f"{len(found)} faults." if found else "No faults.")
    return 2 if found else 0
