"""Tank, glass, weight and floor."""
