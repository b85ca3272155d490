"""Keys and the list of tablets; the only user of the cryptography library."""
