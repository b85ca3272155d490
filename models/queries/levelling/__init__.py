"""Every elevation hangs from its setup and benchmark, or says why it does not."""
