"""Puts the rooms together: the one place that knows which data goes where."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any, Protocol

from interview.base.places import questions_folder
from interview.graph.answers import Lists
from interview.graph.interview import Interview, Quantities
from interview.graph.question_rows import load
from interview.graph.questions import Questionnaire
from interview.vocabulary.vocabulary import unwound, vocabulary
from interview.words.choices.choice import Choice

if TYPE_CHECKING:
    from interview.advice.advise import Advice, Progress
    from interview.audit.audit import Audit, Judged
    from interview.audit.tank import Tank
    from interview.graph.given import Given

__all__ = [
    "Answered",
    "advice_in_steps",
    "advice_of",
    "audit_of",
    "faults",
    "judged_of",
    "known_names",
    "label_of",
    "lists",
    "new_interview",
    "questionnaire",
    "tank_of",
    "warm",
    "warm_for_audit",
    "words_of_answers",
]


@cache
def questionnaire() -> Questionnaire:
    """The shipped questions."""
    return load(questions_folder())


@cache
def lists() -> Lists:
    """Species and trade tank names, for the questions that offer them."""
    from interview.care.species import loose_names, profile, species_ids, species_names
    from interview.care.tank_sizes import trade_sizes

    spoken: dict[str, list[str]] = {}
    for name, species in species_names().items():
        spoken.setdefault(species, []).append(name)
    options = []
    for species in species_ids():
        found = profile(species)
        label = f"{found.common_names[0]} ({found.scientific_name})"
        loose = tuple(name for name, meant in loose_names().items() if meant == species)
        options.append(Choice(species, label, tuple(spoken[species]), loose))
    return Lists({"species": tuple(options)}, {"tank_size": trade_sizes()})


def new_interview() -> Interview:
    """An interview without answers, with the core at hand for remarks and constraints."""
    return Interview(questionnaire(), lists(), work_out)


def work_out(known: Mapping[str, Any], before: Quantities | None = None) -> Quantities:
    """The quantities that follow from best values (rows of animals as tuples).

    Args:
        known: the best values
        before: what followed from others; what rests on none that differ is kept
    """
    import numpy as np

    from interview.care.facts import assumptions
    from interview.core.numeric import alike
    from interview.core.wiring import quantities
    from interview.core.working import Working

    earlier = before if isinstance(before, Working) else quantities().working({})
    values: dict[str, Any] = {n: f.value for n, f in assumptions().items()}
    for name, value in known.items():
        is_row = isinstance(value, tuple) and value and not any(isinstance(v, str) for v in value)
        found = (
            np.array([np.nan if v is None else v for v in value], dtype=float) if is_row else value
        )
        was = earlier.known.get(name)
        # the same object says that nothing moved
        values[name] = was if isinstance(value, tuple) and alike(was, found) else found
    return earlier.with_known(values)


def warm() -> None:
    """Load what the first computed remark needs, while the keeper still reads."""
    work_out({}).get("water_volume")


def warm_for_audit() -> None:
    """Load what audit, plans and page need, so that nothing is left to load at the end."""
    for name in ("interview.advice.advise", "interview.report.page.coming"):
        import_module(name)
    from interview.audit.sampling.sample import warm_scores
    from interview.care.species import profile, species_ids
    from interview.core.structure.panes import pane_coefficients, pane_fill_factor
    from interview.core.water.start_up_table import stored
    from interview.data_files.reading import read_all

    read_all()
    stored()
    warm_scores()
    for species in species_ids():
        profile(species).uv_zone()
    for edge in ("supported", "free"):
        pane_coefficients(2.0, edge)
        pane_fill_factor(2.0, 1.0, edge)


def label_of(name: str) -> str:
    """A name in the keeper's words: the question's counter wording, or the name unwound."""
    question = questionnaire().giver.get(name) or questionnaire().by_id.get(name)
    return question.short if question else unwound(name)


class Answered(Protocol):
    """What an audit needs of an interview: the answers, and the units of sentences."""

    @property
    def system(self) -> str:
        """Metric, us or uk."""

    def given(self) -> Mapping[str, Given]:
        """Every answer with its doubt, by the core's name."""


