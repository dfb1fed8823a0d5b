"""What is told near a topic, where no phrase takes it."""
