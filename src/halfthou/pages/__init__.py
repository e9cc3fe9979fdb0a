"""Local web pages."""
