"""Movetext: moves with numbers, glyphs, comments and variations, read strictly.

The form is the movetext section of the PGN standard (import format, section
8.2), widened by what people really type: castling with the figure 0,
figurines, long algebraic, a piece in brackets for a promotion, printed
evaluation signs.  What cannot be read is an error with its line; only what
the standard keeps for later, ``<...>``, is passed over.  The tree is
python-chess's own and is built by its ``GameBuilder``, so that it is the tree
its reader would give.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NoReturn

import chess
import chess.pgn

from chessnb.board.naming import number
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.errors import GameFileError, MalformedMove, NotationError, cut_short
from chessnb.notation.move_reader import read_written

Kind = Literal["move", "number", "nag", "comment", "open", "close", "result"]

RESULTS = ("1-0", "0-1", "1/2-1/2", "*")
"""The game termination markers of the PGN standard, section 8.2.6."""

GLYPHS = {
    1: "!", 2: "?", 3: "!!", 4: "??", 5: "!?", 6: "?!", 7: "□", 10: "=", 13: "∞", 14: "⩲", 15: "⩱",
    16: "±", 17: "∓", 18: "+−", 19: "−+", 22: "⨀", 23: "⨀",
}  # fmt: skip
"""Numeric Annotation Glyphs (PGN standard, section 10) as they are printed.

