"""A plan worked out: every number a person sets, turns, reads and measures, set-up by set-up."""
