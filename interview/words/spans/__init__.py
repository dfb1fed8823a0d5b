"""Where a told text says amounts, and what each would be at the questions it can answer."""
