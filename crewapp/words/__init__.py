"""Every word a person reads, by its English text."""
