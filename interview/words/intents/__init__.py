"""What a keeper means by a text."""
