"""The office: all jobs in one database, and what is read off them together."""