def audit_of(interview: Answered, title: str) -> Audit:
    """Judge the tank an interview describes; what a planned one leaves open, its list decides."""
    from interview.audit.audit import audit

    given = _with_decisions(interview.given(), interview.system)
    return audit(given, title, label_of, interview.system, _asked_units(), hint_of)


def judged_of(interview: Answered) -> Judged:
    """The findings and grades of that audit alone, before what would settle them is looked for."""
    from interview.audit.audit import judged

    return judged(tank_to_judge(interview))


def tank_to_judge(interview: Answered, before: Tank | None = None) -> Tank:
    """The tank of that audit, not judged yet.

    What was worked out for the tank `before`, by other answers, is kept where it still holds.
    """
    from interview.audit.audit import tank_of

    given = _with_decisions(interview.given(), interview.system)
    return tank_of(given, label_of, interview.system, _asked_units(), before=before)


def _with_decisions(given: Mapping[str, Given], system: str) -> Mapping[str, Given]:
    """The answers, and of a tank in planning those that its list gives where nobody decided."""
    if "stage" not in given or given["stage"].value != "planning" or "species" not in given:
        return given
    from interview.advice.purchase.decisions import decisions
    from interview.audit.audit import tank_of
    from interview.graph.given import decided

    asked = _asked_units()
    found = decisions(tank_of(given, label_of, system, asked))
    return {**given, **{n: decided(n, asked[n], v) for n, v in found.items() if n in asked}}


def tank_of(interview: Answered, *, drawn: bool, before: Tank | None = None) -> Tank:
    """The tank an interview describes, for whoever judges a few checks only.

    Without draws (`drawn`) it is known at its best values alone; `before` as of `tank_to_judge`.
    """
    from interview.audit.audit import tank_of

    given, asked = interview.given(), _asked_units()
    return tank_of(given, label_of, interview.system, asked, drawn=drawn, before=before)


def hint_of(name: str) -> str:
    """How to measure or look up an answer, without its examples; "" where nobody is asked."""
    question = questionnaire().giver.get(name) or questionnaire().by_id.get(name)
    return question.hint.partition(" For example")[0].strip() if question else ""


def advice_of(audit: Audit, today: datetime.date | None = None) -> Advice:
    """What to change, how far, what to buy and when to look again; from today on by default."""
    from interview.advice.advise import advise

    return advise(audit, today or datetime.date.today())


def advice_in_steps(audit: Audit, *, awaited: bool) -> Iterator[Progress]:
    """The advice bit by bit, from today on.

    Args:
        audit: the tank and what was found
        awaited: whether somebody waits for it, so that the clock bounds the search too
    """
    from interview.advice.advise import advise_in_steps
    from interview.advice.search.budget import Budget

    return advise_in_steps(audit, datetime.date.today(), Budget.shipped(talking=awaited))


def _asked_units() -> dict[str, str]:
    """Core unit of every answer, and of every part of one."""
    questions = questionnaire()
    return {q.id: q.unit for q in questions} | {n: questions.unit_of(n) for n in questions.giver}


def known_names() -> dict[str, str]:
    """Core unit of every answer and every quantity."""
    from interview.core.wiring import quantities

    return {**_asked_units(), **quantities().units}


def faults() -> list[str]:
    """Every fault of the data files that ship and of their wiring, as sentences.

    What rests on other files is looked at when those have no fault.
    """
    from interview.core.sheets import WiringError
    from interview.data_files.agreeing import faults_between, faults_of_kinds
    from interview.data_files.demos import faults_of_demos
    from interview.data_files.reading import faults_inside

    def between() -> list[str]:
        asked = {**dict.fromkeys(_asked_units(), ()), **words_of_answers()}
        of_kinds = faults_of_kinds(questionnaire())
        return [*_faults_of_wiring(), *faults_between(asked, _asked_units()), *of_kinds]

    try:
        return faults_inside() or between() or list(faults_of_demos(new_interview))
    except WiringError as problem:
        from interview.vocabulary.faults import faults as faults_of_vocabulary

        unwritten = faults_of_vocabulary(vocabulary(), questionnaire(), vocabulary())
        return [*unwritten, str(problem)]


