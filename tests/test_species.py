"""The species file: complete, sourced, and honest about what is loose or unknown."""

from __future__ import annotations

import inspect
import shutil
from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml

from interview.base.rows import FileError
from interview.care import species as care
from interview.care.facts import limits
from interview.core import wiring
from interview.core.animal import body as laws

CARE = Path(care.__file__).parent.parent
YEAR = 365.25 * 86400.0
NO_SOURCE = {"common_practice": "practice", "recalled": "memory", "analogy": "assumption"}


def _numbers(node: Any, where: str = "") -> list[tuple[str, dict[str, Any]]]:
    if isinstance(node, list):
        return [n for i, item in enumerate(node) for n in _numbers(item, f"{where}[{i}]")]
    if not isinstance(node, dict):
        return []
    here = [(where, node)] if {"value", "low", "values"} & node.keys() else []
    return here + [n for key, item in node.items() for n in _numbers(item, f"{where}.{key}")]


FILES = sorted((CARE / "species").rglob("*.yaml"))
ALL = [
    number
    for path in FILES
    for number in _numbers(yaml.safe_load(path.read_text(encoding="utf-8")))
]


def test_there_are_twenty_species_or_more_and_every_number_is_sourced() -> None:
    assert len(care.species_ids()) >= 20
    assert len(ALL) > 400
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
        told = f"{species}: hatchlings' water is {warmer:g} K warmer than adults'"
        assert 0.5 <= warmer <= 3, told  # common practice, no source: 1 to 3 K


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
    known = (
        *("trachemys_scripta_elegans", "trachemys_scripta_scripta", "pseudemys_concinna"),
        *("pseudemys_nelsoni", "chrysemys_picta", "graptemys_ouachitensis"),
        *("malaclemys_terrapin", "sternotherus_odoratus", "kinosternon_subrubrum"),
        *("mauremys_sinensis", "apalone_spinifera"),
    )
    unknown = (
        *("graptemys_pseudogeographica", "sternotherus_carinatus", "kinosternon_baurii"),
        *("mauremys_reevesii", "emys_orbicularis", "pelomedusa_subrufa", "pelusios_castaneus"),
        *("emydura_subglobosa", "chelodina_longicollis"),
    )
    assert all(care.profile(species).growth_curve("unknown") for species in known)
    assert not any(care.profile(species).growth_curve("unknown") for species in unknown)


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
    with pytest.raises(care.UnknownSpecies, match="did you mean “red eared slider”"):
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


SISTER = """\
# a made-up sister

- id: trachemys_ficta
  like: trachemys_scripta_elegans
  scientific_name: Trachemys ficta
  common_names: [made-up slider]
  carapace_length_hatchling: {low: 2, high: 3, unit: cm, status: practice, source: common_practice}
  lifespan_record: null
  growth: []
"""


