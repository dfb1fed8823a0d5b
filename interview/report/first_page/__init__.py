"""The one page that comes first: what it says, and as which blocks."""
