"""What shows the conversation and hears answers."""
