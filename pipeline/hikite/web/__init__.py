"""The reading room: an archive in the browser, to be read, searched and corrected."""

from hikite.web.apps import reading_room
from hikite.web.arrangements import Arrangement

__all__ = ["Arrangement", "reading_room"]
