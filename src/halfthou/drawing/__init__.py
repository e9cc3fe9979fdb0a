"""The part as drawn: surfaces, features, dimensions, requirements."""
