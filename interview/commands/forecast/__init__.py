"""The commands that run a tank through time."""
