"""Charts of a plan: plain arrays in, SVG text out."""
