"""Checks of move files: fields, names, positions and ladders."""
