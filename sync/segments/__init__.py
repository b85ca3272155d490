"""Written once, never changed or deleted; every byte bounded and verified."""
