"""outputs."""
