"""The graph audits itself: every fault of the questionnaire, with file and line."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from interview.base.conditions import Condition
from interview.base.rows import FileError, did_you_mean, unknown_names
from interview.base.units import convert
from interview.graph.answers import Lists, understand
from interview.graph.questions import Question, Questionnaire
from interview.words.text.refusal import NotUnderstood

__all__ = ["faults"]


def faults(
    questionnaire: Questionnaire,
    lists: Lists,
    units: Mapping[str, str],
    leaves: Collection[str],
    assumed: Collection[str],
    judged: Collection[str],
) -> list[str]:
    """All faults as sentences, empty when there are none.

    Args:
        questionnaire: the topics
        lists: what care data adds to them
        units: unit of every name the core knows
        leaves: names the core needs but no formula gives
        assumed: names the care data assumes
        judged: names the audit's checks and notes speak of
    """
    known = {"quantity": {*units, *questionnaire.giver, *questionnaire.by_id}}
    found: list[str] = []
    earlier: set[str] = set()
    for question in questionnaire:
        found += unknown_names(question.row, known)
        for text in (
            *_triggers(question, questionnaire),
            *_order(question, questionnaire, earlier),
            *_words(question, questionnaire, lists),
            *_units(question, units),
            *_limits(question, questionnaire, units),
            *_guess(question, lists, units),
            *_use(question, units, judged),
        ):
            found.append(str(FileError(question.row.where, text)))
        earlier |= {question.id, *question.names}
    asked = set(questionnaire.giver) | set(assumed)
    found += [
        f"{name} is needed by the core, but nobody asks or assumes it"
        for name in sorted(set(leaves) - asked)
    ]
    return found


def _conditions(question: Question) -> Iterator[Condition]:
    yield from (found for found in (question.relevant, question.finer) if found)
    yield from (rule.condition for rule in question.constraint)
    yield from (remark.when for remark in question.remark if remark.when)
    yield from (condition for condition in question.stale_when.values() if condition)


def _triggers(question: Question, questionnaire: Questionnaire) -> Iterator[str]:
    for name in sorted(set(question.stale_when) - set(questionnaire.by_id)):
        near = did_you_mean(name, questionnaire.by_id)
        yield f"{question.id} is stale when {name} changes, which is no question{near}"


def _order(
    question: Question, questionnaire: Questionnaire, earlier: Collection[str]
) -> Iterator[str]:
    names = question.relevant.names if question.relevant else frozenset()
    names |= question.finer.names if question.finer else frozenset()
    for name in sorted(names):
        if name in questionnaire.giver and name not in earlier:
            yield f"{question.id} is relevant by {name}, which is not asked before it"


def _words(question: Question, questionnaire: Questionnaire, lists: Lists) -> Iterator[str]:
    for condition in _conditions(question):
        for name, word in condition.words():
            asked = questionnaire.by_id.get(name)
            if asked is None:
                continue
            allowed = {option.name for option in lists.options_of(asked)}
            if asked.type == "yes_no":
                allowed = {"yes", "no"}
            if allowed and word not in allowed:
                yield f"{question.id} compares {name} with “{word}”, which is no choice of it"
    if question.type in ("choice", "choices") and not lists.options_of(question):
        yield f"{question.id} offers no choices"


def _units(question: Question, units: Mapping[str, str]) -> Iterator[str]:
    for name in question.names:
        unit = units.get(name, question.unit)
        if unit != question.unit:
            yield f"{name} is asked in [{question.unit}], but the core takes it in [{unit}]"


def _limits(
    question: Question, questionnaire: Questionnaire, units: Mapping[str, str]
) -> Iterator[str]:
    """Numbers in conditions whose unit is another kind than that of what they bound."""
    for condition in _conditions(question):
        for name, unit in condition.limits():
            core = units.get(name) or questionnaire.unit_of(name)
            if not _fits(unit, core):
                yield f"{question.id} holds {name} [{core}] against a number in [{unit}]"


def _fits(unit: str, core: str) -> bool:
    if "1" in (unit, core):
        return unit == core
    try:
        convert(1.0, unit, core)
    except (AttributeError, ValueError, TypeError):  # pint's complaints are of these kinds
        return False
    return True


def _guess(question: Question, lists: Lists, units: Mapping[str, str]) -> Iterator[str]:
    unsure = question.unsure
    if not (unsure.assume or unsure.leave):
        yield f"{question.id} doesn't say what “not sure” means"
    elif unsure.assume in units and units[unsure.assume] != question.unit:
        yield f"{question.id} assumes {unsure.assume}, which is in another unit"
    else:
        try:
            answer = understand(question, "not sure", lists, "elsewhere")
        except (NotUnderstood, ValueError) as problem:
            yield f"{question.id}: its own assumption can't be read ({problem})"
        else:
            if answer.value is None and unsure.assume and unsure.assume not in units:
                yield f"{question.id} assumes {unsure.assume}, which nobody knows"


def _use(question: Question, units: Mapping[str, str], judged: Collection[str]) -> Iterator[str]:
    needed = set(units) | set(judged)
    if not question.count_of and not needed & {question.id, *question.names}:
        yield f"{question.id} feeds no quantity and no check"
