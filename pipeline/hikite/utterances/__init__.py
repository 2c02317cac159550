"""utterances."""
