"""A second hearing, learned from told paragraphs, of what the phrases left of a story."""
