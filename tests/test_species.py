"""The species file: complete, sourced, and honest about what is loose or unknown."""

from __future__ import annotations

import inspect
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
import yaml

from interview.base.rows.lines import FileError, read
from interview.care import species as care
from interview.care.facts import limits
from interview.core import wiring
from interview.core.animal import body as laws

CARE = Path(care.__file__).parent
YEAR = 365.25 * 86400.0
NO_SOURCE = {"common_practice": "practice", "recalled": "memory", "analogy": "assumption"}


def _numbers(node: Any, where: str = "") -> list[tuple[str, dict[str, Any]]]:
    if isinstance(node, list):
        return [n for i, item in enumerate(node) for n in _numbers(item, f"{where}[{i}]")]
    if not isinstance(node, dict):
        return []
    here = [(where, node)] if {"value", "low", "values"} & node.keys() else []
    return here + [n for key, item in node.items() for n in _numbers(item, f"{where}.{key}")]


ALL = _numbers(yaml.safe_load((CARE / "species.yaml").read_text(encoding="utf-8")))


def test_there_are_twenty_species_and_every_number_is_sourced() -> None:
    assert len(care.species_ids()) == 20
    assert len(ALL) > 500
    for where, node in ALL:
        assert node.get("status") and node.get("source"), where
        word = isinstance(node.get("value"), str | bool)
        assert word or node.get("unit"), where


@pytest.mark.parametrize("source", sorted(NO_SOURCE))
def test_a_source_that_is_none_says_so_in_its_status(source: str) -> None:
    found = {node["status"] for _, node in ALL if node["source"] == source}
    assert found == {NO_SOURCE[source]}


@pytest.mark.parametrize("species", care.species_ids())
def test_profile_hangs_together(species: str) -> None:
    item = care.profile(species)
    young = item.facts["carapace_length_hatchling"]
    for sex in ("female", "male", "unknown"):
        adult = item.adult_carapace_length(sex)
        assert 0.015 < young.low <= young.high <= 0.04 < adult.low < adult.high < 0.5
    for side in ("width", "height"):
        assert 0.15 < item.shell_ratio(side, "unknown").low < 0.95
    for key in ("water_temperature_adult", "water_temperature_hatchling"):
        assert item.facts["water_too_cold"].low <= item.facts[key].low < item.facts[key].high < 33
    assert item.facts["uv_zone"].low <= item.facts["default_uv_zone"].low
    assert item.facts["default_uv_zone"].low <= item.facts["uv_zone"].high
    for curve in item.growth:
        assert curve.start < young.high * 1.8 < curve.asymptote  # fits start from some months
        assert 0.02 < curve.rate * YEAR < 1


def test_hatchlings_are_kept_warmer_than_adults() -> None:
    for species in care.species_ids():
        facts = care.profile(species).facts
        warmer = (
            facts["water_temperature_hatchling"].middle - facts["water_temperature_adult"].middle
        )
        assert 0.5 <= warmer <= 3, species  # common practice, no source: 1 to 3 K


def test_plastron_lengths_become_carapace_lengths() -> None:
    # Frazer, Gibbons and Greene 1990: plastron asymptote 21.26 cm; Webb 1961: 0.92
    curve = care.profile("trachemys_scripta_elegans").growth_curve("female")
    assert curve is not None
    assert curve.asymptote == pytest.approx(0.2126 / 0.92)
    # Ernst 1986 measured carapaces: left as they are
    musk = care.profile("sternotherus_odoratus").growth_curve("male")
    assert musk is not None and musk.sex == "both"
    assert musk.asymptote == pytest.approx(0.104)


def test_unknown_sex_counts_as_female() -> None:
    item = care.profile("malaclemys_terrapin")
    assert item.adult_carapace_length("unknown") == item.adult_carapace_length("female")
    assert item.growth_curve("unknown") == item.growth_curve("female")
    assert item.growth_curve("male") != item.growth_curve("female")


def test_a_missing_curve_is_not_borrowed() -> None:
    assert care.profile("graptemys_ouachitensis").growth_curve("male") is None
    without = {s for s in care.species_ids() if care.profile(s).growth_curve("unknown") is None}
    assert without == {
        "graptemys_pseudogeographica",
        "sternotherus_carinatus",
        "kinosternon_baurii",
        "mauremys_reevesii",
        "emys_orbicularis",
        "pelomedusa_subrufa",
        "pelusios_castaneus",
        "emydura_subglobosa",
        "chelodina_longicollis",
    }


