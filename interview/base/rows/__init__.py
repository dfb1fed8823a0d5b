"""Data files become typed rows when they are loaded; every complaint names file and line.

A row is a frozen class whose fields are the keys it may have, and `read` fills it:

    >>> import pathlib, tempfile
    >>> from typing import Annotated
    >>> class Lever(Row):
    ...     lever: str
    ...     reach: Amount
    ...     checks: tuple[Annotated[str, Names("check")], ...] = ()
    >>> path = pathlib.Path(tempfile.mkdtemp()) / "levers.yaml"
    >>> _ = path.write_text("- {lever: day_length, reach: 30 cm, checks: [escape]}")
    >>> (lever,) = read(path, tuple[Lever, ...])
    >>> lever.reach.to("m"), lever.where.line
    (0.3, 1)
    >>> list(unknown_names(lever, {"check": ["photoperiod"]}))
    ['levers.yaml, line 1: day_length, checks: no check is called “escape”']
    >>> _ = path.write_text("- {lever: day_length, reech: 30 cm}")
    >>> read(path, tuple[Lever, ...])
    Traceback (most recent call last):
    interview.base.rows.lines.FileError: levers.yaml, line 1: day_length: unknown key “reech”; \
did you mean “reach”?
"""

from interview.base.rows.cross_references import Names, unknown_names
from interview.base.rows.lines import FileError, Lined, printable, words_in
from interview.base.rows.near import did_you_mean
from interview.base.rows.reader import read, read_folder
from interview.base.rows.row import NOWHERE, Row, Where, WrongKey
from interview.base.rows.typed_values import Amount, Said

__all__ = [
    "NOWHERE",
    "Amount",
    "FileError",
    "Lined",
    "Names",
    "Row",
    "Said",
    "Where",
    "WrongKey",
    "did_you_mean",
    "printable",
    "read",
    "read_folder",
    "unknown_names",
    "words_in",
]
