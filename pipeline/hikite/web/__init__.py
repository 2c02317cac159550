"""The reading room: the archive in a browser, to be read, checked and corrected."""
