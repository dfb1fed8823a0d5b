"""What a keeper asks back: what of a line asks, which topic it is of, and that it is answered."""
