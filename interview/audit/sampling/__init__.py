"""Draws of doubt, and where the doubt of a quantity comes from."""
