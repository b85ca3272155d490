"""What a user can do to the plan, as frozen values."""
