"""Three verbs, no trust; nothing in a store is changed or taken away."""
