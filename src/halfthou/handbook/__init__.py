"""Published tables with their sources, and formulas as pure functions, one topic a file."""
