"""The demo project: the winding gear of a turret clock."""
