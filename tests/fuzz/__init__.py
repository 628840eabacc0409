"""Hostile input: what the reader, the case loader and the sheet reader do with it, and where it comes from."""
