"""What cannot be made into a dataset, in one line."""

from hikite.errors import HikiteError


class DatasetError(HikiteError):
    """A dataset that cannot be written, or that there is nothing for."""
