"""A day, a year and the mishaps of a tank as pages, and as JSON."""
