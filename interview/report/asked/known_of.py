"""What can be said of a tank in an answer besides its quantities: what it takes, what waits."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, Any

from interview.advice.purchase.housing import SIDES
from interview.advice.purchase.in_shops import labelled
from interview.advice.purchase.larger_tank import grown_tank, needed_by, told_of
from interview.advice.purchase.planning import specify
from interview.advice.shopping import to_buy
from interview.base.templates import by_number, names_in
from interview.care.facts import limits
from interview.care.species import profile
from interview.report.first_page.page import first_page
from interview.report.first_page.sentences import enumerated
from interview.report.first_page.steps import steps_parted
from interview.report.naming import inside
from interview.vocabulary.phrases import fill, in_words

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.animal import Animal
    from interview.audit.audit import Audit
    from interview.audit.tank import Tank
    from interview.report.asked.topics import Shown

__all__ = ["OWN", "sentences_known", "shown_of"]

_OLDEST = "lifespan_record"
_ADULT = [f"carapace_length_{sex}" for sex in ("male", "female", "both")]
_NAMED = 6
_NO_DANGER = "Nothing in what I was told can't wait."
_FIRST = "First of all: {}"
_GOT_FIRST = "To get first: {}; “buy” lists all, by size."
_GOT = 3
_LATER = "“buy” lists what to get once all is judged, in order and by size."
_NOTHING = "Nothing on your list has to be bought."


def sentences_known(says: Sequence[str], audit: Audit) -> Iterator[str]:
    """Each sentence whose names are all known, once for all turtles of which it says the same."""
    tank = audit.tank
    whole = {name: found(audit) for name, found in _OF_THE_TANK.items()}
    for text in (by_number(text, tank.several) for text in says):
        each = tank.animals if _OF_A_KIND & {*names_in(text)} else (None,)
        alike: dict[str, list[Animal | None]] = {}
        for animal in each:
            if said := _filled(text, tank.only(animal), whole):
                alike.setdefault(said, []).append(animal)
        kinds = [animals[0].species for animals in alike.values() if animals[0]]
        for said, (first, *rest) in alike.items():
            apart = first and kinds.count(first.species) > 1
            which = _lengths([first, *rest], tank.system) if apart else ""
            yield (which and _filled(text, tank.only(first), whole, which)) or said


def _lengths(animals: Sequence[Animal | None], system: str) -> str:
    """By their lengths, which of several of a kind are meant."""
    told = [one.carapace_length for one in animals if one and one.carapace_length]
    return f" ({', '.join(in_words(length, 'm', system) for length in told)})" if told else ""


def _filled(text: str, tank: Tank, whole: dict[str, str | None], which: str = "") -> str | None:
    kinds = tank.best.known.get("species")
    kind = profile(str(kinds[0])) if kinds and kinds[0] else None
    own = {**whole, "kind": kind and f"{kind.name}{which}", "oldest": None, "longest": None}
    if kind and (oldest := kind.facts.get(_OLDEST)):
        own["oldest"] = in_words(oldest.high, "s", tank.system)
    if kind and tank.lookup("adult_carapace_length") is None:
        ranges = [fact.high for name, fact in kind.facts.items() if name in _ADULT]
        own["longest"] = in_words(max(ranges), "m", tank.system) if ranges else None

    def look(name: str) -> Any:
        return own[name] if name in own else tank.lookup(name)

    def unit_of(name: str) -> str:
        return limits()[name].unit if name in limits() else tank.unit_of(name)

    return fill(text, look, unit_of, tank.system)


def _tank_now(audit: Audit) -> str | None:
    """The least tank sold for the animals as they are."""
    length, count = (audit.tank.lookup(n) for n in ("largest_carapace_length", "animal_count"))
    return length and told_of(audit.tank, needed_by(float(length), float(count or 1)))


def _tank_grown(audit: Audit) -> str | None:
    """The tank for the animals once grown; of a planned one that of its list."""
    tank = audit.tank
    if tank.lookup("stage") == "planning" and (listed := specify(tank)) and listed.rows:
        if listed.impossible:
            return grown_tank(tank)
        return f"{labelled([listed.settings[side] for side in SIDES], tank.system)} or larger"
    return grown_tank(tank)


def _parted(audit: Audit) -> str | None:
    """Which tank is for whom, where animals must be parted."""
    return next((step.do for step in steps_parted(audit)), None)


_OF_THE_TANK: dict[str, Callable[[Audit], str | None]] = {
    "tank_now": _tank_now,
    "tank_grown": _tank_grown,
    "parted": _parted,
}
_OF_A_KIND = {"kind", "oldest", "longest"}
OWN = frozenset({*_OF_THE_TANK, *_OF_A_KIND})
"""Names that sentences of topics may hold besides answers, quantities and limits."""


def shown_of(what: Shown, audit: Audit, advice: Advice | None) -> Iterator[str]:
    """What can't wait, or what is to be got, in short."""
    if what != "buy":
        page = first_page(audit, advice)
        steps = page.today or (page.week[:1] if what == "today" else ())
        if steps:
            yield from (_FIRST.format(steps[0].text), *(step.text for step in steps[1:]))
        elif what == "today":
            yield _NO_DANGER
        if what == "first" and page.buy:
            yield _GOT_FIRST.format(enumerated(list(map(_thing, page.buy[:_GOT]))))
        if what == "today" or page.buy:
            return
    if advice is None:
        yield _LATER
        return
    rows = advice.specification.rows if advice.specification else to_buy(audit, advice.plans)
    names = list(dict.fromkeys(inside(row.what) for row in rows))
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    named = ", ".join(islice(names, _NAMED)) if more else enumerated(names)
    yield f"“buy” lists {named}{more}, each by size." if names else _NOTHING


def _thing(row: str) -> str:
    """What a row to buy is of, without its size."""
    return inside(row.partition(":")[0])
