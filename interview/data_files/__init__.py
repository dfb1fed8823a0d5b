"""Every data file that ships, read for its faults: what `questions --check` covers."""
