"""The wiring: data sheets, clashes, cycles, what is missing, what is kept; and its helpers."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from interview.core import wiring
from interview.core.derivation import derive, derive_law
from interview.core.errors import BeyondFormula, CannotWorkOut, Missing, NotApplicable, OutOfRange
from interview.core.numeric import each_animal, largest, solve_rising
from interview.core.sheet_lines import Citation, Input
from interview.core.sheets import WiringError, read_formula
from interview.core.wiring import Wiring
from interview.vocabulary.entries import Entry
from interview.vocabulary.vocabulary import vocabulary


def area(length: float, width: float = 2.0) -> float:
    """Area of a rectangle, by
    its sides [m**2].

    Args:
        length [m, -1.5e0 to 10]

    Source: geometry, a place [computed]
    Source: physics [published].
    """
    return length * width


def volume(area: float, height: float) -> float:
    """Volume of a box [m**3].

    Source: geometry, arithmetic [computed]
    """
    return area * height


def kept(volume: float | None = None, name: str = "") -> float:
    """What is kept [m**3].

    Args:
        name: of whoever
            keeps it now

    Source: geometry, arithmetic [computed]
    """
    if name == "nobody":
        raise NotApplicable("nobody keeps it")
    if volume is None:
        raise Missing("volume", "name", "volume")
    return volume


ENTRIES = {
    entry.key: entry
    for entry in (
        Entry(key="length", unit="m", meaning="the long side", range="-2 to 20"),
        Entry(key="width", unit="m", meaning="the short side"),
        Entry(key="height", unit="m", meaning="of its walls", range="0 to 5"),
        Entry(key="area", unit="m**2", meaning="of its floor"),
        Entry(key="volume", unit="m**3", meaning="of a box"),
        Entry(key="name", unit="choice", meaning="of whoever keeps it"),
        Entry(key="kept", unit="m**3"),
        Entry(key="closed", unit="m", meaning="what is open of it"),
        Entry(key="around", unit="m"),
        Entry(key="other", unit="m"),
        Entry(key="twice", unit="m**2"),
    )
}


def _wired(*functions: Callable[..., Any]) -> Wiring:
    return Wiring({f.__name__: read_formula(f, ENTRIES) for f in functions}, ENTRIES)


BOX = _wired(area, volume, kept)


# ---- the data sheet


def test_a_data_sheet_is_read_whole() -> None:
    sheet = read_formula(area, ENTRIES)
    assert (sheet.name, sheet.unit) == ("area", "m**2")
    assert sheet.meaning == "Area of a rectangle, by its sides"
    assert sheet.inputs == (
        Input("length", "m", "the long side", False, -1.5, 10.0),
        Input("width", "m", "the short side", True, -np.inf, np.inf),
    )
    assert sheet.sources == (
        Citation("geometry", "a place", "computed"),
        Citation("physics", "", "published"),
    )
    assert sheet({"length": 3.0}) == 6.0
    assert sheet({"length": 3.0, "width": 5.0}) == 15.0
    with pytest.raises(OutOfRange):
        sheet({"length": 11.0})


def _documented(text: str, *, parameter: bool = True) -> Callable[..., Any]:
    def bare() -> None: ...
    def one(x: float) -> float:
        return x

    function = one if parameter else bare
    function.__doc__ = text
    return function


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("No unit.\n\nSource: geometry [computed]", "one: the docstring's first sentence must end"),
        ("A thing [m].\n\nArgs:\n    x [m]: it", "one: no Source line"),
        (
            "A thing [m].\n\nArgs:\n    y: not\n\nSource: geometry [computed]",
            "one: the docstring describes y, not a parameter",
        ),
        (
            "A thing [m].\n\nArgs:\n    of x, as it is\n\nSource: geometry [computed]",
            r"one: “of x, as it is” is not “name \[low to high\]: meaning”",
        ),
        (
            "A thing [m].\n\nArgs:\n    x [kg]: it\n\nSource: geometry [computed]",
            r"one takes x in \[kg\], the vocabulary has \[m\]",
        ),
        (
            "A thing [m].\n\nArgs:\n    x [m, 0 to 3]: it\n\nSource: geometry [computed]",
            "one takes x from 0 to 3, and the vocabulary has it only from 0 to 2",
        ),
    ],
)
def test_a_poor_data_sheet_is_refused(text: str, words: str) -> None:
    with pytest.raises(WiringError, match=words):
        read_formula(
            _documented(text), {"x": Entry(key="x", unit="m", meaning="it", range="0 to 2")}
        )


def test_what_a_sheet_leaves_out_stands_in_the_vocabulary() -> None:
    name = read_formula(kept, ENTRIES).inputs[1]
    assert (name.unit, name.meaning) == ("choice", "of whoever keeps it now")
    assert read_formula(volume, ENTRIES).inputs == (
        Input("area", "m**2", "of its floor", False, -np.inf, np.inf),
        Input("height", "m", "of its walls", False, 0.0, 5.0),
    )


def test_a_name_without_an_entry_is_refused() -> None:
    with pytest.raises(WiringError, match="area: length stands in no file of the vocabulary"):
        read_formula(area, {"width": ENTRIES["width"]})
    fewer = {name: entry for name, entry in ENTRIES.items() if name != "area"}
    with pytest.raises(WiringError, match=r"^area stands in no file of the vocabulary"):
        Wiring({"area": read_formula(area, ENTRIES)}, fewer)


def test_a_function_without_a_word_is_refused() -> None:
    with pytest.raises(WiringError, match="bare: the docstring"):
        read_formula(_documented("", parameter=False))


# ---- the whole


def test_the_shipped_wiring_hangs_together() -> None:
    whole = wiring.quantities()
    assert whole is wiring.quantities()
    assert len(whole.formulas) > 150
    assert len(wiring.laws()) > 90
    assert "tank_length" in whole.leaves
    assert "water_volume" not in whole.leaves
    assert {"tank_length", "inside_length", "wall_thickness"} <= whole.upstream("water_volume")
    assert whole.upstream("tank_length") == frozenset()
    assert whole.range_of("water_temperature")[0] >= -5


def test_leaves_ranges_and_units_follow_from_the_sheets() -> None:
    assert BOX.leaves == {"length", "width", "height", "name"}
    assert BOX.units["length"] == "m"
    assert BOX.units["volume"] == "m**3"
    assert BOX.range_of("length") == (-2.0, 20.0)
    assert BOX.range_of("nothing") == (-np.inf, np.inf)
    assert BOX.upstream("kept") == {"volume", "name", "area", "height", "length", "width"}
    assert BOX.upstream("length") == frozenset()


def test_a_narrower_formula_narrows_itself_alone() -> None:
    """The range in which all hold would let one formula's range move every other's numbers."""

    def other(length: float) -> float:
        """Another [m].

        Args:
            length [m, 0 to 3]

        Source: geometry, arithmetic [computed]
        """
        return length

    both = _wired(area, other)
    assert both.range_of("length") == BOX.range_of("length") == (-2.0, 20.0)
    tank = both.working({"length": 4.0})
    assert tank.value("area") == 8.0
    with pytest.raises(BeyondFormula, match="length is 4 m, but the formula holds only from 0"):
        tank.value("other")


def test_a_result_in_another_unit_than_its_name_is_refused() -> None:
    entries = {**ENTRIES, "area": Entry(key="area", unit="m", meaning="of its floor")}
    with pytest.raises(WiringError, match=r"area comes out in \[m\*\*2\], the vocab.* \[m\]"):
        Wiring({"area": read_formula(area, entries)}, entries)


def test_a_circle_is_refused_with_its_way() -> None:
    def length(volume: float) -> float:
        """Back from the volume [m].

        Source: geometry, arithmetic [computed]
        """
        return volume

    with pytest.raises(WiringError, match="cycle: area → length → volume → area"):
        _wired(area, volume, length)


def test_a_name_is_defined_once(monkeypatch: pytest.MonkeyPatch) -> None:
    from interview.core.animal import feeding
    from interview.core.structure import enclosure

    monkeypatch.setattr(feeding, "water_volume", area, raising=False)
    monkeypatch.setattr(feeding, "QUANTITIES", ["water_volume"])
    monkeypatch.setattr(enclosure, "QUANTITIES", ["water_volume"])
    with pytest.raises(WiringError, match="water_volume is defined twice"):
        wiring.formulas_in("interview.core", "QUANTITIES", {**vocabulary(), **ENTRIES})


def test_a_dear_name_is_one_of_its_module(monkeypatch: pytest.MonkeyPatch) -> None:
    from interview.core.heat import hot_room

    monkeypatch.setattr(hot_room, "DEAR", ("hot_room_watr",))
    with pytest.raises(WiringError, match="hot_room names no QUANTITIES: hot_room_watr"):
        wiring.formulas_in("interview.core", "QUANTITIES", vocabulary())


# ---- one tank


def test_values_are_worked_out_once_and_pinned_ones_never() -> None:
    tank = BOX.working({"length": 3.0, "height": 2.0, "width": None})
    assert tank.value("volume") == 12.0
    assert tank.get("kept") == 12.0
    assert tank.get("area") == 6.0
    assert tank.why_not("area") is None
    pinned = BOX.working({"area": 1.0, "height": 2.0})
    assert pinned.value("volume") == 2.0
    assert tank.unit_of("volume") == "m**3"
    assert tank.unit_of("nothing") == "1"


def test_what_is_missing_is_all_named() -> None:
    tank = BOX.working({})
    with pytest.raises(Missing) as caught:
        tank.value("volume")
    assert caught.value.names == ("length", "height")
    assert str(caught.value) == "not known: length, height"
    assert tank.why_not("volume") is tank.why_not("volume")
    assert tank.get("volume") is None
    reason = tank.why_not("kept")
    assert isinstance(reason, Missing)
    assert reason.names == ("volume", "name")


def test_reasons_other_than_missing_come_through() -> None:
    far = BOX.working({"length": 99.0, "height": 2.0})
    with pytest.raises(OutOfRange, match="length is 99 m"):
        far.value("volume")
    none = BOX.working({"name": "nobody", "length": 1.0, "height": 1.0})
    with pytest.raises(NotApplicable, match="nobody keeps it"):
        none.value("kept")
    assert NotApplicable("so").reason == "so"
    assert isinstance(none.why_not("kept"), CannotWorkOut)


def test_an_optional_input_may_lack() -> None:
    assert BOX.working({"length": 1.0}).value("area") == 2.0
    assert BOX.working({"length": 1.0, "width": 3.0}).value("area") == 3.0


def closed(length: float) -> float:
    """Length of what is open [m].

    Source: geometry, arithmetic [computed]
    """
    if length <= 0:
        raise BeyondFormula("nothing is open")
    return length


def around(length: float, closed: float | None = None) -> float:
    """Length around what is open, or else the whole [m].

    Source: geometry, arithmetic [computed]
    """
    return length if closed is None else closed


def test_an_optional_input_beyond_its_formula_is_not_passed_over() -> None:
    """Without it the sum would work with something else than what was told."""
    ways = _wired(closed, around)
    assert ways.working({"length": 2.0}).value("around") == 2.0
    with pytest.raises(BeyondFormula, match="nothing is open"):
        ways.working({"length": 0.0}).value("around")


# ---- ranges


@pytest.mark.parametrize("value", [0.0, 2.0, np.array([0.0, 1.0, 2.0]), "word", True, ("a", "b")])
def test_inside_a_range_nothing_is_said(value: Any) -> None:
    Input("x", "m", "it", False, 0.0, 2.0).check(value)


def test_outside_a_range_the_first_bad_value_is_named() -> None:
    item = Input("x", "m", "it", False, 0.0, 2.0)
    with pytest.raises(OutOfRange) as caught:
        item.check(np.array([[1.0, 2.5], [-1.0, 1.0]]))
    problem = caught.value
    assert (problem.name, problem.value, problem.low, problem.high, problem.unit) == (
        *("x", 2.5, 0.0, 2.0, "m"),
    )
    assert str(problem) == "x is 2.5 m, but the formula holds only from 0 to 2 m"
    with pytest.raises(OutOfRange, match="x is -1 m"):
        item.check(-1.0)
    plain = Input("x", "1", "it", False, 0.0, 2.0)
    with pytest.raises(OutOfRange, match=r"x is 3, but the formula holds only from 0 to 2$"):
        plain.check(3.0)


def test_half_open_and_endless_ranges() -> None:
    Input("x", "m", "it").check(1e300)
    with pytest.raises(OutOfRange):
        Input("x", "m", "it", False, 0.0).check(-1.0)
    with pytest.raises(OutOfRange):
        Input("x", "m", "it", False, -np.inf, 1.0).check(2.0)


# ---- how a number came about


def test_a_derivation_is_the_tree_of_what_was_used() -> None:
    tank = BOX.working({"length": 3.0, "height": 2.0})
    step = derive(tank, "volume")
    assert (step.name, step.value, step.unit) == ("volume", 12.0, "m**3")
    assert [item.name for item in step.inputs] == ["area", "height"]
    below = step.inputs[0]
    assert [item.name for item in below.inputs] == ["length"]
    assert below.sources[0].key == "geometry"
    assert below.inputs[0].sources == ()
    assert [item.name for item in step.steps] == ["volume", "area", "length", "height"]
    assert step.ranges == {"height": ("m", 0.0, 5.0), "length": ("m", -1.5, 10.0)}


def test_a_number_met_again_is_not_worked_out_again() -> None:
    def twice(area: float, volume: float, length: float) -> float:
        """Both of them [m**2].

        Args:
            length [m, 1 to 9]

        Source: geometry, arithmetic [computed]
        """
        return area + volume + length

    whole = _wired(area, volume, twice)
    step = derive(whole.working({"length": 3.0, "height": 2.0}), "twice")
    first, box, _ = step.inputs
    assert not first.shown_before
    again = box.inputs[0]
    assert again.shown_before
    assert again.inputs == ()
    assert again.formula is first.formula is not None
    assert again.value == 6.0
    assert step.ranges["length"] == ("m", 1.0, 9.0)


def test_a_known_name_is_a_leaf() -> None:
    step = derive(BOX.working({"area": 1.0, "height": 2.0}), "volume")
    assert step.inputs[0].formula is None
    assert derive(BOX.working({"height": 2.0}), "height").inputs == ()


def test_a_single_sum_shows_the_usual_values_it_used() -> None:
    step = derive_law(read_formula(area, ENTRIES), {"length": 3.0})
    assert step.value == 6.0
    assert [(i.name, i.value, i.unit, i.usual) for i in step.inputs] == [
        *(("length", 3.0, "m", False), ("width", 2.0, "m", True)),
    ]
    given = derive_law(read_formula(area, ENTRIES), {"length": 3.0, "width": 1.0})
    assert [i.usual for i in given.inputs] == [False, False]
    nothing = derive_law(read_formula(kept, ENTRIES), {"volume": 1.0})
    assert [i.name for i in nothing.inputs] == ["volume", "name"]


# ---- helpers


def test_animals_lie_on_the_last_axis() -> None:
    assert each_animal(2.0).shape == (1,)
    assert each_animal(np.array([1.0, 2.0])).shape == (2, 1)
    assert largest(3.0) == 3.0
    assert largest(np.array([1.0, 4.0, 2.0])) == 4.0
    assert list(largest(np.array([[1.0, 4.0], [3.0, 2.0]]))) == [4.0, 3.0]


def test_rising_functions_are_solved_element_by_element() -> None:
    squares = np.array([4.0, 9.0, 2.0])
    roots = solve_rising(lambda x: x**2 - squares, 0.0, 10.0)
    assert roots == pytest.approx([2.0, 3.0, 2**0.5], abs=1e-10)
    # without a crossing, the nearer end
    assert solve_rising(lambda x: x + 1.0, 0.0, 10.0) == pytest.approx(0.0, abs=1e-12)
    assert solve_rising(lambda x: x - 99.0, 0.0, 10.0) == pytest.approx(10.0, abs=1e-12)
    assert solve_rising(lambda x: x - 3.0, 2.0, 4.0, steps=1) == pytest.approx(3.0)
    step = solve_rising(lambda x: np.where(x < 1.0, -1.0, 5.0), 0.0, 10.0)
    assert step == pytest.approx(1.0, abs=1e-8)
    calls: list[int] = []

    def steep(x: Any) -> Any:
        calls.append(1)
        return np.expm1(x) - np.array([1.0, 20.0, 1e3, -5.0])

    assert solve_rising(steep, -3.0, 8.0)[:3] == pytest.approx(np.log1p([1.0, 20.0, 1e3]))
    assert len(calls) < 30, "bisection would take as many for half the digits"
    brackets = solve_rising(lambda x: x - 1.0, np.zeros((2, 1)), np.array([3.0, 4.0]))
    assert brackets.shape == (2, 2)
    cliff = solve_rising(lambda x: np.where(x < 1.0, -1e-30, 1e300), 0.0, 10.0)
    assert cliff == pytest.approx(1.0, abs=1e-8), "shares too small for a number are halved"
    rows = np.array([[1.0], [2.0]])
    assert solve_rising(lambda x: x - rows, np.zeros(3), 5.0).tolist() == [[1.0] * 3, [2.0] * 3]
    assert solve_rising(lambda x: x - 2.0, 0, 5) == pytest.approx(2.0), "whole numbers as ends"


@pytest.mark.parametrize(
    ("function", "low", "high", "root", "most"),
    [
        (lambda x: x**2 - 2.0, 0.0, 10.0, 2**0.5, 13),
        (lambda x: x**9 - 2.0, 0.0, 3.0, 2 ** (1 / 9), 26),
        (lambda x: np.exp(5.0 * x) - 3.0, -3.0, 2.0, np.log(3.0) / 5.0, 28),
        (lambda x: np.arctan(x - 0.3), -20.0, 30.0, 0.3, 12),
        (lambda x: 0.01 - np.exp(-3.0 * x), -1.0, 6.0, np.log(100.0) / 3.0, 26),
        (lambda x: x - 3.0, 2.0, 4.0, 3.0, 4),
        (lambda x: 2.0 * x - 1.0, -1e3, 1e3, 0.5, 4),
    ],
)
def test_a_root_takes_few_looks(
    function: Callable[[Any], Any], low: float, high: float, root: float, most: int
) -> None:
    """As many as the Illinois rule was seen to take: an end that stays must lose weight."""
    looks: list[float] = []

    def seen(x: Any) -> Any:
        looks.append(x)
        return function(x)

    found = solve_rising(seen, low, high)
    assert found == pytest.approx(root, abs=1e-9 * (high - low))
    assert len(looks) <= most
    assert all(np.all((low <= x) & (x <= high)) for x in looks)


def test_missing_names_are_joined_without_repeats() -> None:
    joined = Missing.union([Missing("a", "b"), Missing("b", "c")])
    assert joined.names == ("a", "b", "c")


def test_a_tank_as_it_concerns_one_animal() -> None:
    """Its own length and kind; what does not rest on the animals is worked out once for all."""
    known = {
        "species": ("sternotherus_odoratus", "chrysemys_picta", "chrysemys_picta"),
        "carapace_length": np.array([0.10, 0.14, 0.16]),
        "sex": ("female", "male", "female"),
        "shell_height_factor": 1.0,
        "inside_length": 1.0,
        "inside_width": 0.4,
        "water_depth": 0.3,
    }
    whole = wiring.quantities().working(known)
    second = whole.of_animal(1)
    assert second.known["species"] == ("chrysemys_picta",)
    assert second.known["carapace_length"].tolist() == [0.14]
    assert second.known["inside_length"] == 1.0
    assert second.of_animal(0).known["carapace_length"].tolist() == [0.14]
    assert whole.of_animal(1) is second and whole.of_animal(0) is not second
    alone = wiring.quantities().working(dict(second.known))
    assert float(second.value("shell_height")) == float(alone.value("shell_height"))
    assert float(second.value("shell_height")) != float(whole.of_animal(0).value("shell_height"))
    assert second.value("swim_area") is whole.value("swim_area")
    cloud = wiring.quantities().working(
        {**known, "carapace_length": np.ones((5, 3)) * [0.1, 0.2, 0.3]}
    )
    assert cloud.of_animal(1).known["carapace_length"].tolist() == [[0.2]] * 5


def test_a_reason_does_not_keep_the_ways_it_was_told() -> None:
    """Each way would hold its frames, and those their draws: audits grew by hundreds of MB."""
    working = BOX.working({})
    for _ in range(20):
        with pytest.raises(Missing):
            working.value("volume")
    reason = working.why_not("volume")
    assert reason is not None
    assert reason.__traceback__ is None
