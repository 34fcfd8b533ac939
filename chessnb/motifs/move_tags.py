"""The tags of a move: which tactics it shows, in the line that follows it."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.position import Position, read_position
from chessnb.board.turns import moved
from chessnb.errors import ChessnbError, LessonError
from chessnb.findings import gathered
from chessnb.findings.record_fields import place_of
from chessnb.lessons import Moment
from chessnb.mistakes import checked
from chessnb.motifs.case import BUDGET, WITHIN, Case
from chessnb.motifs.collection import MOTIFS
from chessnb.motifs.evidence import Tag, Tags
from chessnb.motifs.motif import Motif
from chessnb.notation import LineLike, MoveLike, read_line, read_move


@gathered
@checked
def tag(
    position: Position,
    move: MoveLike | None = None,
    *,
    line: LineLike = (),
    geometric: bool = False,
    within: int = WITHIN,
    budget: int = BUDGET,
) -> Tags:
    """Name the tactics of a move.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move; or, without `move`, a ``Moment``: then the
        move is the one that led there, and the line is the lesson's.
    move : str or chess.Move, optional
        A legal move; the first of `line` if it is left out.
    line : str or sequence of moves
        What follows (or the move and what follows): of several ways to win
        it says which is meant.
    geometric : bool
        Also return patterns that win nothing that is proved.  Those that only
        the line that followed completes, such as a windmill, are returned in
        any case, and say so.
    within : int
        What the move wins is looked for within so many moves of its side.
    budget : int
        Positions for each question.

    Returns
    -------
    Tags
        A tuple of tags, from the point of view of the side that moves; empty if there is no tactic.

    Raises
    ------
    NotationError
        If the move or the line is not legal.
    LessonError
        If there is no move to look at.

    Examples
    --------
    >>> print(tag("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")[0].words)
    fork: The knight on c7 forks the rook on a8 and the king on e8 (2 points (rook for knight))

    Notes
    -----
    A few hundredths of a second where nothing is won, up to a second
    otherwise, where the solver is compiled.
    """
    case = case_of(position, move, line=line, within=within, budget=budget)
    found = (one for one in _found(case, geometric) if geometric or one.sound or one.as_played)
    return Tags(found, place=place_of(case.before, case.move))


def followed(moment: Moment) -> Iterator[Tag]:
    """Yield the tactics of a lesson's move that the line itself completes; nothing is proved."""
    case = case_of(moment)
    for motif in MOTIFS:
        if motif.proving == "line":
            yield from (found for found in motif.find(case) if found.as_played)


def _found(case: Case, geometric: bool) -> Iterator[Tag]:
    """Yield all tags of a case, each once."""
    seen = set()
    for motif in MOTIFS:
        if not (geometric or _may_be_sound(motif, case)):
            continue
        for found in motif.find(case):
            key = (found.motif, found.actor, found.targets)
            if key not in seen:
                seen.add(key)
                yield found


def _may_be_sound(motif: Motif, case: Case) -> bool:
    """Tell whether a motif is worth looking for where only what is proved is told."""
    if motif.proving == "gain":
        return case.proof is not None
    return motif.proving in ("draw", "line")


def case_of(
    position: Position,
    move: MoveLike | None = None,
    *,
    line: LineLike = (),
    within: int = WITHIN,
    budget: int = BUDGET,
) -> Case:
    """Put a move in its context; see :func:`tag`."""
    if move is None and not line:
        if not isinstance(position, Moment) or position.move is None or position.back is None:
            read_position(position)  # what is no position is told before what is no move
            raise LessonError(_NO_MOVE)
        before, played, rest = position.back.board, position.move, _continuation(position)
    else:
        before = read_position(position)
        played, rest = _moves(before, move, line)
    return Case(before=before, move=played, line=rest, within=within, budget=budget)


_NO_MOVE = "name a move: no move led to this position"


def _moves(
    before: chess.Board, move: MoveLike | None, line: LineLike
) -> tuple[chess.Move, tuple[chess.Move, ...]]:
    if move is None:
        moves = read_line(before, line)
        if not moves:
            raise LessonError(_NO_MOVE)
        return moves[0], moves[1:]
    played = read_move(before, move)
    try:
        moves = read_line(moved(before, [played]), line)
    except ChessnbError as error:
        try:
            moves = read_line(before, line)
        except ChessnbError:
            raise error from None
    return played, moves[1:] if moves[:1] == (played,) else moves


def _continuation(moment: Moment) -> tuple[chess.Move, ...]:
    moves = []
    following = moment.next
    while following is not None and following.move:
        moves.append(following.move)
        following = following.next
    return tuple(moves)
