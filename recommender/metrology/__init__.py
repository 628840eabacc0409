"""Size and form of a bore from what was read of it, with its uncertainty."""
