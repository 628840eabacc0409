"""The `borewright` command: one module per group of commands, no logic."""
