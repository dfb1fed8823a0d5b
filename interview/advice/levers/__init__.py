"""What a keeper can change: the levers, their settings on one tank, and what is never told."""
