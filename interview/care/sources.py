"""Where numbers come from: the statuses, the bibliography, and rows that name both."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Annotated, Literal

from interview.base.rows import Names, Row, WrongKey, did_you_mean, read

__all__ = ["STATUSES", "Sourced", "Status", "bibliography"]

Status = Literal["published", "law", "standard", "computed", "practice", "memory", "assumption"]
STATUSES: Mapping[str, str] = {
    "published": "published",
    "law": "law or official guideline",
    "standard": "a standard",
    "computed": "computed",
    "practice": "common practice, unsourced",
    "memory": "recalled, unconfirmed",
    "assumption": "our own assumption",
}


@cache
def bibliography() -> Mapping[str, str]:
    """Source key → full citation."""
    return read(Path(__file__).with_name("bibliography.yaml"), dict[str, str])


class Sourced(Row, frozen=True, kw_only=True):
    """A row that says how sure it is, and by which source of the bibliography."""

    status: Status
    source: Annotated[str, Names("source")]

    def __post_init__(self) -> None:
        """Refuse a source that nobody could look up."""
        if self.source not in bibliography():
            near = did_you_mean(self.source, bibliography()) or "; add it there"
            raise WrongKey("source", f"“{self.source}” is not in the bibliography{near}")
