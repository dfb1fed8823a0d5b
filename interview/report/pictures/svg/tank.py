"""The tank as SVG: from the side with its labels, from above, and what the signs mean."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from interview.report.fitting import wrapped
from interview.report.pictures.scene.plate import Note, Plate, place_of
from interview.report.pictures.scene.things import Scene, Thing
from interview.report.pictures.svg.labels import Label, apart
from interview.report.pictures.svg.sheet import LINE, Sheet, text_width

__all__ = ["Layout", "layout_of", "tank_svg"]

_WIDEST, _HIGHEST = 430.0, 330.0
_LEFT, _TOP, _GAP = 48.0, 22.0, 46.0
_LETTERS = 48  # in a line of a label
_NUMBER = 20.0
_BETWEEN = 62.0
_EDGE = 14.0
_APART = 17.0
"""Between the middles of two numbers."""


@dataclass(frozen=True)
class Placed:
    """One label: its lines, its upper left corner, where its leader begins."""

    note: Note
    lines: tuple[str, ...]
    x: float
    y: float
    at: tuple[float, float]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom."""
        wide = max(map(text_width, self.lines), default=0.0)
        start = self.x - (_NUMBER if self.note.number else 0.0)
        return start, self.y, self.x + wide, self.y + LINE * len(self.lines)


@dataclass(frozen=True)
class Layout:
    """Where everything of a tank stands in its picture; `metre` of its units are one metre.

    Without `from_above` there is the view from the side alone.
    """

    plate: Plate
    metre: float
    from_above: bool = True

    @cached_property
    def column(self) -> float:
        """Where the labels begin."""
        return _LEFT + self.plate.longest * self.metre + _GAP + _NUMBER

    @cached_property
    def labels(self) -> tuple[Placed, ...]:
        """The labels beside the side view."""
        rows = []
        for note in self.plate.notes:
            if place := place_of(self.plate.scene, note.at):
                rows.append((note, tuple(wrapped(note.text, _LETTERS)), place))
        highest = self._bottom_if_alone(sum(LINE * len(lines) for _, lines, _ in rows))
        wanted = [Label(highest - y * self.metre, LINE * len(lines)) for _, lines, (_, y) in rows]
        tops = apart(wanted, _TOP, highest + _EDGE)
        return tuple(
            Placed(note, lines, self.column, top, (self.x(x), highest - y * self.metre))
            for (note, lines, (x, y)), top in zip(rows, tops, strict=True)
        )

    def _bottom_if_alone(self, labels: float) -> float:
        return _TOP + max(self.plate.top * self.metre, labels - _EDGE)

    @cached_property
    def bottom(self) -> float:
        """Where the inside of the tank's bottom stands."""
        return self._bottom_if_alone(sum(LINE * len(p.lines) for p in self.labels))

    @cached_property
    def above(self) -> float:
        """Where the view from above has its back pane."""
        return self.bottom + _BETWEEN

    @cached_property
    def end(self) -> float:
        """Where the lowest view ends."""
        if not self.from_above:
            return self.bottom + 2 * _EDGE
        return self.above + self.plate.scene.width * self.metre

    def x(self, along: float) -> float:
        """A place along the tank."""
        return _LEFT + along * self.metre

    def y(self, height: float) -> float:
        """A height over the bottom, in the side view."""
        return self.bottom - height * self.metre

    def z(self, across: float) -> float:
        """A place across the tank, in the view from above; the front pane is below."""
        return self.end - across * self.metre


def layout_of(plate: Plate, *, from_above: bool = True) -> Layout:
    """The largest layout that a page has room for."""
    metre = min(_WIDEST / plate.longest, _HIGHEST / plate.top)
    return Layout(plate, metre, from_above)


def tank_svg(plate: Plate, title: str, words: str, *, from_above: bool = True) -> str:
    """The picture as the text of a file."""
    layout = layout_of(plate, from_above=from_above)
    captions = [line for text in plate.key for line in wrapped(text, 2 * _LETTERS)]
    right = max((label.box[2] for label in layout.labels), default=layout.column)
    sheet = Sheet(
        "tank", title, words, right + _EDGE, layout.end + 2 * _EDGE + LINE * (1 + len(captions))
    )
    _side(sheet, layout)
    _labels(sheet, layout)
    if from_above:
        _from_above(sheet, layout)
    lines = ["The outline with dashes: after the plan."] if plate.after else []
    for number, text in enumerate((f"{plate.scale}. " + " ".join(lines), *captions)):
        sheet.text(_LEFT, layout.end + 2 * _EDGE + LINE * number, text.strip(), "small")
    return sheet.written()


