"""What a derivation shows as the formula is what the function computes."""

from __future__ import annotations

import re
from typing import Any

import numpy as np
import pytest
from every import every

from interview.core.formula import Formula
from interview.core.wiring import laws, quantities
from interview.report.derivations.expression import expression, opened

EVERY = {**quantities().formulas, **laws()}
READ = {name: f for name, f in EVERY.items() if expression(f) and not f.written}
_PLAIN = re.compile(r" if |larger of|smaller of|sum of|smallest of|largest of|held|known|radians")
_SIGNS = {"·": "*", "−": "-", "²": "**2", "³": "**3", "⁴": "**4", "^": "**", "π": "pi"}
_NAMED = {"√": "np.sqrt", "∛": "np.cbrt", "ln(": "np.log(", "log2(": "np.log2(", "exp(": "np.exp("}
SUMS = {
    name: formula
    for name, formula in READ.items()
    if not _PLAIN.search(expression(formula))
    and all(item.unit != "choice" for item in formula.inputs)
}


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("water_depth", "water_level − substrate_depth"),
        ("inside_length", "tank_length − 2 · pane_thickness"),
        ("raft_sinkage", "mass / (997 · platform_area)"),
        ("intake_capture_radius", "√(flow / (2 · π · sinking_speed))"),
        ("plate_nusselt_up_turbulent", "0.15 · ∛(rayleigh)"),
        ("pane_thickness", "wall_thickness, or where that is unknown typical_wall_thickness"),
        ("platform_area", "0 if platform_kind is none, else platform_length · platform_width"),
        (
            "swim_area",
            "surface − platform_length · platform_width if platform_kind is pile, else surface, "
            "where surface = inside_length · inside_width",
        ),
        (
            "heater_margin",
            "(installed_heater_power / loss if loss > 0, else ∞), where loss = heat_loss",
        ),
        (
            "patch_temperature",
            "the T at which patch_heat_loss(T, room_temperature) = absorbed_flux",
        ),
    ],
)
def test_formulas_read_as_people_write_them(name: str, said: str) -> None:
    assert expression(EVERY[name]) == said


@every("name", EVERY)
def test_every_number_has_a_formula_to_show(name: str) -> None:
    formula = EVERY[name]
    assert formula.unit == "yes/no" or expression(formula)


@every("name", READ)
def test_no_needed_input_is_left_out(name: str) -> None:
    needed = [i.name for i in READ[name].inputs if not i.optional and i.unit != "choice"]
    words = re.findall(r"[A-Za-z_0-9]+", expression(READ[name]))
    # the upward plate's laws do without the Prandtl number they are called with
    unused = {"prandtl"} if name == "plate_nusselt_up" else set()
    assert set(needed) - set(words) == unused


def _amount(name: str, formula: Formula) -> float:
    item = next(i for i in formula.inputs if i.name == name)
    low, high = max(item.low, 0.05), min(item.high, 40.0)
    return float(low + 0.37 * (high - low))


def _evaluated(text: str, names: dict[str, Any]) -> float:
    """The shown text, worked out as it stands: brackets, signs and powers included."""
    for sign, code in {**_SIGNS, **_NAMED}.items():
        text = text.replace(sign, code)
    whole, _, wheres = text.partition(", where ")
    known = {"np": np, "pi": np.pi, **{n: f.function for n, f in EVERY.items()}, **names}
    for part in filter(None, wheres.split("; ")):
        name, _, value = part.partition(" = ")
        known[name] = eval(value, known)
    return float(eval(whole, known))


@every("name", SUMS)
def test_the_shown_sum_gives_the_computed_number(name: str) -> None:
    formula = SUMS[name]
    given = {item.name: _amount(item.name, formula) for item in formula.inputs}
    with np.errstate(all="ignore"):
        computed = float(np.ravel(formula.function(**given))[0])
        assert _evaluated(expression(formula), given) == pytest.approx(computed, nan_ok=True)


def test_enough_sums_are_worked_out_again() -> None:
    assert len(SUMS) > 70


def test_the_single_sums_that_a_formula_calls_are_opened_down_to_the_last() -> None:
    sums = dict(opened(EVERY["shell_temperature"]))
    names = [head.partition("(")[0] for head in sums]
    assert names[0] == "patch_temperature" and "air_conductivity" in names
    assert len(names) == len(set(names))
    (kelvin,) = (text for head, text in sums.items() if head.startswith("air_conductivity("))
    assert "0.02624" in kelvin
    assert opened(EVERY["water_depth"]) == ()


@every("name", sorted(EVERY))
def test_no_call_in_a_formula_stays_closed(name: str) -> None:
    """What a formula calls is a function everybody knows, a number of the tank, or opened."""
    sums = opened(EVERY[name])
    heads = {head.partition("(")[0] for head, _ in sums}
    for text in (expression(EVERY[name]), *(text for _, text in sums)):
        called = set(re.findall(r"\b([a-z]\w+)\(", text)) & set(laws())
        assert called <= heads | {name} | {n for n in laws() if not expression(laws()[n])}
