"""Where files of a job meet: folders and servers, each spoken to by the same three verbs."""
