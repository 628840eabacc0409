"""From facts and rules to a decision: the run of the rules, the contest between findings, sides and frame."""
