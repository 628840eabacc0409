"""Places in files, flaws found there, quantities with units, and spelling suggestions."""
