"""Several questions asked in one go, and answered in a row."""
