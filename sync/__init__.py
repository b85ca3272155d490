"""What leaves the tablet and comes back: sheets, files, exchange."""

# By this line crewapp/neighbours.py knows the package for its own.
BELONGS_TO = "crewapp"
