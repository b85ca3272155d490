"""Commands of planning: import, layout, audit, take-off, stake-out."""
