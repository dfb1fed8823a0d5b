"""The conversation itself, in its manners."""
