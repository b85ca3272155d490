"""PDF writing: a pen, a flow, fonts for any script; nothing of a job is known here."""
