"""Exchange: what a book lacks comes in from a store, and what the store lacks goes out."""
