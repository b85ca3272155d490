"""Hand-over: a job in one file, for a stick, a share sheet or an e-mail; see FORMAT.md 6."""
