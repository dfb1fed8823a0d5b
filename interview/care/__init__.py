"""Facts about animals, lamps, tanks and limits, each with status and source."""
