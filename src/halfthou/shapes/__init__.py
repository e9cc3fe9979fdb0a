"""Solids and their pictures: blank, part and workpiece after each operation."""
