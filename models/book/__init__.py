"""The book: everything written for one job, in one file that only ever grows."""
