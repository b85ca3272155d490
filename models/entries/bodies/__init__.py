"""Bodies of the kinds of entry, a module for what they tell of."""
