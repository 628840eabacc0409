"""Checks of rule files: what loading finds and what only the whole book shows, one check per file."""
