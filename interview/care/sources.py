"""Where numbers come from: the statuses, the bibliography, and rows that name both."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Annotated, Literal

from interview.base.rows import Names, Row, WrongKey, did_you_mean, read

__all__ = ["STATUSES", "Sourced", "Status", "bibliography", "unknown_source"]

Status = Literal["published", "law", "standard", "computed", "practice", "memory", "assumption"]
STATUSES: Mapping[str, str] = {
    "published": "published",
    "law": "law or official guideline",
    "standard": "a standard",
    "computed": "computed",
    "practice": "common practice",
    "memory": "recalled, unconfirmed",
    "assumption": "our own assumption",
}


@cache
def bibliography() -> Mapping[str, str]:
    """Source key → full citation."""
    return read(Path(__file__).with_name("bibliography.yaml"), dict[str, str])


def unknown_source(keys: Iterable[str]) -> str:
    """What is wrong with the first source that nobody could look up; "" where all are known."""
    known = bibliography()
    for key in keys:
        if key not in known:
            near = did_you_mean(key, known) or "; add it there"
            return f"“{key}” is not in the bibliography{near}"
    return ""


class Sourced(Row, frozen=True, kw_only=True):
    """A row that says how sure it is, and by which source of the bibliography."""

    status: Status
    source: Annotated[str, Names("source")]

    def __post_init__(self) -> None:
        """Refuse a source that nobody could look up."""
        if wrong := unknown_source([self.source]):
            raise WrongKey("source", wrong)
