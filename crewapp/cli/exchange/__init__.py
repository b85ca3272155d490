"""Commands of exchange."""
