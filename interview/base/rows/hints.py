"""What the fields of a row may hold, taken apart: marks, alternatives, parts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

import msgspec

from interview.base.rows.row import Row

__all__ = ["alternatives", "field_kinds", "item_kind", "key_and_value_kinds", "marks"]


@cache
def field_kinds(row: type[Row]) -> Mapping[str, Any]:
    """Type of each key a row may have, marks included."""
    kinds = get_type_hints(row, include_extras=True)
    fields = msgspec.structs.fields(row)
    return {one.name: kinds[one.name] for one in fields if one.encode_name == one.name}


def alternatives(kind: Any) -> tuple[Any, ...]:
    """The types a value may have: one, or the arms of a union without None and marks."""
    if get_origin(kind) is Annotated:
        kind = get_args(kind)[0]
    if get_origin(kind) in (Union, UnionType):
        return tuple(a for arm in get_args(kind) for a in alternatives(arm))
    return () if kind is type(None) else (kind,)


def marks(kind: Any) -> Iterator[Any]:
    """What `Annotated` adds to a type, or to an arm of a union."""
    if get_origin(kind) is Annotated:
        yield from get_args(kind)[1:]
        yield from marks(get_args(kind)[0])
    elif get_origin(kind) in (Union, UnionType):
        for arm in get_args(kind):
            yield from marks(arm)


def item_kind(kind: Any) -> Any:
    """Type of the items of a tuple or list; None for anything else."""
    return get_args(kind)[0] if get_origin(kind) in (tuple, list) else None


def key_and_value_kinds(kind: Any) -> tuple[Any, Any] | None:
    """Types of keys and values of a mapping; None for anything else."""
    if get_origin(kind) in (dict, Mapping):
        key, value = get_args(kind)
        return key, value
    return None
