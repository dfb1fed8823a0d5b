"""The plans shown to a keeper, and what else would help."""
