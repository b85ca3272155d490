"""A folder a feature; a page never touches the job, it asks the worker."""
