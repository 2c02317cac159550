"""claims."""