def test_a_medium_basking_turtle_is_four_to_six_inches() -> None:
    # common practice, no source; the male painted turtle is the type
    male = care.profile("chrysemys_picta").adult_carapace_length("male")
    assert male.low < 4 * 0.0254 < 6 * 0.0254 < male.high * 1.02


def test_sale_limit_is_four_inches() -> None:
    assert limits()["us_sale_length"].value == pytest.approx(4 * 0.0254)  # 21 CFR 1240.62


@pytest.mark.parametrize(
    ("typed", "species"),
    [
        ("Red-Eared Slider", "trachemys_scripta_elegans"),
        ("red eared slider", "trachemys_scripta_elegans"),
        ("YELLOW-BELLIED SLIDER", "trachemys_scripta_scripta"),
        ("Trachemys scripta elegans", "trachemys_scripta_elegans"),
        ("sternotherus_odoratus", "sternotherus_odoratus"),
        ("common musk turtle", "sternotherus_odoratus"),
        ("stinkpot", "sternotherus_odoratus"),
        ("Reeves’ turtle", "mauremys_reevesii"),
        ("Reeves' turtle", "mauremys_reevesii"),
        ("Mississippi map turtle", "graptemys_pseudogeographica"),
        ("European pond turtle", "emys_orbicularis"),
        ("eastern snake-necked turtle", "chelodina_longicollis"),
    ],
)
def test_a_name_a_keeper_types(typed: str, species: str) -> None:
    name = care.plain_name(typed)
    assert care.species_names()[name] == species
    assert name not in care.loose_names()


@pytest.mark.parametrize(
    ("typed", "species"),
    [
        ("slider", "trachemys_scripta_elegans"),
        ("map turtle", "graptemys_pseudogeographica"),
        ("musk turtle", "sternotherus_odoratus"),
        ("mud turtle", "kinosternon_subrubrum"),
        ("cooter", "pseudemys_concinna"),
        ("softshell", "apalone_spinifera"),
        ("pond turtle", "emys_orbicularis"),
    ],
)
def test_a_loose_name_is_marked_as_assumed(typed: str, species: str) -> None:
    assert care.loose_names()[typed] == species
    assert care.species_names()[typed] == species


def test_every_name_means_one_species_and_is_reachable() -> None:
    for name, species in care.species_names().items():
        assert name == care.plain_name(name)
        assert care.profile(species).id == species


def test_an_unknown_name_gets_the_nearest() -> None:
    with pytest.raises(care.UnknownSpecies, match="did you mean red eared slider"):
        care.profile("red eared slidr")


def test_uv_zones_rise() -> None:
    # Ferguson et al. 2010, zone limits (read second-hand)
    zones = [care.uv_zone(number) for number in (1, 2, 3, 4)]
    assert [z.maximum.high for z in zones] == [1.4, 3.0, 7.4, 9.5]
    assert [z.mean.high for z in zones] == [0.7, 1.0, 2.6, 3.5]
    for lower, upper in pairwise(zones):
        assert lower.mean.high == upper.mean.low  # the mean ranges join
        assert lower.maximum.low < upper.maximum.low


def test_every_welfare_group_is_explained() -> None:
    groups = care.welfare_groups()
    for species in care.species_ids():
        assert care.profile(species).traits["welfare_group"].value in groups


def test_growth_assumption_agrees_with_the_species_file() -> None:
    text = (CARE / "assumptions" / "animal.yaml").read_text(encoding="utf-8")
    assumed = yaml.safe_load(text)["captive_growth_factor"]
    assert assumed["value"] == care.captive_growth("typical").low
    assert assumed["low"] == care.captive_growth("band").low
    assert assumed["high"] == care.captive_growth("generous").high


@pytest.mark.parametrize(
    ("law", "name"),
    [
        (laws.growth_stage, "hatchling_length_factor"),
        (laws.ammonia_from_feed, "ammonia_per_protein"),
    ],
)
def test_a_law_takes_by_default_what_the_audit_assumes(law: Any, name: str) -> None:
    text = (CARE / "assumptions" / "animal.yaml").read_text(encoding="utf-8")
    assert inspect.signature(law).parameters[name].default == yaml.safe_load(text)[name]["value"]


