"""What of a story is taken: the answer to what is asked, or a list that the keeper agrees to."""
