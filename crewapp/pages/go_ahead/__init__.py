"""Whether ground may be opened and a trench entered, before the act."""
