"""Choices, yes and no, none, and not sure."""