def test_every_assumption_is_used_by_a_quantity() -> None:
    assumed = yaml.safe_load((CARE / "assumptions" / "animal.yaml").read_text(encoding="utf-8"))
    units = wiring.quantities().units
    for name, entry in assumed.items():
        assert units[name] == entry["unit"], name
        assert entry["status"] and entry["source"] and entry["meaning"]


BAND = "{low: 2, high: 3, unit: cm, status: practice, source: common_practice}"
SMALL = f"""
plastron_to_carapace: {{value: 0.92, unit: '1', status: published, source: webb_1961}}
species:
  - id: testudo_ficta
    scientific_name: Testudo ficta
    common_names: [made-up turtle]
    family: None
    carapace_length_hatchling: {BAND}
    mass_law: {{a: {BAND}, b: {BAND}, valid_carapace_length: {BAND}}}
    growth: []
    growth_series: []
    law: {{}}
    remarks: []
"""


def _load(text: str) -> Any:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "species.yaml"
        path.write_text(text, encoding="utf-8")
        return care._read_profiles(read(path))


def test_the_small_file_loads() -> None:
    assert _load(SMALL)["testudo_ficta"].facts["carapace_length_hatchling"].high == 0.03


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (", unit: cm", "", "no unit"),
        (", status: practice", "", "no status"),
        (", source: common_practice", "", "no source"),
        ("low: 2, high: 3", "low: 3, high: 2", "the band 3 to 2 is upside down"),
        ("low: 2, high: 3", "low: 2", "neither a value nor low and high"),
        ("unit: cm", "unit: furlong", "the unit 'furlong' is unknown"),
        ("status: practice", "status: rumour", "the status 'rumour' is unknown"),
        ("unit: cm", "unit: degC", "the unit 'degC' doesn't fit; [m] is wanted"),
        ("common_practice", "a_friend", "the source 'a_friend' is not in the bibliography"),
        ("low: 2", "low: two", "'two' to 3 are no numbers"),
        (BAND, "2.5", "a number without unit, status and source"),
    ],
)
def test_a_poor_number_is_refused_with_file_and_species(old: str, new: str, says: str) -> None:
    broken = SMALL.replace(old, new, 1)
    with pytest.raises(care.SpeciesFileError) as refused:
        _load(broken)
    where = "species.yaml, line 8: testudo_ficta, carapace_length_hatchling: "
    assert str(refused.value) == where + says
    assert isinstance(refused.value, FileError)


@pytest.mark.parametrize(
    ("field", "old", "new"),
    [
        ("water_temperature_adult", "unit: degC", "unit: cm"),
        ("basking_surface_temperature", "unit: degC", "unit: d"),
        ("shell_height_ratio", "unit: '1'", "unit: mm"),
        ("water_temperature_adult", ", source: common_practice", ""),
        ("basking_surface_temperature", "low: 30, high: 35", "low: 35, high: 30"),
    ],
)
def test_a_fault_in_the_shipped_file_is_told_with_its_line(field: str, old: str, new: str) -> None:
    text = (CARE / "species.yaml").read_text(encoding="utf-8")
    at = text.index(f"    {field}: ")
    broken = text[:at] + text[at:].replace(old, new, 1)
    line = text[:at].count("\n") + 1
    with pytest.raises(care.SpeciesFileError) as refused:
        _load(broken)
    assert str(refused.value).startswith(
        f"species.yaml, line {line}: trachemys_scripta_elegans, {field}: "
    )


def test_a_series_must_match_its_ages() -> None:
    series = (
        "[{sex: both, age: {values: [1, 2], unit: yr, status: published, source: webb_1961}, "
        "length: {values: [3], unit: cm, status: published, source: webb_1961}}]"
    )
    broken = SMALL.replace("growth_series: []", f"growth_series: {series}")
    with pytest.raises(care.SpeciesFileError, match="length: not as many values as ages"):
        _load(broken)


def test_an_id_twice_is_refused() -> None:
    head, entry = SMALL.split("species:\n")
    with pytest.raises(care.SpeciesFileError, match="the id is used twice"):
        _load(f"{head}species:\n{entry}{entry}")
