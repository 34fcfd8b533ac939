"""Positions and answers for the tests of questions, and both in the mirror."""

from __future__ import annotations

import re

import chess

from chessnb import Lesson

OPERA = Lesson.from_text(
    "1. e4 e5 2. Nf3 d6 3. d4 Bg4 4. dxe5 Bxf3 5. Qxf3 dxe5 6. Bc4 Nf6 7. Qb3 Qe7 8. Nc3 c6 "
    "9. Bg5 b5 10. Nxb5 cxb5 11. Bxb5+ Nbd7 12. O-O-O Rd8 13. Rxd7 Rxd7 14. Rd1 Qe6 15. Bxd7+ "
    "Nxd7 16. Qb8+ Nxb8 17. Rd8#"
)
"""Morphy against the Duke of Brunswick and Count Isouard, Paris 1858 (from memory)."""

VIENNA = Lesson.from_text(
    "1. e4 c6 2. d4 d5 3. Nc3 dxe4 4. Nxe4 Nf6 5. Qd3 e5 6. dxe5 Qa5+ 7. Bd2 Qxe5 8. O-O-O Nxe4 "
    "9. Qd8+ Kxd8 10. Bg5+ Kc7 11. Bd8#"
)
"""Réti against Tartakower, Vienna 1910 (from memory)."""

LEGAL = Lesson.from_text(
    "1. e4 e5 2. Nf3 d6 3. Bc4 Bg4 4. Nc3 g6 5. Nxe5 Bxd1 6. Bxf7+ Ke7 7. Nd5#"
)
"""Légal's mate, Paris, about 1750 (from memory, as it is usually given)."""

SMOTHERED = "r6k/6pp/7N/8/8/1Q6/6PP/7K w - - 0 1"
"""Lucena's smothered mate, 1497, the pieces that do not count left out (from memory)."""


def mirrored(text: str) -> str:
    """Turn an answer round: squares, ranks of moves, the names of the sides."""
    text = re.sub(r"([a-h])([1-8])", lambda m: f"{m[1]}{9 - int(m[2])}", text)
    swapped = {"White": "Black", "Black": "White", "white": "black", "black": "white"}
    return re.sub("|".join(swapped), lambda m: swapped[m[0]], text)


def mirrored_fen(fen: str) -> str:
    """Turn a position round: the colours, and the board with them."""
    return chess.Board(fen).mirror().fen()
