"""The state of the metal: its surfaces, and how far each may be from where it is wanted."""
