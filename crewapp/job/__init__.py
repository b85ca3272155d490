"""The open job: durable first, then state and flags."""
