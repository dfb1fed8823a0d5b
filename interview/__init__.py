"""Tankside: interviews a turtle keeper, computes the whole tank, ends with a graded audit."""

__version__ = "0.1.0"
