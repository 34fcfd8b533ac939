"""Moves in the prose of a lesson, checked at the moments that the prose speaks of.

A numbered move (``14. Nd5``) must be legal in a position of the lesson where
that number is played, or behind the moves that the same text has just given.
A move without a number (``Nd5``, ``exd5``) must be legal at a position of its
section: there, just before, further along the text, or if the other side
passed (a threat); a piece that stands on the square it names is no move
(``the Nd5``), and a move that led here may be spoken of.  A square alone
(``e4``) is read as a move only behind another move.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import chess
import chess.pgn

from chessnb.board.sides import SIDES
from chessnb.errors import NotationError
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.addresses import walk
from chessnb.notation import read_move
from chessnb.notebooks import cell_key, is_edited
from chessnb.notebooks.verification.named_positions import CodeReader, sections

_AHEAD = 6
"""How many plies of the game behind a position the prose may speak of in advance."""

_BACK = 24
"""How many positions that the text has told a move without a number may go back to."""

_FENCED = re.compile(r"(?ms)^ {0,3}(```|~~~).*?(?:^ {0,3}\1|\Z)")
_SPAN = re.compile(r"`[^`\n]*`")
_REMARK = re.compile(r"(?s)<!--.*?-->")
_INDENTED = re.compile(r"(?m)(?<=\n\n)(?:(?: {4}|\t)[^\n]*\n?)+")
_TAG = re.compile(r"<[^<>\n]*>")
_LINK = re.compile(r"\]\([^()\[\n]*\)")
_PIECES = "KQRBN♔♕♖♗♘♚♛♜♝♞"
_MENTION = re.compile(
    rf"""(?<![\w./-])
      (?P<number>\d+\s*(?:\.{{1,3}}|…)\s*)?(?P<dots>(?<!\.)(?:\.{{3}}|…)\s?)?
      (?P<move>
          [{_PIECES}][a-h]?[1-8]?[x×-]?[a-h][1-8]
        | [a-h][1-8]?[x×][a-h][1-8](?:=?[QRBN])?
        | [a-h][18]=[QRBN]
        | [O0]-[O0](?:-[O0])?
        | [a-h][1-8](?:-[a-h][1-8])?
      )
      (?P<sign>[+#]|\+\+)?
      (?![\w=])(?!-[a-h]?[1-8])""",
    re.VERBOSE,
)
_BETWEEN = re.compile(r"^[\s!?,*_±∓⩲⩱=∞□+−()\[\]]*$")


@dataclass(frozen=True, kw_only=True)
class WrongMove:
    """A move in the prose that is not legal where the prose speaks.

    Attributes
    ----------
    cell : int
        The cell, counted from 1.
    text : str
        The move as the prose has it.
    reason : str
        Why it is wrong, in a sentence without a full stop.
    """

    cell: int
    text: str
    reason: str


def wrong_moves(notebook: Mapping[str, Any], *, folder: Path) -> list[WrongMove]:
    """List the moves in a lesson's Markdown that are not legal at its positions.

    Parameters
    ----------
    notebook : notebook
        The lesson, as nbformat reads it.
    folder : Path
        Where it lies.

    Returns
    -------
    list of WrongMove
        In the order of the text; empty also if the notebook reads no lesson.

    Notes
    -----
    About a second for 300 plies told in one section with 180 moves without numbers.
    """
    cells = notebook["cells"]
    reader = CodeReader(folder)
    named = [
        reader.moments(str(cell["source"])) if cell["cell_type"] == "code" else [] for cell in cells
    ]
    if not reader.lessons:
        return []
    places = Places(reader.lessons)
    faults: list[WrongMove] = []
    before: list[Moment] = []
    for section in sections(cells):
        moments = [moment for index in section for moment in named[index]]
        reading = _Section(places, moments or before)
        for index in section:
            if cells[index]["cell_type"] == "markdown" and not _is_title(cells[index]):
                faults.extend(reading.check(str(cells[index]["source"]), cell=index + 1))
        before = moments or before
    return faults


def _is_title(cell: Mapping[str, Any]) -> bool:
    """Tell whether a cell is a drafted title page: names and events, whatever they look like."""
    return cell_key(cell) == "title" and not is_edited(cell)


class Places:
    """The positions of a notebook's lessons, by move number and side to move."""

    def __init__(self, lessons: Sequence[Lesson]) -> None:
        self.by_number: dict[tuple[int, chess.Color], list[chess.Board]] = {}
        self.moves: set[str] = set()
        for lesson in lessons:
            trees = [lesson.game] if lesson.game is not None else []
            for tree in (*trees, *lesson.positions.values()):
                self._add(tree)

    def _add(self, tree: chess.pgn.Game) -> None:
        # The same node is asked for its board once: building one replays the game.
        boards: dict[chess.pgn.GameNode, chess.Board] = {tree: tree.board()}
        self._note(boards[tree])
        for node in walk(tree):
            before = boards[node.parent]
            self.moves.add(_bare(before.san(node.move)))
            boards[node] = board = before.copy(stack=False)
            board.push(node.move)
            self._note(board)

    def _note(self, board: chess.Board) -> None:
        self.by_number.setdefault((board.fullmove_number, board.turn), []).append(board)


class _Section:
    """One section of the prose: the positions that it may speak of, and those it has reached."""

    def __init__(self, places: Places, moments: Sequence[Moment]) -> None:
        self.places = places
        self.told: list[chess.Board] = []  # the positions that the text has played through
        self.near = list(_near(moments))
        self.past = {_bare(san) for moment in moments for san in _moves_to(moment)}
        self.anywhere = not moments

    def check(self, source: str, *, cell: int) -> Iterator[WrongMove]:
        """Yield the wrong moves of one Markdown cell."""
        text = visible(source)
        behind = None  # where the last move of the line ended, if one is being told
        for mention in _MENTION.finditer(text):
            follows = behind is not None and bool(_BETWEEN.match(text[behind : mention.start()]))
            said = f"{mention['number'] or ''}{mention['move']}"
            if mention["number"]:
                reason = self._numbered(mention)
            elif follows and self._continues(mention):
                reason = ""
            elif _is_square(mention["move"]):
                behind = None
                continue
            else:
                reason = self._unnumbered(mention)
            if reason:
                yield WrongMove(cell=cell, text=" ".join(said.split()), reason=reason)
            behind = None if reason else mention.end() + len(_glyphs(text, mention.end()))

    def _numbered(self, mention: re.Match[str]) -> str:
        """Play a numbered move; return what is wrong with it."""
        wanted = int(re.match(r"\d+", mention["number"])[0])  # type: ignore[index]
        black = "..." in mention["number"] or "…" in mention["number"] or bool(mention["dots"])
        key = (wanted, not black)
        told = [b for b in reversed(self.told) if (b.fullmove_number, b.turn) == key]
        boards = [*told, *self.places.by_number.get(key, [])]
        if not boards:
            return f"the lesson has no position where {SIDES[not black]} plays move {wanted}"
        return self._play_on_one(boards, mention)

    def _continues(self, mention: re.Match[str]) -> bool:
        return bool(self.told) and not self._play_on_one([self.told[-1]], mention)

    def _unnumbered(self, mention: re.Match[str]) -> str:
        boards = [*reversed(self.told[-_BACK:]), *self.near]
        bare = _bare(mention["move"])
        if bare in self.past or (self.anywhere and bare in self.places.moves):
            return ""
        if any(_stands_there(board, mention["move"]) for board in boards):
            return ""
        passed = [other for board in boards if (other := _passed(board)) is not None]
        if not boards:
            return ""
        return self._play_on_one([*boards, *passed], mention)

    def _play_on_one(self, boards: Sequence[chess.Board], mention: re.Match[str]) -> str:
        """Play a move on the first board where it is legal and as said; else say why not."""
        reason = ""
        for board in boards:
            if reason and not _may_be_legal(board, mention["move"]):
                continue
            try:
                move = read_move(board, mention["move"])
            except NotationError as error:
                reason = reason or f"{error.reason} ({_whose_move(board)})"
                continue
            after = board.copy()
            after.push(move)
            if mention["sign"] == "#" and not after.is_checkmate():
                reason = f"{board.san(move)} is not checkmate ({_whose_move(board)})"
                continue
            self.told.append(board)
            self.told.append(after)
            return ""
        return reason


def _whose_move(board: chess.Board) -> str:
    return f"{SIDES[board.turn]} to move, move {board.fullmove_number}"


def _may_be_legal(board: chess.Board, text: str) -> bool:
    """Tell cheaply whether a move is worth reading on a board: something may go to its square."""
    squares = re.findall(r"[a-h][1-8]", text)
    if not squares:
        return True  # castling
    goal = chess.BB_SQUARES[chess.parse_square(squares[-1])]
    return any(board.generate_legal_moves(to_mask=goal))


def visible(source: str) -> str:
    """Return the text of Markdown that is prose: no code, tags, link targets or escapes."""
    text = _FENCED.sub(" ", source)
    for pattern in (_REMARK, _INDENTED, _SPAN, _TAG, _LINK):
        text = pattern.sub(" ", text)
    text = re.sub(r"\\([!-/:-@\[-`{-~])", r"\1", text)
    return html.unescape(text.replace("**", "").replace("__", ""))


def _near(moments: Sequence[Moment]) -> Iterator[chess.Board]:
    """Yield the positions around those of a section, the likeliest first."""
    for moment in moments:
        yield moment.board
    for moment in moments:
        if moment.back is not None:
            yield moment.back.board
        following = moment.next
        for _ in range(_AHEAD):
            if following is None:
                break
            yield following.board
            following = following.next
        for branch in moment.branches[1:]:
            yield branch.board


def _moves_to(moment: Moment) -> Iterator[str]:
    node: chess.pgn.GameNode | None = moment.node
    while isinstance(node, chess.pgn.ChildNode):
        yield node.san()
        node = node.parent


def _bare(san: str) -> str:
    return san.rstrip("+#!?")


def _is_square(text: str) -> bool:
    return bool(re.fullmatch(r"[a-h][1-8](?:-[a-h][1-8])?", text))


def _stands_there(board: chess.Board, text: str) -> bool:
    """Tell whether ``Nd5`` can mean the knight on d5."""
    match = re.fullmatch(rf"([{_PIECES}])([a-h][1-8])", text)
    if match is None:
        return False
    letter = "KQRBNKQRBN"[_PIECES.index(match[1])] if match[1] in _PIECES[5:] else match[1]
    piece = board.piece_at(chess.parse_square(match[2]))
    return piece is not None and piece.symbol().upper() == letter


def _passed(board: chess.Board) -> chess.Board | None:
    if board.is_check():
        return None
    other = board.copy(stack=False)
    other.push(chess.Move.null())
    return other


def _glyphs(text: str, position: int) -> str:
    match = re.match(r"[!?]*", text[position:])
    return match[0] if match else ""
