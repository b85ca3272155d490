"""Pages of the exchange with other tablets and the office; one transfer at a time."""
