"""Trade sizes: whole table against printed volumes; a name is never a volume."""

from __future__ import annotations

import re

import pytest

from interview.care.facts import STATUSES
from interview.care.tank_sizes import TradeSize, known_sizes, trade_sizes
from interview.core.structure.statics import glass_mass
from interview.words.forms.size import read_size
from interview.words.text.refusal import NotUnderstood

GALLON = 3.785411784  # L, exact

# name, box L, brim L, nominal over box, glass kg: arithmetic of the trade's outside inches.
# The inches are common practice, no source.
US_TABLE = [
    ("10 gallon", 39.3, 37.6, 0.96, 4.4),
    ("15 gallon", 56.6, 53.0, 1.00, 9.1),
    ("15 high", 59.0, 54.9, 0.96, 10.1),
    ("20 high", 75.5, 71.0, 1.00, 11.4),
    ("20 long", 70.8, 66.5, 1.07, 10.8),
    ("30 gallon", 113.3, 105.8, 1.00, 18.7),
    ("30 breeder", 127.4, 120.0, 0.89, 18.5),
    ("40 breeder", 169.9, 160.9, 0.89, 22.6),
    ("40 long", 151.0, 141.5, 1.00, 23.7),
    ("50 gallon", 201.8, 191.5, 0.94, 25.7),
    ("65 gallon", 254.9, 234.5, 0.97, 51.0),
    ("75 gallon", 297.3, 274.4, 0.96, 57.3),
    ("120 gallon", 453.1, 423.9, 1.00, 72.8),
    ("125 gallon", 446.0, 413.9, 1.06, 80.2),
    ("150 gallon", 594.7, 546.7, 0.96, 120.0),
    ("180 gallon", 679.6, 639.5, 1.00, 100.4),
]
METRIC_TABLE = [
    ("54 litre", 54.0, 50.5, 8.8),
    ("112 litre", 112.0, 104.9, 17.7),
    ("240 litre", 240.0, 219.7, 50.7),
    ("300 litre", 300.0, 277.5, 56.2),
    ("375 litre", 375.0, 348.1, 67.3),
]


def named(name: str) -> TradeSize:
    return next(size for size in known_sizes() if size.name == name)


def box(size: TradeSize) -> float:
    return size.length * size.width * size.height * 1000


def brim(size: TradeSize) -> float:
    t = size.wall_thickness
    return (size.length - 2 * t) * (size.width - 2 * t) * (size.height - t) * 1000


def bare_glass(size: TradeSize) -> float:
    return float(glass_mass(size.length, size.width, size.height, size.wall_thickness))


@pytest.mark.parametrize(("name", "box_litres", "brim_litres", "share", "glass"), US_TABLE)
def test_us_table(
    name: str, box_litres: float, brim_litres: float, share: float, glass: float
) -> None:
    size = named(name)
    assert box(size) == pytest.approx(box_litres, abs=0.06)
    assert brim(size) == pytest.approx(brim_litres, abs=0.06)
    assert int(name.split()[0]) * GALLON / box(size) == pytest.approx(share, abs=6e-3)
    assert bare_glass(size) == pytest.approx(glass, abs=0.06)


@pytest.mark.parametrize(("name", "box_litres", "brim_litres", "glass"), METRIC_TABLE)
def test_metric_table(name: str, box_litres: float, brim_litres: float, glass: float) -> None:
    size = named(name)
    assert box(size) == pytest.approx(box_litres, abs=0.06)
    assert brim(size) == pytest.approx(brim_litres, abs=0.06)
    assert bare_glass(size) == pytest.approx(glass, abs=0.06)


@pytest.mark.parametrize(
    ("said", "inches"),
    [("29 gallon", (30, 12, 18)), ("55 gal", (48, 13, 21)), ("90 gallon tank", (48, 18, 24))],
)
def test_sizes_known_by_their_inches_only(said: str, inches: tuple[float, ...]) -> None:
    """Common practice, no source."""
    assert trade_sizes()[said] == pytest.approx([inch * 0.0254 for inch in inches])


def test_trap_a_name_is_no_volume_in_either_direction() -> None:
    for name in ("20 long", "125 gallon"):
        assert int(name.split()[0]) * GALLON > box(named(name)) > brim(named(name))
    for name in ("30 breeder", "40 breeder", "50 gallon"):
        assert int(name.split()[0]) * GALLON < brim(named(name))


@pytest.mark.parametrize(
    "said",
    ["40 breeder", "40b", "40 gallon breeder", "40 gal breeder", "40-gallon breeder",
     "40g breeder", "40 breeder tank", "40 us gallon breeder"],
)  # fmt: skip
def test_one_tank_under_many_names(said: str) -> None:
    assert trade_sizes()[said] == pytest.approx((0.9144, 0.4572, 0.4064), abs=1e-12)


@pytest.mark.parametrize(
    ("said", "name"),
    [("75 gallon", "75 gallon"), ("75 gal", "75 gallon"), ("75g", "75 gallon"),
     ("20 gallon long", "20 long"), ("20 tall", "20 high"), ("20h", "20 high"),
     ("15 gallon", "15 gallon"), ("15 gallon high", "15 high"), ("240 l", "240 litre"),
     ("240l", "240 litre"), ("240 liter tank", "240 litre"), ("30 gal breeder", "30 breeder")],
)  # fmt: skip
def test_spoken_names(said: str, name: str) -> None:
    size = named(name)
    assert trade_sizes()[said] == (size.length, size.width, size.height)
    assert said in size.spoken


@pytest.mark.parametrize("said", ["20 gallon", "a 20 gal", "20-gallon tank", "20g"])
def test_a_number_shared_by_two_sizes_asks_which(said: str) -> None:
    with pytest.raises(NotUnderstood) as refusal:
        read_size(said, 3, region="north_america", names=trade_sizes())
    assert str(refusal.value).endswith(
        "did you mean 20 high (24 × 12 × 16 in) or 20 long (30 × 12 × 12 in)? "
        'Type "20 high" or "20 long".'
    )


def test_a_bare_number_or_a_size_in_figures_is_no_name() -> None:
    for said in trade_sizes():
        assert re.fullmatch(r"\d+[- ]?[a-z][a-z. ]*", said), said
        assert said == said.lower().strip()


def test_no_spoken_name_stands_for_two_tanks() -> None:
    spoken = [said for size in known_sizes() for said in size.spoken]
    assert len(spoken) == len(set(spoken)) == len(trade_sizes())


def test_every_size_is_a_plausible_tank_with_a_status() -> None:
    for size in known_sizes():
        assert size.length >= size.width > 0.2 and 0.2 < size.height < 0.8
        assert 0.003 <= size.wall_thickness <= 0.012
        assert size.status in STATUSES and size.source in ("common_practice", "recalled")
