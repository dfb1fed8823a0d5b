"""Water chemistry and filter."""
