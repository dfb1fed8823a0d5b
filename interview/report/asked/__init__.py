"""What is told of a tank where a keeper asks: topics as data, and where each is looked up."""
