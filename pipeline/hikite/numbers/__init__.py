"""What an archive holds, counted: how often it was tried, how often it came off, what it brought."""

from hikite.numbers.asking import Ask
from hikite.numbers.counting import count
from hikite.numbers.tables import Table

__all__ = ["Ask", "Table", "count"]
