"""The account: an advice, a check or a trial told in words. Opens no rule file; wording comes in with its subject."""
