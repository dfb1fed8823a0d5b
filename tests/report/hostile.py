"""A title that no page should obey."""

from __future__ import annotations

__all__ = ["HOSTILE"]

HOSTILE = (
    "A | B `code` <b>bold</b> [link](http://x) *star* _under_ # head\\ ![i](u) [red]rich[/red]"
)
