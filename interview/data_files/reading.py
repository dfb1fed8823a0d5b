"""Reads every data file that ships, those that others rest on first, and tells what is wrong.

A file that is read by something new gets its line here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from interview.base.places import questions_folder
from interview.base.rows import FileError
from interview.graph.question_rows import load

__all__ = ["faults_inside", "read_all"]


def faults_inside() -> list[str]:
    """What is wrong in single files, each fault as a sentence with file and line.

    Files that rest on others are looked at when those have no fault.
    """
    found: list[str] = []
    for stage in _stages(lambda: load(questions_folder())):
        for read in stage:
            try:
                read()
            except FileError as problem:
                found += problem.faults
        if found:
            break
    return list(dict.fromkeys(found))


def read_all() -> None:
    """Read what isn't read yet but questions, so that no file is left to read later."""
    for stage in _stages():
        for read in stage:
            read()


def _stages(*beside: Callable[[], object]) -> Iterator[tuple[Callable[[], object], ...]]:
    """What reads the files, those that others rest on first; `beside` goes with the second."""
    from interview.advice.levers.levers import all_levers
    from interview.advice.purchase.usual import usual
    from interview.advice.search.budget import limits_of_search
    from interview.audit.checks.loader import all_checks
    from interview.audit.grade_rules import rules
    from interview.audit.inconsistencies import all_inconsistencies
    from interview.audit.notes import all_notes
    from interview.audit.sampling.sobol_dimensions import order_of_names
    from interview.care.company import company_rules
    from interview.care.facts import assumptions, bibliography, doubts, limits
    from interview.care.lamps import lamps
    from interview.care.media import media
    from interview.care.mishaps import mishap_rules
    from interview.care.species import captive_growth, species_names, uv_zone
    from interview.care.tank_sizes import known_sizes
    from interview.graph.order.look_round import all_looks
    from interview.graph.order.together import all_together
    from interview.graph.order.worth import worth
    from interview.report.asked.topics import all_topics
    from interview.vocabulary.vocabulary import vocabulary
    from interview.words.lexicon.files import changes, people, phrases, sayings, spans, units, words

    yield (bibliography,)
    yield (
        *(vocabulary, assumptions, limits, doubts, lamps, media, known_sizes, company_rules),
        *(mishap_rules, order_of_names, worth, all_together, all_looks),
        *(lambda: uv_zone(1), lambda: captive_growth("typical"), species_names),
        *(units, words, phrases, people, changes, spans, sayings),
        *beside,
    )
    yield (all_inconsistencies, all_notes, rules, all_checks)
    yield (all_levers, usual, limits_of_search, all_topics)
