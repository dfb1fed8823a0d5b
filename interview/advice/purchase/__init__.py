"""Planning before buying: tank, gear and settings by specification."""
