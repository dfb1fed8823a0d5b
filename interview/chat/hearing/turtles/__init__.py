"""Which turtle is told of: one that is known, or one that came to the others."""
