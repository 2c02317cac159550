"""What an archive holds as data to learn from: split, written, described, checked."""

from hikite.datasets.plans import Plan
from hikite.datasets.writing import write_dataset

__all__ = ["Plan", "write_dataset"]
