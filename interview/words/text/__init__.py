"""Typed text as tokens, near spellings, and the refusal of what can't be read."""
