"""The tank in characters, from the side and from above, to scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from interview.report.fitting import to_ascii, wrapped
from interview.report.pictures.characters.grid import Grid, in_ascii
from interview.report.pictures.scene.plate import Plate, place_of
from interview.report.pictures.scene.things import Scene, Thing

__all__ = ["tank_lines"]

_LEAST = 30
"""Columns: on a narrower screen nothing can be told apart."""
_BESIDE = 74
"""From here on the notes stand beside the picture, else under it."""
_NOTES = 44
_MOST_ROWS = ((120, 22), (80, 16), (0, 14))
"""From how many columns on a picture has how many rows."""
_FEWEST_ROWS = 8
_GIVE_WAY = (
    "bed", "intake", "swimming_animal", "ramp", "cover_basking", "cover_water", "platform", "rim",
    "heater", "water", "basking_animal", "uvb_lamp", "heat_lamp", "water_line",
)  # fmt: skip
"""Whose notes are left out first where there is no room."""
_FEWEST_COLUMNS = 12
_WALLS = 2


def tank_lines(
    plate: Plate,
    width: int,
    *,
    plain_letters: bool = False,
    from_above: bool = True,
    most_lines: int | None = None,
) -> tuple[str, ...]:
    """The tank with its notes; () below 30 columns.

    Args:
        plate: what is drawn
        width: columns there are
        plain_letters: ASCII only
        from_above: whether the view from above is drawn too
        most_lines: how many lines there may be, at least 8; the least telling notes give way
    """
    if width < _LEAST:
        return ()
    captions = [line for text in _captions(plate) for line in wrapped(text, width)]
    if plain_letters:
        captions = [line.replace("╌", in_ascii("╌")) for line in captions]
    rest = None if most_lines is None else max(most_lines - len(captions), _FEWEST_ROWS)
    lines = _view(plate, width, plain_letters, from_above, rest)
    if rest is not None:
        kept = plate
        while len(lines) > rest and (fewer := _with_fewer_notes(kept)) is not kept:
            kept = fewer
            lines = _view(kept, width, plain_letters, from_above, rest)
    lines = [*lines, *captions]
    return tuple((to_ascii(line) if plain_letters else line).rstrip() for line in lines)


def _view(
    plate: Plate, width: int, plain_letters: bool, from_above: bool, most: int | None
) -> list[str]:
    """Both views with the notes."""
    notes = _notes(plate, plain_letters)
    beside = width >= _BESIDE
    room = max((len(line) for _, line in notes), default=0)
    room = min(room, _NOTES) if beside else 0
    columns = width - _WALLS - (room + 2 if room else 0)
    rows = next(rows for least, rows in _MOST_ROWS if width >= least)
    scenes = (plate.scene, *((plate.after,) if plate.after else ()))
    step = _step(scenes, columns, min(rows, most or rows), from_above)
    side = _side(plate, step)
    drawn = list(side.lines(plain_letters=plain_letters))
    while drawn and not drawn[0]:
        del drawn[0]
    if beside:
        lines = _with_notes(drawn, notes, side, room)
    else:
        lines = [*drawn, *(line for _, note in notes for line in _hung(note, width))]
    if from_above:
        above = _above(plate, step).lines(plain_letters=plain_letters)
        lines += ["Seen from above", *(line for line in above if line)]
    return lines


def _with_fewer_notes(plate: Plate) -> Plate:
    """Without its least telling note that no finding is pinned to; itself if there is none."""
    for at in _GIVE_WAY:
        for note in plate.notes:
            if note.at == at and not note.number:
                return replace(plate, notes=tuple(one for one in plate.notes if one is not note))
    return plate


def _step(scenes: Sequence[Scene], columns: int, most_rows: int, from_above: bool) -> float:
    """Metres for a column, so that the tank fits both ways, as it is and as it would be."""
    length, high = scenes[0].length, max(scene.top for scene in scenes)
    if from_above:
        high = max(high, scenes[0].width)
    step = max(length / columns, high / (2 * (most_rows - 2)))
    return min(step, length / _FEWEST_COLUMNS)


def _notes(plate: Plate, plain_letters: bool) -> list[tuple[float, str]]:
    """Every note with its height [m], after the sign its thing is drawn with and its number."""
    found = []
    for note in plate.notes:
        if place := place_of(plate.scene, note.at):
            thing = next((one for one in plate.scene.things if one.kind == note.at), None)
            sign = _BY_FORM.get((note.at, thing.form if thing else ""), _SIGN_OF[note.at])
            text = f"{note.number} {note.text}" if note.number else note.text
            found.append((place[1], f"{in_ascii(sign) if plain_letters else sign} {text}"))
    return found


_SIGN_OF = {
    "heat_lamp": "▼", "uvb_lamp": "━", "cover_basking": "═", "cover_water": "═", "rim": "│",
    "basking_animal": "█", "swimming_animal": "█", "platform": "▀", "ramp": "╲", "heater": "▬",
    "intake": "║", "water_line": "≈", "water": "≈", "bed": "░",
}  # fmt: skip
_BY_FORM = {
    ("cover_basking", "mesh"): "┉",
    ("cover_water", "mesh"): "┉",
    ("heater", "vertical"): "▮",
}


def _captions(plate: Plate) -> tuple[str, ...]:
    outside = f", {plate.outside} outside" if plate.measures else ""
    key = (text.replace("→ after", "→ and ╌ after") for text in plate.key)
    return ("; ".join((f"{plate.scale}{outside}", *key)),)


def _sheet(scene: Scene, step: float, high: float) -> Grid:
    """An empty sheet for a view that is so high; the walls take the outermost columns."""
    columns = max(round(scene.length / step), 1) + _WALLS
    return Grid(columns, max(math.ceil(high / (2 * step) - 1e-9), 1) + 1, step)


def _moved(thing: Thing, step: float) -> Thing:
    """A thing one column to the right and one row up, where walls and bottom are."""
    x = (thing.x[0] + step, thing.x[1] + step)
    y = (thing.y[0] + 2 * step, thing.y[1] + 2 * step)
    return Thing(thing.kind, x, y, thing.z, thing.form)


def _side(plate: Plate, step: float) -> Grid:
    scene = plate.scene
    grid = _sheet(scene, step, plate.top + 2 * step)
    last = grid.column(scene.length) + 1
    things = [_moved(thing, step) for thing in scene.things]
    for thing in things:
        _DRAW.get(thing.kind, _solid)(grid, thing)
    _distances(grid, things)
    if plate.after:
        _paler(grid, scene, plate.after, step)
    for row in range(1, max(grid.row(scene.height), 1) + 1):
        grid.put(0, row, "│")
        grid.put(last, row, "│")
    grid.write(0, 0, f"└{'─' * (last - 1)}┘")
    _numbers(grid, plate, step)
    return grid


def _water(grid: Grid, thing: Thing) -> None:
    """The surface alone, in the row that lies under it."""
    row = max(grid.row(thing.y[1]) - 1, 1)
    for column in grid.columns_of(thing.x):
        grid.put(column, row, "≈")


def _bed(grid: Grid, thing: Thing) -> None:
    grid.fill(thing.x, thing.y, "░")


def _solid(grid: Grid, thing: Thing) -> None:
    grid.fill(thing.x, thing.y, "▒")


def _platform(grid: Grid, thing: Thing) -> None:
    """Its surface, in the row that lies under it."""
    row = max(grid.row(thing.y[1]) - 1, 1)
    for column in grid.columns_of(thing.x):
        grid.put(column, row, "▀")


def _ramp(grid: Grid, thing: Thing) -> None:
    columns, rows = grid.columns_of(thing.x), list(reversed(grid.rows_of(thing.y)))
    for place, column in enumerate(columns):
        grid.put(column, rows[place * len(rows) // len(columns)], "╲", over=False)


def _animal(grid: Grid, thing: Thing) -> None:
    """A shell as long as it is: a dome where it is higher than a row."""
    columns, rows = grid.columns_of(thing.x), grid.rows_of(thing.y)
    first, last = columns[0], columns[-1]
    for place, row in enumerate(rows):
        inset = place if place < len(columns) // 2 else len(columns) // 2
        for column in range(first + inset, last + 1 - inset):
            grid.put(column, row, "█")
        if last - first - 2 * inset >= 1:
            grid.put(first + inset, row, "▟")
            grid.put(last - inset, row, "▙")


def _cover(grid: Grid, thing: Thing) -> None:
    row = grid.row(thing.y[0])
    for column in grid.columns_of(thing.x):
        grid.put(column, row, "┉" if thing.form == "mesh" else "═")


def _heater(grid: Grid, thing: Thing) -> None:
    if thing.form == "angled":
        columns, rows = grid.columns_of(thing.x), grid.rows_of(thing.y)
        for place, column in enumerate(columns):
            grid.put(column, rows[place * len(rows) // len(columns)], "▬")
        return
    grid.fill(thing.x, thing.y, "▮" if thing.form == "vertical" else "▬")


def _intake(grid: Grid, thing: Thing) -> None:
    grid.fill(thing.x, thing.y, "║")
    grid.put(grid.columns_of(thing.x)[0], grid.rows_of(thing.y)[0], "╨")


def _lamp(grid: Grid, thing: Thing) -> None:
    """In the row whose lower edge is the lamp's face: a tube as long as it is, a lamp's mouth."""
    row = grid.row(thing.y[0])
    if thing.kind == "uvb_lamp":
        for column in grid.columns_of(thing.x):
            grid.put(column, row, "━", over=False)
        return
    grid.put(grid.column((thing.x[0] + thing.x[1]) / 2), row, "▼")


_DRAW = {
    "bed": _bed,
    "water": _water,
    "platform": _platform,
    "ramp": _ramp,
    "basking_animal": _animal,
    "swimming_animal": _animal,
    "cover_basking": _cover,
    "cover_water": _cover,
    "heater": _heater,
    "intake": _intake,
    "heat_lamp": _lamp,
    "uvb_lamp": _lamp,
}


def _distances(grid: Grid, things: list[Thing]) -> None:
    """A dotted line from the heat lamp down to the platform or the animal on it."""
    lamp = next((thing for thing in things if thing.kind == "heat_lamp"), None)
    platform = next((thing for thing in things if thing.kind == "platform"), None)
    if lamp and platform:
        column = grid.column((lamp.x[0] + lamp.x[1]) / 2)
        for row in range(grid.row(platform.y[1]), grid.row(lamp.y[0])):
            grid.put(column, row, "┊", over=False)


def _paler(grid: Grid, now: Scene, after: Scene, step: float) -> None:
    """What the plan moves, in thin signs where nothing else is drawn."""
    water = after.first("water")
    if water and _moves(grid, now.first("water"), water):
        row = max(grid.row(_moved(water, step).y[1]) - 1, 1)
        for column in grid.columns_of(_moved(water, step).x):
            if column % 2:
                grid.put(column, row, "╌", over=False)
    for kind in ("platform", "heat_lamp", "uvb_lamp"):
        thing = after.first(kind)
        if thing is None or not _moves(grid, now.first(kind), thing):
            continue
        placed = _moved(thing, step)
        if kind == "heat_lamp":
            grid.put(grid.column(sum(placed.x) / 2), grid.row(placed.y[0]), "▽", over=False)
            continue
        row = grid.row(placed.y[0]) if kind == "uvb_lamp" else max(grid.row(placed.y[1]) - 1, 1)
        for column in grid.columns_of(placed.x):
            grid.put(column, row, "╌", over=False)


def _moves(grid: Grid, before: Thing | None, after: Thing) -> bool:
    return before is None or grid.row(before.y[1]) != grid.row(after.y[1])


def _numbers(grid: Grid, plate: Plate, step: float) -> None:
    """The findings' numbers at their places, none in a cell of another, nor right beside it."""
    last = max(grid.column(plate.scene.length), 1)
    taken: set[tuple[int, int]] = set()
    for pin in plate.pins:
        place = place_of(plate.scene, pin.at)
        if place is None:
            continue
        text = str(pin.number)
        end = max(last - len(text) + 1, 1)
        column, row = grid.column(place[0] + step), grid.row(place[1] + 2 * step)
        column, row = min(max(column, 1), end), min(row, grid.rows - 1)
        while row > 0 and any((column + n, row) in taken for n in range(-1, len(text) + 1)):
            # to the left, then from the right end of the row below
            column, row = (column - 1, row) if column > 1 else (end, row - 1)
        taken |= {(column + n, row) for n in range(len(text))}
        grid.write(column, row, text)


