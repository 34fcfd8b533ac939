"""From a game to a lesson notebook."""

from chessnb.notebooks.drafting.drafter import Draft, draft

__all__ = ["Draft", "draft"]
