"""What people are told about the program, done as they would do it."""
