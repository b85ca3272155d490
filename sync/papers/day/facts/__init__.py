"""Everything a day sheet says, gathered once."""
