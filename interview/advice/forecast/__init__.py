"""What a tank does through a day, a year and its mishaps."""
