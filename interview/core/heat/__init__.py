"""Heat of the water: losses, storage, heater, evaporation."""
