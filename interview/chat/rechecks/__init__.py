"""The recheck: what was moved, what that should do, what it did."""
