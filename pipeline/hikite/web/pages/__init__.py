"""The pages of the reading room."""

from hikite.web.pages.routes import ROUTES

__all__ = ["ROUTES"]
