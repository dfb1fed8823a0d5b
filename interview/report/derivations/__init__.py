"""How a number came about, for people and as JSON."""