A number that is not here, such as one that the standard does not know, is
kept in the file and not shown.
"""

_GLYPH_NAGS = {"!": 1, "?": 2, "!!": 3, "??": 4, "!?": 5, "?!": 6}
# The numbers are the PGN standard's (section 10).
_SIGN_NAGS = {
    "=": 10, "∞": 13, "+/=": 14, "⩲": 14, "+=": 14, "=/+": 15, "⩱": 15, "=+": 15,
    "+/-": 16, "±": 16, "-/+": 17, "∓": 17, "+-": 18, "+−": 18, "-+": 19, "−+": 19,
    "e.p.": None, "ep": None,
}  # fmt: skip

_TOKEN = re.compile(
    r"""(?P<space>\s+)
      | (?P<escape>(?<![^\n])%[^\n]*)  # PGN standard, section 6
      | \{(?P<comment>[^}]*)\}
      | ;(?P<rest>[^\n]*)
      | (?P<open>\() | (?P<close>\))
      | \$(?P<nag>\d{1,9})(?!\d)
      | (?P<result>(?:1-0|0-1|1/2-1/2|½-½|\*)(?=[\s(){};]|$))
      | (?P<number>(?!0000)\d{1,9}(?=[.\s…]|$)(?:\s*(?:\.+|…))*)
      | (?P<reserved><[^>]*>)
      | (?P<dots>\.+|…)
      | (?P<word>(?:
            [^\s(){};$.!?]
          | \((?=[QRBNqrbn]\)) | (?<=\([QRBNqrbn])\)  # e8(Q)
          | (?<=e)\.(?=\s?p\.) | (?<=p)\.               # e.p.
        )+)
      | (?P<glyph>[!?]{1,2})
    """,
    re.VERBOSE,
)


@dataclass(frozen=True, kw_only=True)
class Token:
    """One piece of movetext: what it is, its text, and the line it stands on."""

    kind: Kind
    text: str
    line: int


def tokens(text: str, *, path: str = "the text", first_line: int = 1) -> Iterator[Token]:
    """Cut movetext into tokens.

    Raises
    ------
    GameFileError
        At the first thing that is no movetext, or at a comment without an end.
    """
    line, position = first_line, 0
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    while position < len(text):
        match = _TOKEN.match(text, position)
        if match is None:
            _refuse(text, position, path=path, line=line)
        kind = match.lastgroup
        assert kind is not None
        if token := _token(kind, match, line):
            yield token
        line += match.group().count("\n")
        position = match.end()


def _token(kind: str, match: re.Match[str], line: int) -> Token | None:
    text = match[kind]
    if kind in ("comment", "rest"):
        return Token(kind="comment", text=text.strip(), line=line)
    if kind == "result":
        return Token(kind="result", text=text.replace("½-½", "1/2-1/2"), line=line)
    if kind == "glyph":
        return Token(kind="nag", text=str(_GLYPH_NAGS[text]), line=line)
    if kind == "word":
        return _word(text, line)
    if kind in ("number", "nag", "open", "close"):
        return Token(kind=kind, text=text, line=line)  # type: ignore[arg-type]
    return None


def _word(text: str, line: int) -> Token | None:
    if text not in _SIGN_NAGS:
        return Token(kind="move", text=text, line=line)
    nag = _SIGN_NAGS[text]
    return None if nag is None else Token(kind="nag", text=str(nag), line=line)


def _refuse(text: str, position: int, *, path: str, line: int) -> NoReturn:
    if text[position] == "{":
        reason = "the comment that opens here has no closing brace }: is the file cut off?"
    elif text[position] == "}":
        reason = "a closing brace } stands here without an opening one"
    else:
        excerpt = text[position : position + 20].split("\n")[0]
        reason = f"{excerpt!r} is no movetext"
    raise GameFileError(reason, path=path, line=line)


class Builder:
    """Builds a game tree from tokens, move by legal move.

    Parameters
    ----------
    game : chess.pgn.Game
        A game with its headers and no moves; it is filled.
    path : str or None
        The file, for messages.  Without one, a wrong move raises the
        `NotationError` itself.
    check_numbers : bool
        Refuse a move number that is not the position's.
    """

    def __init__(
        self, game: chess.pgn.Game, *, path: str | None = None, check_numbers: bool = False
    ) -> None:
        self.path = path
        self.check_numbers = check_numbers
        self.visitor: chess.pgn.GameBuilder[chess.pgn.Game] = chess.pgn.GameBuilder()
        self.visitor.begin_game()
        self.visitor.game = game
        self.visitor.variation_stack = [game]
        self.boards = [game.board()]
        self.moved = [False]  # whether the current line, and those around it, have a move
        self.followed = [False]  # whether their last move was in the tree already
        self.openings: list[Token] = []
        self.pending_nags: list[int] = []
        self.ended = False
        self.result: str | None = None
        self.swallowed: Token | None = None  # a comment that seems to hold another game

    def add(self, token: Token) -> None:
        """Take one more token."""
        getattr(self, f"_add_{token.kind}")(token)

    def finish(self) -> chess.pgn.Game:
        """Return the game; every variation must be closed."""
        if self.openings:
            raise GameFileError(
                "the variation that opens here has no closing bracket ): is the file cut off?",
                path=self.path or "the text",
                line=self.openings[-1].line,
            )
        return self.visitor.game

    def _add_move(self, token: Token) -> None:
        if self.ended and not self.openings:
            self._structure(
                f"{token.text} follows the result: does another game begin here?", token
            )
        board = self.boards[-1]
        try:
            move = self._read(board, token)
        except NotationError as error:
            self._wrong_move(error, board, token)
        self._play(board, move)
        for nag in self.pending_nags:
            self.visitor.visit_nag(nag)
        self.pending_nags.clear()
        board.push(move)
        self.moved[-1] = True

    def _play(self, board: chess.Board, move: chess.Move) -> None:
        """Add a move to the tree; one that is there already is followed, not doubled."""
        visitor, parent = self.visitor, self.visitor.variation_stack[-1]
        if not parent.has_variation(move):
            visitor.visit_move(board, move)
            child = visitor.variation_stack[-1]
            if len(parent.variations) > 1 and self.moved[-1] and not self.followed[-1]:
                # A sideline that repeats this line has put its own move first.
                parent.promote_to_main(child.move)  # type: ignore[arg-type]
            self.followed[-1] = False
            return
        child = parent.variation(move)
        visitor.variation_stack[-1] = child
        if visitor.starting_comment:
            child.comment = f"{visitor.starting_comment} {child.comment}".strip()
        visitor.starting_comment, visitor.in_variation = "", True
        self.followed[-1] = True

    @staticmethod
    def _read(board: chess.Board, token: Token) -> chess.Move:
        try:
            return board.parse_san(token.text)
        except ValueError:
            return read_written(board, token.text)

    def _wrong_move(self, error: NotationError, board: chess.Board, token: Token) -> NoReturn:
        if self.path is None:
            raise error
        where = f"{number(board)} {cut_short(token.text)}"
        hint = ""
        if self.openings:
            hint = (
                f" The bracket that opened in line {self.openings[-1].line} is still open here: "
                "is a ) missing?"
            )
        if self.swallowed is not None:
            hint = (
                f" Has the comment in line {self.swallowed.line} no closing brace }}? "
                "It holds the headers of another game"
            )
        raise GameFileError(
            f"{where}: {error.reason} [{board.fen()}]{hint}", path=self.path, line=token.line
        ) from error

    def _add_number(self, token: Token) -> None:
        board = self.boards[-1]
        if not self.check_numbers:
            return
        said = int(re.match(r"\d+", token.text)[0])  # type: ignore[index]
        dots = token.text.count(".") + 3 * token.text.count("…")
        if (
            said != board.fullmove_number
            or (dots >= 2 and board.turn)
            or (dots == 1 and not board.turn and not self.moved[-1])
        ):
            raise MalformedMove(
                f"the next move is {SIDES[board.turn]}'s, number {number(board)}",
                text=token.text.strip(),
                fen=board.fen(),
            )

    def _add_nag(self, token: Token) -> None:
        if self.moved[-1]:
            self.visitor.visit_nag(int(token.text))
        else:
            self.pending_nags.append(int(token.text))

    def _add_comment(self, token: Token) -> None:
        if '\n[Event "' in token.text:
            self.swallowed = token
        self.visitor.visit_comment(token.text)

    def _add_open(self, token: Token) -> None:
        if not self.moved[-1]:
            self._structure("a variation begins before the move that it replaces", token)
        board = self.boards[-1].copy()
        board.pop()
        self.boards.append(board)
        self.moved.append(False)
        self.followed.append(False)
        self.openings.append(token)
        self.visitor.begin_variation()

    def _add_close(self, token: Token) -> None:
        if not self.openings:
            self._structure("a closing bracket ) stands here without an opening one", token)
        if not self.moved[-1]:
            self._structure("the variation that closes here has no moves", token)
        self.openings.pop()
        self.moved.pop()
        self.followed.pop()
        self.boards.pop()
        self.visitor.end_variation()

    def _add_result(self, token: Token) -> None:
        if not self.openings:
            self.visitor.visit_result(token.text)
            self.ended, self.result = True, token.text

    def _structure(self, reason: str, token: Token) -> NoReturn:
        raise GameFileError(reason, path=self.path or "the text", line=token.line)


def read_movetext(text: str, *, position: Position = "start") -> chess.pgn.Game:
    """Read movetext with its comments, glyphs and variations into a game tree.

    Parameters
    ----------
    text : str
        Such as ``"1. e4 e5 (1... c5 {sharper}) 2. Nf3! Nc6"``.
    position : chess.Board, Moment or str
        Where the first move is played.

    Returns
    -------
    chess.pgn.Game
        The tree; its headers hold the position if it is not the starting one.

    Raises
    ------
    NotationError
        At a move that is not legal, not clear, or wrongly numbered.
    GameFileError
        At anything that is no movetext, with its line.

    Examples
    --------
    >>> game = read_movetext("1. e4 e5 (1... c5 {sharper}) 2. Nf3!")
    >>> game.end().san(), game.end().nags, game[0].variations[1].comment
    ('Nf3', {1}, 'sharper')
    """
    board = read_position(position, legal=False)
    game = chess.pgn.Game()
    if board.fen() != chess.STARTING_FEN:
        game.setup(board.copy(stack=False))
    builder = Builder(game, check_numbers=True)
    for token in tokens(text):
        builder.add(token)
    return builder.finish()


def write_movetext(game: chess.pgn.GameNode, *, columns: int | None = None) -> str:
    """Write a game's moves with comments, glyphs and variations, without headers.

    Parameters
    ----------
    game : chess.pgn.GameNode
        The game, or a node: then what follows it.
    columns : int or None
        Where to break lines; ``None`` for one line.

    Returns
    -------
    str
        PGN movetext in export format.
    """
    exporter = chess.pgn.StringExporter(columns=columns, headers=False)
    return str(game.accept(exporter)).strip()
