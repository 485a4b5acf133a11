"""The move library as data: one YAML file per move, its schema, loader and translation for the engine."""
