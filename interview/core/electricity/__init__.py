"""Connected load, circuit and energy."""
