"""Every quantity carries its arithmetic."""
