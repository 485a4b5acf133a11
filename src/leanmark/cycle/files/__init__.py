"""A cycle as files: JSON that reads back as the same cycle, its schema, a table of every set, a calendar."""