def _faults_of_wiring() -> list[str]:
    """What does not fit between questions, vocabulary, checks, levers and the core."""
    from interview.advice.levers.faults import faults as faults_of_levers
    from interview.advice.purchase.usual import faults as faults_of_usual_settings
    from interview.audit.checks.faults import faults as faults_of_checks
    from interview.audit.checks.faults import names_judged
    from interview.audit.checks.loader import all_checks
    from interview.audit.inconsistencies import all_inconsistencies
    from interview.audit.inconsistencies import faults as faults_of_inconsistencies
    from interview.audit.notes import all_notes
    from interview.audit.sampling.sobol_dimensions import without_a_dimension
    from interview.base.rows import unknown_names
    from interview.care.facts import assumptions, limits
    from interview.care.mishaps import mishap_rules
    from interview.core.wiring import faults_of_citations, laws, quantities
    from interview.graph.faults import faults as faults_of_graph
    from interview.report.asked.known_of import OWN
    from interview.report.asked.topics import all_topics
    from interview.vocabulary.faults import faults as faults_of_vocabulary

    wiring = quantities()
    cited = faults_of_citations((*wiring.formulas.values(), *laws().values()))
    judged = names_judged(all_checks()) | {n for note in all_notes() for n in note.names}
    doubted = {name for inconsistency in all_inconsistencies() for name in inconsistency.names}
    doubted |= {one.name for one in mishap_rules().limits}
    judged |= doubted
    units = known_names()
    in_graph = faults_of_graph(
        questionnaire(), lists(), wiring.units, wiring.leaves, assumptions(), judged
    )
    return in_graph or [
        *cited,
        *faults_of_vocabulary(vocabulary(), questionnaire(), {*units, *_in_single_sums()}),
        *faults_of_checks(all_checks(), units, doubted),
        *faults_of_inconsistencies(all_inconsistencies(), units),
        *faults_of_levers(
            {*units, *limits(), *assumptions()},
            words_of_answers(),
            [check.id for check in all_checks()],
        ),
        *faults_of_usual_settings(units, words_of_answers()),
        *unknown_names(
            mishap_rules(),
            {
                "quantity": {*units, *limits()},
                "watched": {one.limit for one in mishap_rules().limits},
            },
        ),
        *unknown_names(
            all_topics(),
            {
                "said": {*units, *limits(), *OWN},
                "check": [check.id for check in all_checks()],
                "note": [note.note for note in all_notes()],
            },
        ),
        *(
            f"{name} is drawn from, and has no dimension: "
            "put it at the end of `names:` in interview/audit/sampling/sobol_dimensions.yaml"
            for name in without_a_dimension((*assumptions(), *_measured()))
        ),
    ]


def _measured() -> list[str]:
    """Answers, and parts of answers, that are numbers."""
    whole = {question.id for question in questionnaire() if question.parts}
    return [
        name
        for name, unit in _asked_units().items()
        if unit not in ("choice", "yes/no", "text") and name not in whole
    ]


def _in_single_sums() -> set[str]:
    """What single sums take and give."""
    from interview.core.wiring import laws

    return {name for law in laws().values() for name in (law.name, *(i.name for i in law.inputs))}


def words_of_answers() -> dict[str, tuple[str, ...]]:
    """What may be answered where the answer is a word, or yes or no."""
    words: dict[str, tuple[str, ...]] = {}
    for question in questionnaire():
        offered = tuple(option.name for option in lists().options_of(question))
        if question.type == "yes_no":
            offered = ("yes", "no")
        if offered and not question.parts:
            words[question.id] = offered
    return words
