"""Pages of loads in, hoppers out, and the balance of materials."""
