"""Every data file that ships, read once more for its faults: what `questions --check` covers."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from interview.base.places import demo_folder, file_said, questions_folder
from interview.base.rows import FileError, unknown_names
from interview.graph.interview import Interview
from interview.graph.question_rows import load
from interview.graph.questions import Questionnaire

__all__ = ["faults_between", "faults_inside", "faults_of_demos", "faults_of_kinds", "read_all"]

_ASKED_OF_WEAK_SWIMMERS = "surface_rests"
_WEAK = "weak_to_moderate"


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
    """Read what isn't read yet, questions aside, so that no file is left to read later."""
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
    from interview.vocabulary.vocabulary import vocabulary
    from interview.words.lexicon.files import changes, people, phrases, units, words

    yield (bibliography,)
    yield (
        *(vocabulary, assumptions, limits, doubts, lamps, media, known_sizes, company_rules),
        *(mishap_rules, order_of_names, worth, all_together, all_looks),
        *(lambda: uv_zone(1), lambda: captive_growth("typical"), species_names),
        *(units, words, phrases, people, changes, *beside),
    )
    yield (all_inconsistencies, all_notes, rules, all_checks)
    yield (all_levers, usual, limits_of_search)


def faults_between(asked: Mapping[str, tuple[str, ...]], units: Mapping[str, str]) -> Iterator[str]:
    """Names in care data and word files that no question has.

    Args:
        asked: what may be answered at each question and each part of one, () where no word
        units: core unit of each of them
    """
    from interview.care.company import company_rules
    from interview.care.facts import assumptions, doubts
    from interview.care.lamps import lamps
    from interview.care.media import media
    from interview.care.species import species_ids
    from interview.graph.order.look_round import all_looks
    from interview.graph.order.together import all_together
    from interview.graph.order.worth import worth
    from interview.words.lexicon.faults import faults as faults_of_phrases
    from interview.words.lexicon.files import changes, phrases
    from interview.words.lexicon.rules import NO_QUESTION

    glances = (item for look in all_looks() for item in look.items)
    yield from unknown_names((worth(), *all_together(), *glances), {"question": asked})
    yield from unknown_names(company_rules(), {"species": species_ids()})
    yield from unknown_names(
        (
            *(*phrases().absent, *phrases().facts, *phrases().near),
            *(*changes().told, *changes().moved, *changes().added),
        ),
        {"question": {*asked, NO_QUESTION}},
    )
    yield from faults_of_phrases(units)
    for name, doubt in doubts().items():
        if name not in asked:
            yield str(FileError(doubt.where, f"{name} is doubted, but no question asks for it"))
    for name, fact in assumptions().items():
        if fact.settled_by and fact.settled_by not in asked:
            wrong = f"{name} is settled by {fact.settled_by}, which no question asks for"
            yield str(FileError(fact.where.at("settled_by"), wrong))
    for question, rows in (("media", media()), ("uvb_lamp_kind", lamps().kinds)):
        for name, row in rows.items():
            if name not in asked.get(question, ()):
                yield str(FileError(row.where, f"{name} is no choice at the question {question}"))


def faults_of_kinds(questionnaire: Questionnaire) -> Iterator[str]:
    """Kinds that a question names by how they swim, against what their profiles say."""
    from interview.care.species import profile, species_ids

    question = questionnaire.by_id[_ASKED_OF_WEAK_SWIMMERS]
    terms = question.finer.denied() if question.finer else ()
    named = {word for name, words in terms if name == "species" for word in words}
    weak = {i for i in species_ids() if profile(i).traits["swimming"].value == _WEAK}
    for species in sorted(weak ^ named):
        where = question.row.where.at("finer")
        said = "leaves it out: add it" if species in weak else "names it: take it out"
        found = profile(species).traits["swimming"].value
        yield str(FileError(where, f"{species} swims {found}, and {question.id} {said}"))


def faults_of_demos(new_interview: Callable[[], Interview]) -> Iterator[str]:
    """What is wrong with the setups that are shown."""
    from interview import setups

    for path in sorted(demo_folder().glob("*.yaml")):
        interview = new_interview()
        try:
            setup = setups.read(path, interview.questionnaire)
        except setups.SetupError as problem:
            yield str(problem)
            continue
        try:
            setups.fill(interview, setup)
        except setups.SetupError as problem:
            for fault in str(problem).split("\n  "):
                yield f"{file_said(path)}, line {_line_of(fault, path)}: {fault}"


def _line_of(fault: str, path: Path) -> int:
    """The line of the answer that a sentence on a setup begins with; 1 if it isn't found."""
    name = re.match(r"\w*", fault)
    wanted = re.compile(rf"\b{name[0] if name else ''}:")
    lines = path.read_text(encoding="utf-8").splitlines()
    return next((n for n, line in enumerate(lines, start=1) if wanted.search(line)), 1)
