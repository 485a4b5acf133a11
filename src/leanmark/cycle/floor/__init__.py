"""The floor plan of a group session: who is at which anchor when, on which strap setting."""
