"""Laws: formulas with inputs of their own, used by the quantities."""
