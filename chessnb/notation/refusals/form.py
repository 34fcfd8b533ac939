"""What is wrong with a text that has not the form of a move."""

from __future__ import annotations

import re

import chess

from chessnb.board.naming import listed
from chessnb.notation.letters import in_language, letters_of

PASS = "--"
"""How a game tree writes a null move; common practice, no source."""

_PAWN_TAKES = re.compile(r"^(?P<file>[a-h])[x×:]?(?P<to>[a-h])$")
_AFTER_LETTER = r"[a-h]?[1-8]?[-–‐x×:]?[a-h][1-8]"


def why_malformed(bare: str, *, language: str = "english") -> str:
    """Say how a text should be written to be a move.

    Parameters
    ----------
    bare : str
        The text without number, check sign and glyphs.
    language : str
        Whose piece letters are expected.

    Returns
    -------
    str
        One sentence without a full stop.

    Examples
    --------
    >>> why_malformed("Nf"), why_malformed("Nf", language="french")
    ('the square is missing: write it like Nf3', 'this is not a move: write it like Cf3, exd5, \
O-O or e8=D')
    """
    letters = letters_of(language)
    examples = in_language("Nf3, exd5, O-O or e8=Q", language)
    if not bare:
        return f"a move is missing: write it like {examples}"
    if bare in (PASS, "Z0", "0000"):
        return "a pass is no move of chess"
    squares = re.findall(r"[a-z]\d+", bare)
    off = [square for square in squares if not re.fullmatch(r"[a-h][1-8]", square)]
    if off and re.fullmatch(rf"[{letters}]?[a-h]?[1-8]?[-x×:]?[a-z]\d+(=?[{letters}])?", bare):
        return f"there is no square {off[-1]}: files run from a to h, ranks from 1 to 8"
    if pawn := _PAWN_TAKES.match(bare.removeprefix(letters[0])):
        return f"name the square too, as in {pawn['file']}x{pawn['to']}5"
    if re.fullmatch(rf"[{letters}][a-h]?[1-8]?[-x×:]?", bare):
        return f"the square is missing: write it like {in_language('Nf3', language)}"
    if strange := re.fullmatch(rf"([A-Z]){_AFTER_LETTER}", bare):
        return f"{strange[1]} stands for no piece: {_lettering(language)}"
    return f"this is not a move: write it like {examples}"


def _lettering(language: str) -> str:
    """Say which letters stand for the pieces."""
    named = zip(letters_of(language)[1:], chess.PIECE_NAMES[2:], strict=True)
    words = listed(f"{letter} {name}" for letter, name in named)
    return f"the letters in {language.strip().capitalize()} are {words}"
