"""Files to data: the one YAML reader, file access, and models whose errors become flaws at their place."""
