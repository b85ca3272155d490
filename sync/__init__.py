"""Exchange, office and papers: all that leaves a tablet and comes back; knows no window."""

# By this line crewapp/neighbours.py knows the package for its own.
BELONGS_TO = "crewapp"
