"""Words that name a technique, grip, position or call, each with ranked candidates."""

from hikite.mentions.finding import find_mentions, matcher_of
from hikite.mentions.matcher import Matcher

__all__ = ["Matcher", "find_mentions", "matcher_of"]
