"""An SVG file with its words inside, its own colours by day and by night, no script and no font.

Colours are the blue, orange, vermilion and green that people with any common colour blindness
tell apart; each also differs by its form or its words.
"""

from __future__ import annotations

from xml.etree import ElementTree

__all__ = ["BEGINNING", "LINE", "Sheet", "text_width"]

BEGINNING = "<!-- Tankside picture -->\n"
"""How every picture's file begins, so that one is known again."""
LINE = 17.0
"""From one line of text to the next, in the picture's units."""
_LETTER = 0.56 * 13
"""Width of a usual letter of the text, a little more than sans-serif fonts have."""
_WIDE = 1.35
"""How much wider capitals, signs and wide scripts count."""

_STYLE = """
svg{background:#fff}
text{font:13px sans-serif;fill:#1a2530}
.small{font-size:11px;fill:#44525e}
.line{stroke:#44525e;stroke-width:1;fill:none}
.leader{stroke:#8593a0;stroke-width:.7;fill:none}
.glass{stroke:#1a2530;stroke-width:1.6;fill:none}
.guess{stroke-dasharray:3 4}
.grid{stroke:#d7dde3;stroke-width:.7;fill:none}
.water{fill:#0072b2;fill-opacity:.18}
.surface{stroke:#0072b2;stroke-width:1.6;fill:none}
.bed{fill:#c9b38c}
.platform{fill:#7a6248}
.pile{fill:#a0917e}
.shell{fill:#4f7a3a;stroke:#1f3316;stroke-width:.8}
.swims{fill-opacity:.55}
.heat{fill:#e69f00;stroke:#5c4000;stroke-width:.8}
.tube{fill:#56b4e9;stroke:#12405c;stroke-width:.8}
.hangs{stroke:#e69f00;stroke-width:1.4;fill:none}
.beam{fill:#e69f00;fill-opacity:.12}
.fitting{fill:#8593a0;stroke:#44525e;stroke-width:.6}
.cover{stroke:#1a2530;stroke-width:2;fill:none}
.mesh{stroke-dasharray:2 2}
.after{stroke:#8593a0;stroke-width:1.3;stroke-dasharray:5 3;fill:none}
.mark{fill:#d55e00}
.number{font-weight:bold;font-size:11px;fill:#fff;text-anchor:middle}
.bad{font-weight:bold}
.band{fill:#009e73;fill-opacity:.2}
.doubt{fill:#0072b2;fill-opacity:.16}
.first{stroke:#0072b2;stroke-width:2.2;fill:none}
.second{stroke:#e69f00;stroke-width:2.2;fill:none;stroke-dasharray:7 3}
.limit{stroke:#d55e00;stroke-width:1.4;fill:none;stroke-dasharray:2 3}
.spot{fill:#1a2530}
.wish{fill:#fff;stroke:#1a2530;stroke-width:1.6}
@media screen and (prefers-color-scheme:dark){
svg{background:#11181f}
text{fill:#e6edf3}
.small{fill:#a9b6c2}
.line{stroke:#a9b6c2}
.leader{stroke:#6b7a88}
.glass,.cover{stroke:#e6edf3}
.grid{stroke:#2c3843}
.water{fill:#56b4e9;fill-opacity:.22}
.surface,.first{stroke:#56b4e9}
.doubt{fill:#56b4e9;fill-opacity:.2}
.bed{fill:#7d6c4c}
.platform{fill:#a98a67}
.pile{fill:#6b6054}
.shell{fill:#7fae67;stroke:#d6e8cc}
.after{stroke:#a9b6c2}
.number{fill:#fff}
.spot{fill:#e6edf3}
.wish{fill:#11181f;stroke:#e6edf3}
}
"""


class Sheet:
    """One picture: a width, a height, and what is drawn, in the order in which it is drawn."""

    def __init__(self, name: str, title: str, words: str, width: float, height: float) -> None:
        self.width, self.height = width, height
        self._root = ElementTree.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": f"0 0 {width:.0f} {height:.0f}",
                "role": "img",
                "aria-labelledby": f"{name}-title {name}-words",
            },
        )
        self._put("title", title, {"id": f"{name}-title"})
        self._put("desc", words, {"id": f"{name}-words"})
        self._put("style", _STYLE, {})

    def _put(self, tag: str, text: str, attributes: dict[str, str]) -> None:
        ElementTree.SubElement(self._root, tag, attributes).text = text or None

    def box(
        self, kind: str, x: float, y: float, width: float, height: float, name: str = ""
    ) -> None:
        """A rectangle by its upper left corner."""
        places = {"x": x, "y": y, "width": width, "height": height}
        self._shape("rect", kind, name, {key: f"{value:.2f}" for key, value in places.items()})

    def path(self, kind: str, d: str, name: str = "") -> None:
        """A line or an outline, as SVG writes paths."""
        self._shape("path", kind, name, {"d": d})

    def line(self, kind: str, *points: tuple[float, float], name: str = "") -> None:
        """A line through points."""
        path = "L".join(f"{x:.2f} {y:.2f}" for x, y in points)
        self.path(kind, f"M{path}", name)

    def circle(self, kind: str, x: float, y: float, radius: float, name: str = "") -> None:
        """A circle."""
        places = {"cx": x, "cy": y, "r": radius}
        self._shape("circle", kind, name, {key: f"{value:.2f}" for key, value in places.items()})

    def text(
        self, x: float, y: float, text: str, kind: str = "", *, end: str = "", turned: bool = False
    ) -> None:
        """Words that begin at a place, are centred on it (`end` middle) or end there (end)."""
        attributes = {"x": f"{x:.1f}", "y": f"{y:.1f}"}
        attributes |= {"class": kind} if kind else {}
        attributes |= {"text-anchor": end} if end else {}
        attributes |= {"transform": f"rotate(-90 {x:.1f} {y:.1f})"} if turned else {}
        self._put("text", text, attributes)

    def _shape(self, tag: str, kind: str, name: str, attributes: dict[str, str]) -> None:
        named = {"data-thing": name} if name else {}
        ElementTree.SubElement(self._root, tag, {"class": kind, **named, **attributes})

    def written(self) -> str:
        """The file's text."""
        return f"{BEGINNING}{ElementTree.tostring(self._root, encoding='unicode')}\n"


def text_width(text: str, size: float = 13.0) -> float:
    """How wide a line of text is at most, near enough to keep lines apart."""
    wide = sum(_WIDE if letter.isupper() or ord(letter) > 0x2000 else 1.0 for letter in text)
    return wide * _LETTER * size / 13.0
