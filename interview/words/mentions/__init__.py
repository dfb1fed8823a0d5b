"""What a text speaks of: things, their attributes, values, negation and scope."""
