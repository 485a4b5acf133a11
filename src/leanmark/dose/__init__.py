"""How much: sets, reps by speed stage, tempo, effort, rest, load waves and the time they take."""
