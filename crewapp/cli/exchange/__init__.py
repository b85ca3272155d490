"""Commands that exchange a job with others: sync, handover, tablets."""
