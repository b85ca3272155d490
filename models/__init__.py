"""Data and rules of a job: entries, plans, checks, calculations; no window, network or clock."""

# By this line crewapp/neighbours.py knows the package for its own.
BELONGS_TO = "crewapp"
