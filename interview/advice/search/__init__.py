"""The least changes that mend a tank: an implicit hitting set over tables of severities."""
