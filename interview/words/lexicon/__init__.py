"""The words that are known, and what each of them is."""
