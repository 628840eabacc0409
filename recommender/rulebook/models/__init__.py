"""What the files of the rule book look like, one module per kind of content."""
