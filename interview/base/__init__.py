"""Ground floor: units, conditions, sentences and YAML rows that every room may use."""
