"""What the changes should have done: a tank worked out ahead, held against what is measured."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from interview.chat.hearing.changes import number_at, spoken
from interview.graph.interview import Interview, Place
from interview.vocabulary.phrases import in_words, rounded
from interview.words.amounts.reading import Reading

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.tank import Tank

__all__ = ["AGES", "Prediction"]

AGES = ("filter_age", "uvb_lamp_age")
"""What grows older by itself; nobody measures it."""

_DAY = datetime.timedelta(days=1)
_READ_AFTERWARDS = ("basking_temperature", "uvb_reading")
"""What is measured after a change: a reading, never part of the change."""
_PEAK = "nitrate_peak"
_OLD_KIT = (
    "Your nitrate reading is from before the change. By it nitrate should reach {new} between "
    "changes now, {old} before: test again in two weeks."
)
_FOOD = ("feed_mass", "feeds_per_week")
_SAME_FOOD = (
    "{turtles} turtles now share the food of {before}: each gets less. If you do feed more, "
    "“change food each feeding” after the audit tells me."
)


@dataclass
class Prediction:
    """The tank as the changes and the time should have left it.

    Args:
        interview: the answers as they become
        before: the audit before the changes
        earlier: what was known then
    """

    interview: Interview
    before: Audit
    earlier: dict[str, Any]
    aged: dict[str, float] = field(default_factory=dict)
    """What grew older by itself, at its expected value now."""
    _tank: Tank | None = None

    def let_pass(self, time: datetime.timedelta) -> None:
        """Age the filter, and the lamp by its lit hours."""
        lit = float(self.before.tank.lookup("day_length")) / _DAY.total_seconds()
        for name, share in (("filter_age", 1.0), ("uvb_lamp_age", lit)):
            if Place(name) in self.interview.answers and name in self.earlier:
                self.aged[name] = self.earlier[name] + share * time.total_seconds()

    def work_out(self) -> None:
        """Work the tank out anew, from all that was changed so far."""
        from interview.advice.what_if.suppose import changed

        self._tank = changed(self.before.tank, {**self.aged, **self._fresh()})

    def now(self, place: Place) -> float | None:
        """An answer's value with all that moved along; None where it is no number."""
        from interview.advice.what_if.coupling import coupled

        known = self.interview.known()
        return number_at({**known, **coupled(self.earlier, self._fresh())}, place)

    def _fresh(self) -> dict[str, Any]:
        """What is known now and was not so before, readings aside."""
        return {
            name: value
            for name, value in self.interview.known().items()
            if name not in _READ_AFTERWARDS
            and value != self.earlier.get(name)
            and not isinstance(value, tuple)
        }

    def expected(self, place: Place) -> str | None:
        """What a measurement should read now, in words; None where it didn't move."""
        from interview.advice.what_if.comparison import expected_answer

        if self._tank is None or place.animal is not None:
            return None
        value = expected_answer(self.before.tank, self._tank, place.id)
        if value is None or value == self.earlier.get(place.id):
            return None
        return spoken(self.interview, place, value)

    def of_old_kit(self) -> str:
        """A sentence where nitrate will come up to another level than the kit could read; or "".

        The kit says nothing of the water after the changes, unless it was tested anew.
        """
        was, now = self.before.tank, self._tank
        if now is None or "nitrate" in self._fresh() or was.lookup("nitrate") is None:
            return ""
        peaks = [tank.lookup(_PEAK) for tank in (was, now)]
        if None in peaks:
            return ""
        old, new = (rounded(peak, was.unit_of(_PEAK), was.system, _PEAK) for peak in peaks)
        return "" if old == new else _OLD_KIT.format(old=old, new=new)

    def of_food(self) -> str:
        """A sentence where more turtles share the food of before; or ""."""
        now, before = self.interview.known(), self.earlier.get("animal_count")
        turtles = self.interview.animal_count
        same = all(name in self.earlier and now.get(name) == self.earlier[name] for name in _FOOD)
        if before is None or turtles <= before or not same:
            return ""
        return _SAME_FOOD.format(turtles=turtles, before=round(before))

    def surprises(self, place: Place) -> Iterator[str]:
        """A sentence where the reading at a place does not fit the prediction."""
        from interview.advice.what_if.comparison import surprises

        answer = self.interview.answers.get(place)
        if self._tank is None or place.animal is not None:
            return
        if place.id in self.aged or place.id == "uvb_reading":
            return
        if not answer or not isinstance(answer.value, Reading) or answer.how == "assumed":
            return  # nothing was measured
        for surprise in surprises(self._tank, {place.id: answer.value.best}):
            read = in_words(surprise.read, surprise.unit, self.interview.system, place.id)
            expected = in_words(surprise.predicted, surprise.unit, self.interview.system, place.id)
            yield (
                f"{read} is not what I expected ({expected}). Was it measured at the same place, "
                "an hour after the lamp came on? “change” mends it."
            )
