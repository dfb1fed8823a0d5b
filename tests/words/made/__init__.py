"""Strings of known meaning, made by rule from how people write. Nothing here knows a reader."""
