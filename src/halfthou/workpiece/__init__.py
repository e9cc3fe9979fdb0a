"""The state of the metal: its surfaces, how far each may be from where the plan wants it, and why."""
