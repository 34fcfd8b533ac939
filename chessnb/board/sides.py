"""The two sides, in every form in which they are named."""

from __future__ import annotations

import chess

SIDES = {chess.WHITE: "White", chess.BLACK: "Black"}
"""The names of the sides."""
