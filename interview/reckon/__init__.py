"""Single sums from the command line, and where a number comes from."""
