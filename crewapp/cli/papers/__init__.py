"""Commands of papers."""
