"""Whether a text gives a move away: as it is written, or in words.

A text that names a move which is still hidden waits until the move is shown.
When in doubt it waits: a sentence that comes late costs less than one that
spoils the question.  Words are English; written moves are known in every
language, by the square that a capital letter goes to.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import chess

from chessnb.notation.move_reader import bare_move

_SQUARE = re.compile(r"[a-h][1-8](?!\d)")
_NUMBER = r"\d+\s*(?:\.+|…)\s*"
_LINK = r"\s?[-–‐x×:]?\s?"

# What stands just before a square that is named for a move of a piece that has a letter: Nf3,
# Ng1-f3, Sf3, N x f3, a figurine; and of any piece: g1f3, e2-e4.
_LETTER = re.compile(rf"(?<!\w)(?:[A-Z]|[♔-♟])[a-h]?[1-8]?{_LINK}$")
_FROM = re.compile(r"(?<!\w)[a-h][1-8]\s?[-–‐x×]?\s?$")
# And of a pawn's, whose square alone may be meant as a square.
_NUMBERED = re.compile(rf"{_NUMBER}$")
_PUSH = re.compile(
    r"\b(?:play(?:s|ed|ing)?|push(?:es|ed|ing)?|mov(?:e|es|ed|ing)|advanc(?:e|es|ed|ing)(?: to)?"
    r"|answers? with|replies with|with|then|threatens|prepares|tr(?:y|ies|ied)|find|consider)\s+$",
    re.IGNORECASE,
)
_FILE_TAKES = re.compile(r"(?<!\w)(?P<file>[a-h])\s?(?:x|×|:|takes|captures(?: on)?)?\s?$")
_SIGNED = re.compile(r"^(?:[+#!]|\s?=)")

_WITHIN = r"[^.;!]{0,60}"
_SPOKEN = {
    kind: (
        re.compile(rf"\b{name}s?\b{_WITHIN}$", re.IGNORECASE),
        re.compile(rf"^{_WITHIN}\b(?:with|by) (?:the|a|his|her|its) {name}\b", re.IGNORECASE),
        re.compile(rf"\b{name}s?,? (?:which |that )?(?:stands |is )?(?:on|at)\s+$", re.IGNORECASE),
    )
    for kind, name in enumerate(chess.PIECE_NAMES)
    if name
}
_CASTLES = re.compile(
    r"\bcastl(?:e|es|ing)\b(?: (?P<side>\w+))?|\b[O0]-[O0](?:-[O0])?", re.IGNORECASE
)
_SAN = re.compile(r"^(?P<kind>[KQRBN])?(?P<file>[a-h])?[1-8]?x?(?P<to>[a-h][1-8])")


def names_a_move(text: str, moves: Iterable[str], *, board: chess.Board | None = None) -> bool:
    """Tell whether a text names one of these moves, in signs or in words.

    Parameters
    ----------
    text : str
        A comment, or the name of a line.
    moves : iterable of str
        Moves in SAN, without signs of check.
    board : chess.Board, optional
        The position that the text is about: "the knight on c6" is no move
        where a knight stands there.

    Notes
    -----
    A pawn move such as ``e4`` is also the name of its square: it counts only
    behind a move number, or a word such as "play".

    Examples
    --------
    >>> moves = {"Nf3", "e4"}
    >>> [names_a_move(text, moves) for text in ("Then Nf3+!", "on e4", "2. e4")]
    [True, False, True]
    >>> names_a_move("Look at what the knight can do from f3.", moves)
    True
    """
    hidden = frozenset(bare_move(move) for move in moves)
    if any(move.startswith("O-O") for move in hidden) and _CASTLES.search(text):
        return True
    goals = {_goal(move) for move in hidden} - {None}
    return any(goal in goals for goal in _named(text, hidden, board))


def _goal(move: str) -> tuple[int, str] | None:
    """Return the kind of piece and the square of a move; None for castling."""
    said = _SAN.match(move)
    if said is None:
        return None
    return chess.PIECE_SYMBOLS.index((said["kind"] or "P").lower()), said["to"]


def _named(
    text: str, hidden: frozenset[str], board: chess.Board | None
) -> Iterator[tuple[int, str]]:
    """Give every move that a text may be meant to name, as kind and square."""
    for found in _SQUARE.finditer(text):
        square, before, after = found[0], text[: found.start()], text[found.end() :]
        if _LETTER.search(before):
            yield from ((kind, square) for kind in chess.PIECE_TYPES[1:])
        if _FROM.search(before):
            yield from ((kind, square) for kind in chess.PIECE_TYPES)
        if _is_pawn_move(before, after, square, hidden):
            yield chess.PAWN, square
        for kind, (ahead, behind, standing) in _SPOKEN.items():
            stands = board is not None and _stands(board, square, kind) and standing.search(before)
            if behind.search(after) or (ahead.search(before) and not stands):
                yield kind, square


def _is_pawn_move(before: str, after: str, square: str, hidden: frozenset[str]) -> bool:
    if _NUMBERED.search(before) or _PUSH.search(before) or _SIGNED.match(after):
        return True
    taking = _FILE_TAKES.search(before)
    return taking is not None and any(
        move.startswith(f"{taking['file']}x{square}") for move in hidden
    )


def _stands(board: chess.Board, square: str, kind: int) -> bool:
    return board.piece_type_at(chess.parse_square(square)) == kind
