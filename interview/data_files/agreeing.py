"""What must agree between data files: names that one of them has from another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from interview.base.rows import FileError, unknown_names
from interview.graph.questions import Questionnaire

__all__ = ["faults_between", "faults_of_kinds"]

_ASKED_OF_WEAK_SWIMMERS = "surface_rests"
_WEAK = "weak_to_moderate"


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
    yield from _faults_of_learned(asked)
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


def _faults_of_learned(asked: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """Questions and choices that can be heard in a story, though there are none such."""
    from interview.words.learned.candidates import WATER_DEPTH
    from interview.words.learned.model import WEIGHTS, about
    from interview.words.learned.names import SET, asked_by

    told = [(name, one) for name, choices in about().choices.items() for one in choices]
    told = [(name, one or choice) for at, choice in told for name, _, one in (at.partition(SET),)]
    heard = (*(name for name, _ in told), *about().amounts)
    names = {asked_by(name)[0] for name in heard} - {WATER_DEPTH, *asked}
    wrong = [f"there is no question {name}" for name in sorted(names)]
    wrong += [
        f"“{choice}” is no choice at the question {name}"
        for name, choice in told
        if asked.get(name) and choice not in asked[name]
    ]
    for fault in wrong:
        yield str(FileError(WEIGHTS.name, f"{fault}: python tests/words/learn.py learns anew"))


def faults_of_kinds(questionnaire: Questionnaire) -> Iterator[str]:
    """Kinds that a question names by how they swim, against what their profiles say."""
    from interview.care.species import profile, species_ids

    question = questionnaire.by_id.get(_ASKED_OF_WEAK_SWIMMERS)
    if question is None:  # that its quantity is no longer asked is told elsewhere
        return
    terms = question.finer.denied() if question.finer else ()
    named = {word for name, words in terms if name == "species" for word in words}
    named &= set(species_ids())  # a kind misspelt is told elsewhere
    weak = {i for i in species_ids() if profile(i).traits["swimming"].value == _WEAK}
    for species in sorted(weak ^ named):
        where = question.row.where.at("finer")
        said = "leaves it out: add it" if species in weak else "names it: take it out"
        found = profile(species).traits["swimming"].value
        yield str(FileError(where, f"{species} swims {found}, and {question.id} {said}"))
