"""The exact problem: its plain data, the solver, the judge apart from it, why there is no plan."""
