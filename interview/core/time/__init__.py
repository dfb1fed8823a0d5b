"""The tank through days and years: one state, its rates, and how it is stepped along."""
