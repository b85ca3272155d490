"""Commands that change the plan, as frozen values."""
