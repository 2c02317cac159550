"""transcripts."""
