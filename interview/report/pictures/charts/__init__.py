"""Charts, each where it answers a keeper's question."""
