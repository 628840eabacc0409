"""Conditions on facts, their three outcomes and margins, and decision tables; knows facts, knows no bicycle."""
