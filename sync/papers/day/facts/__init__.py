"""Facts of a day sheet, gathered once for all its formats."""
