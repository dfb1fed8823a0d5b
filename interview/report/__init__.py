"""One audit as a page, and what dresses it."""
