"""Anchor, straps, handles and cradles, and the floor underfoot."""
