"""Files that people name: read small, written whole."""
