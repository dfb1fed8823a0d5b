"""The levels of each check over the settings of levers."""
