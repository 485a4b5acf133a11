"""Printable cards: where to stand for a wanted load, one page for each trainee."""
