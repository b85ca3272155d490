"""The kinds of entry, their envelope, and how old ones are read."""