def _rect(sheet: Sheet, layout: Layout, thing: Thing, kind: str) -> None:
    (x0, x1), (y0, y1) = thing.x, thing.y
    sheet.box(
        kind, layout.x(x0), layout.y(y1), (x1 - x0) * layout.metre, (y1 - y0) * layout.metre,
        thing.kind,
    )  # fmt: skip


def _side(sheet: Sheet, layout: Layout) -> None:
    scene = layout.plate.scene
    if lamp := scene.first("heat_lamp"):
        _beam(sheet, layout, lamp, scene)
    for thing in scene.things:
        _draw(sheet, layout, thing)
    if layout.plate.after:
        _outline(sheet, layout, scene, layout.plate.after)
    x0, x1, y0 = layout.x(0.0), layout.x(scene.length), layout.y(0.0)
    guessed = " guess" if set(scene.guessed) & {"tank_length", "tank_height"} else ""
    rim = layout.y(scene.height)
    sheet.line(f"glass{guessed}", (x0, rim), (x0, y0), (x1, y0), (x1, rim), name="glass")
    measures = layout.plate.measures
    _measure(sheet, (x0, y0 + _EDGE), (x1, y0 + _EDGE), measures.get("length", ""))
    _measure(sheet, (x0 - _EDGE, y0), (x0 - _EDGE, rim), measures.get("height", ""))


def _measure(sheet: Sheet, start: tuple[float, float], end: tuple[float, float], text: str) -> None:
    """A measure as drawings have it: a line with ends, its words in the middle."""
    if not text:
        return
    upright = start[0] == end[0]
    dx, dy = (4.0, 0.0) if upright else (0.0, 4.0)
    sheet.line("line", start, end)
    for x, y in (start, end):
        sheet.line("line", (x - dx, y - dy), (x + dx, y + dy))
    x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    if upright:
        sheet.text(x - 6, y, text, "small", end="middle", turned=True)
    else:
        sheet.text(x, y + _EDGE, text, "small", end="middle")


def _draw(sheet: Sheet, layout: Layout, thing: Thing) -> None:
    if thing.kind in ("basking_animal", "swimming_animal"):
        _animal(sheet, layout, thing)
    elif thing.kind == "ramp":
        ends = [(layout.x(x), layout.y(y)) for x, y in zip(thing.x, thing.y[::-1], strict=True)]
        sheet.line("glass", *ends, name="ramp")
    elif thing.kind in ("cover_basking", "cover_water"):
        y = layout.y(thing.y[0])
        kind = "cover mesh" if thing.form == "mesh" else "cover"
        sheet.line(kind, (layout.x(thing.x[0]), y), (layout.x(thing.x[1]), y), name=thing.kind)
    elif thing.kind == "heater" and thing.form == "angled":
        ends = [(layout.x(x), layout.y(y)) for x, y in zip(thing.x, thing.y, strict=True)]
        sheet.line("line", *ends, name="heater")
    elif thing.kind == "heat_lamp":
        _dome(sheet, layout, thing)
    else:
        _rect(sheet, layout, thing, _KINDS[thing.kind])
    if thing.kind == "water":
        y = layout.y(thing.y[1])
        sheet.line("surface", (layout.x(thing.x[0]), y), (layout.x(thing.x[1]), y))


_KINDS = {
    "bed": "bed",
    "water": "water",
    "pile": "pile",
    "platform": "platform",
    "heater": "fitting",
    "intake": "fitting",
    "uvb_lamp": "tube",
}


def _animal(sheet: Sheet, layout: Layout, thing: Thing) -> None:
    """A domed shell as long and as high as it is, a head before it."""
    x0, x1, y = layout.x(thing.x[0]), layout.x(thing.x[1]), layout.y(thing.y[0])
    across, up = (x1 - x0) / 2, (thing.y[1] - thing.y[0]) * layout.metre
    kind = "shell" if thing.kind == "basking_animal" else "shell swims"
    sheet.circle(kind, x1 + across * 0.16, y - up * 0.3, max(up * 0.24, 0.8))
    arc = f"M{x0:.2f} {y:.2f}A{across:.2f} {up:.2f} 0 0 1 {x1:.2f} {y:.2f}Z"
    sheet.path(kind, arc, thing.kind)


def _dome(sheet: Sheet, layout: Layout, thing: Thing) -> None:
    """A lamp's dome, its mouth at the height that was measured."""
    (x0, x1), y, top = map(layout.x, thing.x), layout.y(thing.y[0]), layout.y(thing.y[1])
    inset = (x1 - x0) * 0.3
    d = f"M{x0:.2f} {y:.2f}L{x0 + inset:.2f} {top:.2f}H{x1 - inset:.2f}L{x1:.2f} {y:.2f}Z"
    sheet.path("heat", d, "heat_lamp")


