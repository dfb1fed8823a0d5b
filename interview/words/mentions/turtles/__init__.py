"""Turtles a story names or speaks of, put together."""
