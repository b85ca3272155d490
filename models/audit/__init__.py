"""Audit of a plan, a file a rule; one sentence a fault, wherever the plan comes from."""
