"""Answers of a shape of their own: sizes, hours by the clock, words around a value."""
