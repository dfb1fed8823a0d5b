"""What a line means at this point of the conversation."""
