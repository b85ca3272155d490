"""What comes in on paper or from the office: typed-up field notes, plan files."""
