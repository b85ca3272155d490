"""The invented job, written through the same commands as the pages."""
