"""Pictures as SVG files that need no other file."""
