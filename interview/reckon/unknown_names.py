"""What is said of a name that no sum gives."""

from __future__ import annotations

from collections.abc import Iterable

from interview import assembly
from interview.base.near_spelling import nearest
from interview.care.facts import assumptions
from interview.core.wiring import laws, quantities
from interview.words.text.refusal import either, together

__all__ = ["did_you_mean", "elsewhere", "not_computed"]


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """Names that hold the word, or the one spelt most like it, as a question; "" if none."""
    names = sorted(known)
    near = [item for item in names if name and name in item][:3]
    near = near or nearest(name, names, most=1)
    return f" Did you mean {either(f'“{item}”' for item in near)}?" if near else ""


def elsewhere(name: str) -> str:
    """Where a name that is no number of the tank is answered; "" if it is no name at all."""
    if name in laws():
        inputs = " ".join(f"{item.name}=…" for item in laws()[name].inputs if not item.optional)
        own = f"{name} is a single sum, not a number of one tank."
        return f"{own} Type: tankside reckon {name} {inputs}"
    question = assembly.questionnaire().by_id.get(name)
    if question is None:
        return ""
    if question.parts:
        return f"{name} is made up of {together(question.parts)}; ask for one of them."
    return f"{name} (“{question.short}”) is an answer, and this tank has none; nothing is derived."


def not_computed(name: str) -> str:
    """What a name is that goes into sums and comes out of none; "" if it is no name at all."""
    question = assembly.questionnaire().by_id.get(name)
    parts = (question and question.parts) or (name,)
    formulas = (*quantities().formulas.values(), *laws().values())
    users = (f for f in formulas if any(item.name in parts for item in f.inputs))
    user = next(users, None)
    if question is None and user is None:
        return ""
    what = "an assumption" if name in assumptions() else "an input of other sums"
    if assembly.questionnaire().giver.get(name) or question:
        what = f"an answer (“{assembly.label_of(name)}”), which the keeper measures or tells"
    if user is None:
        return f"{name} is {what}; nothing computes it, and no sum takes it."
    others = {i.name for i in user.inputs if not i.optional} - {*parts, *assumptions()}
    typed = " ".join(f"{item}=…" for item in (name, *sorted(others)))
    return (
        f"{name} is {what}; nothing computes it. Type it as an input: "
        f"tankside reckon {user.name} {typed}"
    )
