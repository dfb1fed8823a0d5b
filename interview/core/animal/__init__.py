"""The animals: bodies, growth, needs and food."""
