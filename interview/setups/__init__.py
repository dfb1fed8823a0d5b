"""Saved setups: the keeper's own words in a small YAML file, written whole or not at all."""

from interview.setups.filling import fill, of_interview
from interview.setups.loading import read, refuse
from interview.setups.setup import FORMAT, Setup, SetupError, folder
from interview.setups.writing import write

__all__ = [
    "FORMAT",
    "Setup",
    "SetupError",
    "fill",
    "folder",
    "of_interview",
    "read",
    "refuse",
    "write",
]
