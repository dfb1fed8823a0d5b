"""Sentences of a story, and what in them isn't told as so."""
