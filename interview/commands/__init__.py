"""The commands of the program: one file a verb."""
