"""The plan of the demo job, as an office would hand it over, and how its lines were laid."""
