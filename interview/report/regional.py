"""Words that go by the keeper's region: what a page calls the device that cuts the power."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from interview.report.blocks import Block

__all__ = ["Worded"]

_Text = TypeVar("_Text")
_NAMES = {"north_america": "GFCI", "europe": "RCD", "united_kingdom": "RCD", "australia": "RCD"}
_EITHER = re.compile(r"(?P<a>\b[Aa] )?\bGFCI(?P<s>'s)? or (?:an )?RCD(?:'s)?")
_SKIPPED = ("lines", "picture", "sources")


@dataclass(frozen=True)
class Worded:
    """Says “GFCI or RCD” as shops and electricians of a region do; as it is where none is known."""

    region: Any

    def text(self, text: str) -> str:
        """One sentence."""
        name = _NAMES.get(str(self.region))
        return _EITHER.sub(lambda found: _called(found, name), text) if name else text

    def blocks(self, blocks: Iterable[Block]) -> Iterator[Block]:
        """Each block with all its texts; pictures stay."""
        for block in blocks:
            yield self.page(block)

    def page(self, page: _Text) -> _Text:
        """A dataclass with every text in it, and in the rows it holds."""
        return self._of(page) if str(self.region) in _NAMES else page

    def _of(self, page: Any) -> Any:
        names = [field.name for field in fields(page) if field.name not in _SKIPPED]
        return replace(page, **{name: self._deep(getattr(page, name)) for name in names})

    def _deep(self, value: Any) -> Any:
        if isinstance(value, str):
            return self.text(value)
        if isinstance(value, tuple):
            return tuple(self._of(row) if is_dataclass(row) else self._deep(row) for row in value)
        return value


def _called(found: re.Match[str], name: str) -> str:
    article = found["a"] or ""
    if article and name == "RCD":
        article = f"{article[0]}n "
    return f"{article}{name}{found['s'] or ''}"
