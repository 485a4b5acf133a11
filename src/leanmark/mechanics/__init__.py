"""From a position to forces and joint moments, and from a wanted load back to a position."""