def _beam(sheet: Sheet, layout: Layout, lamp: Thing, scene: Scene) -> None:
    """Where the lamp shines, down to the platform."""
    platform = scene.first("platform")
    if platform:
        (x0, x1), y = map(layout.x, lamp.x), layout.y(lamp.y[0])
        spread, foot = (x1 - x0) * 0.25, layout.y(platform.y[1])
        d = f"M{x0:.2f} {y:.2f}H{x1:.2f}L{x1 + spread:.2f} {foot:.2f}H{x0 - spread:.2f}Z"
        sheet.path("beam", d)


def _outline(sheet: Sheet, layout: Layout, now: Scene, after: Scene) -> None:
    """The tank as it would be, where that is another."""
    for thing in after.things:
        if thing.kind not in ("water", "platform", "heat_lamp", "uvb_lamp"):
            continue
        before = now.first(thing.kind)
        if before and (before.x, before.y) == (thing.x, thing.y):
            continue
        x0, x1, y = layout.x(thing.x[0]), layout.x(thing.x[1]), layout.y(thing.y[1])
        if thing.kind == "water":
            sheet.line("after", (x0, y), (x1, y), name="after_water")
        else:
            size = (thing.y[1] - thing.y[0]) * layout.metre
            sheet.box("after", x0, y, x1 - x0, size, f"after_{thing.kind}")
    if (now.length, now.height) != (after.length, after.height):
        x0, x1 = layout.x(0.0), layout.x(after.length)
        rim, foot = layout.y(after.height), layout.y(0.0)
        sheet.line("after", (x0, rim), (x0, foot), (x1, foot), (x1, rim), name="after_glass")


def _labels(sheet: Sheet, layout: Layout) -> None:
    for label in layout.labels:
        middle = label.y + LINE * len(label.lines) / 2
        start = label.box[0]
        elbow = layout.column - _NUMBER - _GAP / 2
        sheet.line("leader", label.at, (elbow, middle), (start - 4, middle))
        for number, line in enumerate(label.lines):
            kind = "bad" if label.note.number else ""
            sheet.text(label.x, label.y + LINE * number + 12.5, line, kind)
        if label.note.number:
            _number(sheet, label.x - _NUMBER / 2 - 2, middle, label.note.number)
    taken: list[tuple[float, float]] = []
    for pin in layout.plate.pins:
        place = place_of(layout.plate.scene, pin.at)
        if place:
            x, y = layout.x(place[0]), layout.y(place[1])
            first = x
            while any(abs(x - a) < _APART and abs(y - b) < _APART for a, b in taken):
                x, y = (x - _APART, y) if x - _APART > _EDGE else (first, y + _APART)
            taken.append((x, y))
            _number(sheet, x, y, pin.number)


def _number(sheet: Sheet, x: float, y: float, number: int) -> None:
    sheet.circle("mark", x, y, 8)
    sheet.text(x, y + 4, str(number), "number")


def _from_above(sheet: Sheet, layout: Layout) -> None:
    scene = layout.plate.scene
    sheet.text(layout.x(0.0), layout.above - 6, "Seen from above", "small")
    for kind, style in _ABOVE.items():
        for thing in scene.things:
            if thing.kind == kind:
                (x0, x1), top = map(layout.x, thing.x), layout.z(thing.z[1])
                size = (thing.z[1] - thing.z[0]) * layout.metre
                if style.startswith("shell"):
                    _from_its_back(sheet, style, (x0, x1), top, size)
                else:
                    sheet.box(style, x0, top, x1 - x0, size, f"above_{kind}")
    guessed = " guess" if set(scene.guessed) & {"tank_length", "tank_width"} else ""
    wide, deep = scene.length * layout.metre, scene.width * layout.metre
    sheet.box(f"glass{guessed}", layout.x(0.0), layout.above, wide, deep, "above_glass")
    x = layout.x(0.0) - _EDGE
    _measure(sheet, (x, layout.end), (x, layout.above), layout.plate.measures.get("width", ""))


_ABOVE = {
    "water": "water",
    "platform": "platform",
    "pile": "pile",
    "heater": "fitting",
    "intake": "fitting",
    "swimming_animal": "shell swims",
    "basking_animal": "shell",
    "uvb_lamp": "hangs",
    "heat_lamp": "hangs",
}


def _from_its_back(
    sheet: Sheet, style: str, x: tuple[float, float], top: float, size: float
) -> None:
    """An oval shell and a head."""
    across, deep = (x[1] - x[0]) / 2, size / 2
    sheet.circle(style, x[1] + across * 0.14, top + deep, max(deep * 0.3, 0.8))
    middle = top + deep
    arc = f"A{across:.2f} {deep:.2f} 0 1 1 "
    d = f"M{x[0]:.2f} {middle:.2f}{arc}{x[1]:.2f} {middle:.2f}{arc}{x[0]:.2f} {middle:.2f}Z"
    sheet.path(style, d)
