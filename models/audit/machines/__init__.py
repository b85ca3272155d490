"""Rules of the plan audit about what a machine and its blade need of the lines."""
