"""The lasers of the job and their peg tests."""
