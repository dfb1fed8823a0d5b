"""Stories told in the keeper's own words, and what is agreed of them."""
