"""What the archive holds of one recording, derived in a process of its own."""

from hikite.archive.derivations.deriving import Task, derive
from hikite.archive.derivations.rows import Derived

__all__ = ["Derived", "Task", "derive"]