def _load(folder: Path, name: str, text: str) -> Mapping[str, care.Profile]:
    """The shipped profiles, with one file written anew."""
    shutil.copytree(CARE / "species" / "profiles", folder, dirs_exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")
    return care.read_profiles(folder)


def test_a_species_is_like_its_sister_but(tmp_path: Path) -> None:
    found = _load(tmp_path, "7_new.yaml", SISTER)
    new, sister = found["trachemys_ficta"], found["trachemys_scripta_elegans"]
    assert list(found)[-1] == "trachemys_ficta"
    assert new.facts["carapace_length_hatchling"].high == 0.03
    assert new.growth == () != sister.growth
    assert new.loose_names == () != sister.loose_names
    assert set(sister.facts) - set(new.facts) == {"lifespan_record"}
    shared = set(new.facts) - {"carapace_length_hatchling"}
    assert all(new.facts[name] == sister.facts[name] for name in shared)
    assert (new.traits, new.law, new.mass_law) == (sister.traits, sister.law, sister.mass_law)


def test_a_sister_may_have_a_sister(tmp_path: Path) -> None:
    text = SISTER.replace("_elegans", "_scripta")
    found = _load(tmp_path, "7_new.yaml", text)["trachemys_ficta"]
    assert found.traits["diet"] == care.profile("trachemys_scripta_elegans").traits["diet"]


BAND = "{low: 2, high: 3, unit: cm, status: practice, source: common_practice}"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (", unit: cm", "", "7: WHO has no unit; a whole one is {low: 20, high: 29, unit: cm"),
        (", status: practice", "", "7: WHO has no status"),
        (", source: common_practice", "", "7: WHO has no source"),
        ("low: 2, high: 3", "low: 3, high: 2", "7: WHO, low: the band 3 to 2 is upside down"),
        ("low: 2, high: 3", "low: 2", "7: WHO: neither a value nor low and high"),
        ("low: 2, high: 3", "value: 2, high: 3", "7: WHO: neither a value nor low and high"),
        ("low: 2", "low: -.inf", "7: WHO: -inf to 3 has no end"),
        ("unit: cm", "unit: furlong", "7: WHO, unit: “furlong” is none of cm, mm"),
        ("unit: cm", "unit: degC", "7: WHO, unit: “degC” is none of cm, mm"),
        ("status: practice", "status: rumour", "7: WHO, status: “rumour” is none of published"),
        ("common_practice", "comon_practice", "7: WHO, source: “comon_practice” is not in the "
         "bibliography; did you mean “common_practice”?"),
        ("low: 2", "low: two", "7: WHO, low: “two” is no number; write it as 0.25"),
        (BAND, "2.5", "7: WHO: “2.5” must be a mapping, as {low: 20, high: 29, unit: cm"),
        ("  like: trachemys_scripta_elegans\n", "", "3: trachemys_ficta has no family"),
        ("like: trachemys_scripta_elegans", "like: trachemys_scripta_elegan", "4: trachemys_ficta, "
         "like: “trachemys_scripta_elegan” is no species; did you mean “trachemys_scripta_"),
        ("like: trachemys_scripta_elegans", "like: trachemys_ficta", "4: trachemys_ficta, "
         "like: “trachemys_ficta” leads back to itself"),
        ("carapace_length_hatchling", "carapace_lenght_hatchling", "7: trachemys_ficta: unknown "
         "key “carapace_lenght_hatchling”; did you mean “carapace_length_hatchling”?"),
        ("id: trachemys_ficta", "id: emys_orbicularis", "3: emys_orbicularis: the id is used"),
        ("growth: []", "family: null", "3: trachemys_ficta has no family"),
        ("growth: []", "law: {eu_list: {value: true, status: law, source: eu_2016_1141}}",
         "9: trachemys_ficta, law: “eu_list” is none of eu_invasive_list"),
        ("growth: []", "growth_series: [{sex: both, age: {values: [1, 2], unit: yr, status: law, "
         "source: webb_1961}, length: {values: [3], unit: cm, status: law, source: webb_1961}}]",
         "9: trachemys_ficta, growth_series, number 1, length: not as many values as ages"),
    ],
)  # fmt: skip
def test_a_poor_profile_is_refused_with_file_line_and_species(
    tmp_path: Path, old: str, new: str, says: str
) -> None:
    assert old in SISTER
    with pytest.raises(FileError) as refused:
        _load(tmp_path, "7_new.yaml", SISTER.replace(old, new, 1))
    says = says.replace("WHO", "trachemys_ficta, carapace_length_hatchling")
    assert str(refused.value).startswith(f"7_new.yaml, line {says}")


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
def test_a_fault_in_the_shipped_file_is_told_with_its_line(
    tmp_path: Path, field: str, old: str, new: str
) -> None:
    path = CARE / "species" / "profiles" / "1_sliders_and_cooters.yaml"
    text = path.read_text(encoding="utf-8")
    at = text.index(f"  {field}: ")
    broken = text[:at] + text[at:].replace(old, new, 1)
    line = text[:at].count("\n") + 1
    with pytest.raises(FileError) as refused:
        _load(tmp_path, path.name, broken)
    place = f"{path.name}, line {line}: trachemys_scripta_elegans, {field}"
    assert str(refused.value).startswith(place)


def test_a_legal_mark_that_is_written_false_is_not_set() -> None:
    pond = care.profile("emys_orbicularis")
    assert pond.is_marked("protected_native") and not pond.is_marked("eu_invasive_list")
    value = replace(pond.law["protected_native"], value=False)
    assert not replace(pond, law={"protected_native": value}).is_marked("protected_native")
