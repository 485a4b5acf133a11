"""The squad file: who trains, on which rig, for which loads."""
