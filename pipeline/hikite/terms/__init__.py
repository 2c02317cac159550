"""terms."""
