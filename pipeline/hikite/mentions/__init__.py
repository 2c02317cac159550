"""mentions."""
