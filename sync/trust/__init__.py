"""Who may write to a job: keys, signatures and the list of its tablets."""
