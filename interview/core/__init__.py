"""The physics: a quantity is the function that bears its name."""
