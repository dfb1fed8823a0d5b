"""Ultraviolet lamps and what reaches the animal."""
