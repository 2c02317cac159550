"""evaluate."""
