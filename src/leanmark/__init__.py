"""Leanmark: the load a suspension-strap position puts on a person, and where to stand for a wanted load."""

__version__ = "0.1.0"
