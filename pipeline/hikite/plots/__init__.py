"""Pictures of a bout, of an archive's numbers and of an evaluation, as SVG or PNG."""

from hikite.plots.drawings import Drawing, PlotError, save

__all__ = ["Drawing", "PlotError", "save"]
