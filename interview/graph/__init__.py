"""The questions as data and the state of an interview."""
