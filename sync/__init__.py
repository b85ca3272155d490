"""What leaves the tablet and comes back; knows no window."""

# By this line crewapp/neighbours.py knows the package for its own.
BELONGS_TO = "crewapp"
