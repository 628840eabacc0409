"""The stored form of an advice: kept once, read with checks, compared, and what was done in the end beside it."""
