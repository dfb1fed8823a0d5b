"""A chart as a picture: drawn in characters or as SVG, and said in a sentence."""

from __future__ import annotations

from dataclasses import dataclass

from interview.report.pictures.characters.chart import chart_lines
from interview.report.pictures.plot import Plot

__all__ = ["Chart"]


@dataclass(frozen=True)
class Chart:
    """A chart, its heading, the question's answer in words, and the checks that it is about."""

    name: str
    title: str
    words: str
    plot: Plot
    about: tuple[str, ...] = ()

    def lines(self, width: int, *, plain_letters: bool = False) -> tuple[str, ...]:
        """In characters, no line longer than `width`; () below 40 columns."""
        return chart_lines(self.plot, width, plain_letters=plain_letters)

    def svg(self) -> str:
        """As one SVG file."""
        from interview.report.pictures.svg.chart import chart_svg

        return chart_svg(self.plot, self.name, self.title, self.words)
