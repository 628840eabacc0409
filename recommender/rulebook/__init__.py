"""The rule book: models of its files, seals, the house overlay, and one door `load`."""
