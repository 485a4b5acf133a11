"""The drawn body on its rig, and charts: one definition for screen and print."""
