"""What leaves the tablet and comes back: sheets, files, exchange."""
