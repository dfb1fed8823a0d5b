"""How long a talk takes: told before it begins, on the way, and when enough is known."""
