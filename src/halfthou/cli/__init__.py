"""The commands a person types."""
