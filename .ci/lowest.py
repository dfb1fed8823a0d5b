"""Prints name==version for every lower bound in pyproject.toml: the oldest that must work.

Named extras are added, as in: python .ci/lowest.py test reference
"""

from __future__ import annotations

import re
import sys
import tomllib
from pathlib import Path

PROJECT = tomllib.loads((Path(__file__).parent.parent / "pyproject.toml").read_text())["project"]
REQUIREMENT = re.compile(r"([\w.-]+) *>= *([\w.]+)(;.*)?")


def lowest(requirement: str) -> str:
    """The requirement at the version that its bound names."""
    found = REQUIREMENT.fullmatch(requirement)
    if found is None:
        sys.exit(f"pyproject.toml: {requirement!r} has no lower bound of the form name>=version")
    name, version, marker = found.groups()
    return f"{name}=={version}{marker or ''}"


extras: dict[str, list[str]] = PROJECT["optional-dependencies"]
wanted = list(PROJECT["dependencies"])
for extra in sys.argv[1:]:
    wanted += [row for row in extras[extra] if not row.startswith(PROJECT["name"])]
print("\n".join(lowest(row) for row in wanted))
