"""The tank as SVG: its coordinates read back, its labels apart, its words inside."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from scenes_at_random import TANK, plate_of, random_plate

from interview.advice.what_if.suppose import changed
from interview.commands.auditing.judged import judged_file
from interview.report.pictures.scene.plate import Plate
from interview.report.pictures.svg.labels import Label, apart
from interview.report.pictures.svg.tank import layout_of, tank_svg
from interview.report.pictures.tank_picture import TankPicture, tank_picture

DEMOS = sorted((Path(__file__).parents[2] / "transcripts_demo").glob("*.yaml"))
_SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


class Read:
    """What stands in a picture, in metres, by the length of the tank's bottom alone."""

    def __init__(self, svg: str, inside_length: float) -> None:
        self.root = ElementTree.fromstring(svg)
        points = self._numbers(self.one("glass").get("d", ""))
        self.left, self.foot = points[2], points[3]
        self.metre = (points[4] - points[2]) / inside_length
        self.rim = (self.foot - points[1]) / self.metre

    def one(self, name: str) -> ElementTree.Element:
        return next(e for e in self.root.iter() if e.get("data-thing") == name)

    @staticmethod
    def _numbers(text: str) -> list[float]:
        return [float(number) for number in _NUMBER.findall(text)]

    def box(self, name: str) -> tuple[float, float, float, float]:
        """Left, right, lower and upper edge."""
        x, y, wide, high = (float(self.one(name).get(k, "")) for k in ("x", "y", "width", "height"))
        left, lower = x - self.left, self.foot - y - high
        return tuple(v / self.metre for v in (left, left + wide, lower, lower + high))  # type: ignore[return-value]

    def path(self, name: str) -> list[float]:
        return self._numbers(self.one(name).get("d", ""))


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_coordinates_read_back_are_the_answers(path: Path) -> None:
    """A picture's units are a quarter of a centimetre or finer; what is read is as fine."""
    audit, _ = judged_file(path, ())
    look = audit.tank.best.get
    picture = tank_picture(audit)
    read = Read(picture.svg(), look("inside_length"))
    near = pytest.approx
    assert read.rim == near(look("inside_height"), abs=1e-3)
    if (below := look("water_line_below_rim")) is not None:
        level = look("inside_height") - below
        assert read.box("water")[3] == near(level, abs=1e-3)
        top = level + (look("platform_height_above_water") or 0.0)
        if look("platform_kind") != "none" and look("platform_length"):
            left, right, _, upper = read.box("platform")
            assert right - left == near(look("platform_length"), abs=1e-3)
            assert upper == near(top, abs=1e-3)
            if look("heat_lamp_height"):
                face = (read.foot - read.path("heat_lamp")[1]) / read.metre
                assert face - upper == near(look("heat_lamp_height"), abs=1e-3)
            if look("uvb_lamp_height"):
                assert read.box("uvb_lamp")[2] - upper == near(look("uvb_lamp_height"), abs=1e-3)
    if look("substrate_depth"):
        assert read.box("bed")[3] == near(look("substrate_depth"), abs=1e-3)
    shell = read.path("basking_animal")
    assert (shell[-2] - shell[0]) / read.metre == near(max(look("carapace_length")), abs=1e-3)
    assert shell[3] / read.metre == near(look("shell_height"), abs=1e-3)


def test_the_heater_and_the_intake_hang_where_they_were_measured() -> None:
    tank = {**TANK, "heater_mount": "vertical", "heater_length": 0.2, "heater_height": 0.04}
    tank |= {"filter_kind": "canister", "intake_height": 0.06}
    read = Read(tank_svg(plate_of(tank), "", ""), 0.988)
    assert read.box("heater")[2:] == pytest.approx((0.07, 0.27), abs=1e-3)
    assert read.box("intake")[2] == pytest.approx(0.09, abs=1e-3)


def test_the_tank_after_the_plan_is_outlined() -> None:
    later = {**TANK, "water_line_below_rim": 0.17, "heat_lamp_height": 0.26}
    read = Read(tank_svg(plate_of(TANK, after=later), "", ""), 0.988)
    line = read.path("after_water")
    assert (read.foot - line[1]) / read.metre == pytest.approx(0.394 - 0.17, abs=1e-3)
    platform = read.box("after_platform")
    assert read.box("after_heat_lamp")[2] - platform[3] == pytest.approx(0.26, abs=1e-3)
    longer = plate_of(TANK, after={**TANK, "tank_length": 1.5, "tank_height": 0.6})
    glass = Read(tank_svg(longer, "", ""), 0.988).path("after_glass")
    layout = layout_of(longer)
    assert max(glass[::2]) == pytest.approx(layout.x(longer.longest), abs=0.1)
    assert longer.longest == pytest.approx(1.488, abs=1e-3)
    assert all(label.box[0] > max(glass[::2]) for label in layout.labels)


