"""One pen, one flow; words of any script; nothing of a job is known here."""
