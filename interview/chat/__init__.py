"""The conversation and its faces."""