def _with_notes(
    drawn: list[str], notes: list[tuple[float, str]], side: Grid, room: int
) -> list[str]:
    """Each note beside the row of its height, in order; what finds no row follows underneath."""
    wide = max(map(len, drawn)) + 2
    texts = [(y, line) for y, text in notes for line in _hung(text, room)]
    rows = max(len(drawn), len(texts))
    drawn = [*[""] * (rows - len(drawn)), *drawn]
    beside = [""] * rows
    free = 0
    for number, (y, text) in enumerate(texts):
        wanted = rows - 1 - (side.row(y) + 1)
        latest = rows - (len(texts) - number)
        place = min(max(wanted, free), latest)
        beside[place] = text
        free = place + 1
    return [f"{line:<{wide}}{note}" for line, note in zip(drawn, beside, strict=True)]


def _hung(note: str, width: int) -> list[str]:
    """A note in lines, those after the first set in under its first word."""
    sign, text = note[:2], note[2:]
    first, *rest = wrapped(text, width - 2)
    return [sign + first, *("  " + line for line in rest)]


def _above(plate: Plate, step: float) -> Grid:
    """From above: the platform, the animals, heater and intake, inside the panes."""
    scene = plate.scene
    grid = _sheet(scene, step, scene.width + 4 * step)
    last, top = grid.column(scene.length) + 1, max(grid.row(scene.width), 1) + 1
    for kind, sign in _FROM_ABOVE.items():
        for thing in scene.things:
            if thing.kind == kind:
                x = (thing.x[0] + step, thing.x[1] + step)
                grid.fill(x, (thing.z[0] + 2 * step, thing.z[1] + 2 * step), sign)
    for row in range(1, top):
        grid.put(0, row, "│")
        grid.put(last, row, "│")
    grid.write(0, 0, f"└{'─' * (last - 1)}┘")
    grid.write(0, top, f"┌{'─' * (last - 1)}┐")
    return grid


_FROM_ABOVE = {
    "platform": "▒",
    "heater": "▬",
    "intake": "║",
    "swimming_animal": "█",
    "basking_animal": "█",
}
