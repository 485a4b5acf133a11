"""What a rung asks of people, and whether rungs run from easier to harder."""