def test_a_uvb_lamp_to_come_is_outlined_and_told() -> None:
    classroom = next(path for path in DEMOS if path.stem == "painted_turtles_classroom")
    audit, _ = judged_file(classroom, ())
    after = changed(audit.tank, {"uvb_lamp_kind": "tube_t5", "uvb_lamp_height": 0.3})
    now, then = tank_picture(audit).plate, tank_picture(audit, after=after).plate
    assert "UVB lamp to come in outline" not in " ".join(now.key)
    assert "UVB lamp to come in outline" in " ".join(then.key)
    svg = tank_svg(then, "", "")
    assert 'data-thing="after_uvb_lamp"' in svg and 'data-thing="uvb_lamp"' not in svg


def _clear(plate: Plate) -> None:
    """No label over another, over the tank, or off the picture."""
    layout = layout_of(plate)
    boxes = [label.box for label in layout.labels]
    for one, (left, top, _, bottom) in enumerate(boxes):
        assert left > layout.x(plate.longest)
        assert top >= 0
        for other in boxes[one + 1 :]:
            assert bottom <= other[1] + 1e-6 or other[3] <= top + 1e-6
        assert bottom <= layout.above
    root = ElementTree.fromstring(tank_svg(plate, "t", "w"))
    _, _, wide, high = map(float, root.get("viewBox", "").split())
    assert max((box[2] for box in boxes), default=0.0) <= wide
    texts = [(float(e.get("x", "")), float(e.get("y", ""))) for e in root.iter(f"{_SVG}text")]
    assert all(0 <= x <= wide and 0 <= y <= high for x, y in texts)
    assert len(set(texts)) == len(texts)
    pins = [e for e in root.iter(f"{_SVG}circle") if e.get("class") == "mark"]
    middles = [(float(e.get("cx", "")), float(e.get("cy", ""))) for e in pins]
    assert len(middles) == 2 * len(plate.pins)  # at its place, and beside its label
    for n, (x, y) in enumerate(middles):
        assert 8 <= x <= wide - 8 and 8 <= y <= high - 8
        assert all(max(abs(x - a), abs(y - b)) >= 16 for a, b in middles[n + 1 :])


def test_labels_of_200_scenes_at_random_do_not_overlap() -> None:
    for number in range(200):
        _clear(random_plate(number))


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_labels_of_the_demos_do_not_overlap(path: Path) -> None:
    _clear(tank_picture(judged_file(path, ())[0]).plate)


def test_labels_stay_near_and_in_order() -> None:
    assert apart([Label(50, 10), Label(52, 10)], 0, 100) == (45, 55)
    assert apart([Label(98, 10), Label(99, 10)], 0, 100) == (80, 90)
    assert apart([Label(0, 10)] * 3, 0, 20) == (0, 10, 20)  # more than there is room for


def test_the_file_needs_no_other_and_tells_its_words() -> None:
    picture = TankPicture(plate_of(TANK))
    root = ElementTree.fromstring(picture.svg())
    assert root.find(f"{_SVG}title").text == "The tank, to scale"  # type: ignore[union-attr]
    assert "heat lamp 22 cm over platform" in root.find(f"{_SVG}desc").text  # type: ignore[union-attr,operator]
    style = root.find(f"{_SVG}style").text or ""  # type: ignore[union-attr]
    assert "prefers-color-scheme:dark" in style
    assert not re.search(r"@import|url\(|font-face|https?:", style)
    tags = {element.tag.removeprefix(_SVG) for element in root.iter()}
    assert tags <= {"svg", "title", "desc", "style", "rect", "path", "circle", "text"}


def test_what_is_written_never_takes_effect() -> None:
    nasty = '"><script>alert(1)</script><!-- ]]> &amp; '
    root = ElementTree.fromstring(tank_svg(plate_of(TANK), nasty, nasty))
    assert root.find(f"{_SVG}title").text == nasty  # type: ignore[union-attr]
    assert not list(root.iter(f"{_SVG}script"))
