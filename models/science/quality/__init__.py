"""Quality of readings against limits; a reading on the limit is in tolerance."""
