"""Numbers, units and hedges, read as amounts with the doubt their words carry."""
