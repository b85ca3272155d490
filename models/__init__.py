"""What is true: units, entries, plan, book, state, calculations, checks."""

# By this line crewapp/neighbours.py knows the package for its own.
BELONGS_TO = "crewapp"
