"""What is true; no window, no network, no clock of its own."""

# By this line crewapp/neighbours.py knows the package for its own.
BELONGS_TO = "crewapp"
