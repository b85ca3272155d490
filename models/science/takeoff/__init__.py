"""Take-off of quantities; every quantity carries its arithmetic."""
