"""The record of a job as built: drawings, tables and data files made from one book."""
