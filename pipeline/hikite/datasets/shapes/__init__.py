"""The shapes a dataset is written in, one file a shape."""

from hikite.datasets.shapes.documents import DocumentsWriter
from hikite.datasets.shapes.iob import IobWriter
from hikite.datasets.shapes.lines import LinesWriter
from hikite.datasets.shapes.shape import Writer
from hikite.datasets.shapes.tables import TablesWriter

WRITERS: dict[str, type[Writer]] = {
    "lines": LinesWriter,
    "iob": IobWriter,
    "documents": DocumentsWriter,
    "tables": TablesWriter,
}

__all__ = ["WRITERS", "Writer"]
