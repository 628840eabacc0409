"""From a case and a rule book to facts and options, one module per family of facts."""
