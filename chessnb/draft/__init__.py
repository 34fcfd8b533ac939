"""From a game to a lesson notebook."""

from chessnb.draft.drafting import Draft, draft
from chessnb.draft.turning import TurningPoint, turning_points

__all__ = ["Draft", "TurningPoint", "draft", "turning_points"]
