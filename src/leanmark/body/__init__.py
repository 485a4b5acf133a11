"""A person as segments: published tables, scaling, surface points, reference joint strengths."""
