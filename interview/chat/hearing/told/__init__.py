"""Stories told in the keeper's own words: what they tell, and what is only likely."""
