"""The invented demo job: three days of work, written through the same actions as the screens."""
