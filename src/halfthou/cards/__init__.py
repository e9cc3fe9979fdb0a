"""Job cards as PDF."""
