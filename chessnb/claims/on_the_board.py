"""Claims about pieces and squares that the board shows: material, attack, pins, pawns.

They follow from the rules and from counting; only :func:`trapped` needs a search.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from typing import Literal

import chess

from chessnb.board.exchange import nets
from chessnb.board.lines import pinner_of
from chessnb.board.naming import NUMBERS, counted, listed, the_piece
from chessnb.board.pieces import PieceKind, read_piece
from chessnb.board.points import POINTS
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.board.squares import Square, read_square
from chessnb.board.turns import after_pass, as_if_to_move
from chessnb.claims.asked import QUIET_END, TOO_FEW, best, measured, refuse_if_over
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim, said
from chessnb.claims.material_words import is_true_of
from chessnb.diagrams import Mark
from chessnb.errors import InputError, as_given
from chessnb.facts import material as material_of
from chessnb.facts import pawns, pressure
from chessnb.findings import Record
from chessnb.findings.record import quoted
from chessnb.findings.record_fields import piece_on, side_word
from chessnb.notation import write_line
from chessnb.proof import Gain, Mate, Proof
from chessnb.proof.goals import MOST_MOVES, whole_number
from chessnb.proof.measure import Measure
from chessnb.search.prover import Outcome, prove

PawnWord = Literal["isolated", "doubled", "passed", "backward"]
PAWN_WORDS: tuple[PawnWord, ...] = ("isolated", "doubled", "passed", "backward")


@checked
def material(position: Position, says: str) -> Claim:
    """Claim how the material stands, in the words in which it is counted.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    says : str
        ``"even"``, what :func:`chessnb.facts.material` says, such as ``"White is
        a pawn ahead"``, or any true words for it: ``"a piece down"`` of a side,
        ``"rook, two bishops and a pawn for the queen"``.

    Raises
    ------
    FalseClaim
        With how the material stands.
    ClaimError
        If the words are not understood.

    Examples
    --------
    >>> print(material("start", "even"))
    1. | material | even | rules
    """
    if not isinstance(says, str):
        raise ClaimError(
            "says is the material in words, such as 'even' or 'White is a pawn ahead', not"
            f" {as_given(says)}"
        )
    board = read_position(position)
    found = material_of(board)
    truth = found.in_words
    told = _plain(says)
    even = found.balance == 0 and found.white == found.black
    if told.removeprefix("material is ") in ("even", "level", "equal", "nobody is ahead"):
        claimed = said(board, "material", "even")
        if even or found.balance == 0:
            extra = () if even else (f"In points; {truth}.",)
            return Claim(said=claimed, fen=board.fen(), evidence=extra)
        raise FalseClaim(claimed, truth, board=board)
    true = told in (_plain(truth), _plain(truth.split(";")[0])) or is_true_of(found, says)
    if true is None:
        raise ClaimError(
            f"{as_given(says)} is not understood as a count of the material; say it as in"
            f" {truth!r} [{board.fen()}]"
        )
    if not true:
        raise FalseClaim(said(board, "material", quoted(says)), truth, board=board)
    return Claim(said=found.record, fen=board.fen())


def _plain(text: str) -> str:
    return " ".join(text.lower().rstrip(". ").split())


@checked
def attacked(
    position: Position,
    square: Square,
    *,
    by: int | None = None,
    defended_by: int | None = None,
    side: Side | None = None,
) -> Claim:
    """Claim that a square is attacked: by how many, defended by how many.

    Counted as :func:`chessnb.facts.pressure` does: batteries included, pinned
    pieces left out unless they take along the pin.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    square : str or chess.Square
        Such as ``"f6"``.
    by, defended_by : int, optional
        The numbers; without `by` at least one attacker.
    side : {"White", "Black"} or chess.Color, optional
        The side that attacks; the enemy of the piece there if it is left out.

    Examples
    --------
    >>> attacked("4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1", "d5", by=2, defended_by=1).words
    'the pawn on d5 is attacked by 2, defended by 1'
    """
    board = read_position(position)
    _check_number("by", by)
    _check_number("defended_by", defended_by)
    found = pressure(board, square, side=side)
    wanted = [] if side is None else [side_word(found.side)]
    wanted += [*_count("attackers", by), *_count("defenders", defended_by)]
    claimed = said(board, "attacked", piece_on(board, read_square(square)), *wanted)
    wrong = (by is None and not found.attacked_by) or (by not in (None, found.attacked_by))
    if wrong or defended_by not in (None, found.defended_by):
        raise FalseClaim(claimed, found.words, board=board, marks=found.picture.marks)
    return Claim(
        said=claimed,
        fen=board.fen(),
        evidence=(f"{found.words}.",),
        marks=found.picture.marks,
    )


def _count(what: str, number: int | None) -> list[str]:
    """Return a claimed number as the field of a record; nothing where none is claimed."""
    return [] if number is None else [f"{what} {number}"]


@checked
def defended(position: Position, square: Square, *, by: int | None = None) -> Claim:
    """Claim that what stands on a square is defended, at all or by so many.

    Counted as :func:`attacked` counts.

    Examples
    --------
    >>> defended("4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1", "d5", by=1).words
    'the pawn on d5 is defended by 1'
    """
    board = read_position(position)
    _check_number("by", by)
    found = pressure(board, square)
    there = piece_on(board, read_square(square))
    claimed = said(board, "defended", there, *_count("defenders", by))
    if (by is None and not found.defended_by) or by not in (None, found.defended_by):
        raise FalseClaim(claimed, found.words, board=board, marks=found.picture.marks)
    return Claim(
        said=claimed,
        fen=board.fen(),
        evidence=(f"{found.words}.",),
        marks=found.picture.marks,
    )


def _check_number(name: str, value: object) -> None:
    """Refuse what is no number of pieces; where a side was meant, with how that is written."""
    if value is None or (isinstance(value, int) and not isinstance(value, bool) and value >= 0):
        return
    try:
        said = SIDES[read_side(value)]  # type: ignore[arg-type]
    except InputError:
        meant = ""
    else:
        meant = f": write side={said!r} for the side that attacks"
    raise ClaimError(f"{name} is a number of pieces, not {as_given(value)}{meant}")


@checked
def pinned(position: Position, square: Square, *, to: Square | PieceKind = "king") -> Claim:
    """Claim that a piece is pinned: to its king, or to another piece that is worth more.

    A piece that can take what pins it, and loses nothing by it, is not pinned
    to another piece.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    square : str or chess.Square
        Where the pinned piece stands.
    to : str, chess.Square or chess.Piece
        What stands behind it: ``"king"``, another piece (``"queen"``) or its
        square (``"d8"``).

    Raises
    ------
    ClaimError
        If `to` is neither, or the side has several such pieces.

    Examples
    --------
    >>> pinned("4k3/8/2n5/1B6/8/8/8/4K3 b - - 0 1", "c6").words
    'the knight on c6 is pinned to the king on e8 by the bishop on b5'
    """
    board = read_position(position)
    place = read_square(square)
    color = board.color_at(place)
    claimed = said(board, "pinned", piece_on(board, place))
    if color is None:
        raise FalseClaim(claimed, f"{chess.square_name(place)} is empty", board=board)
    if place == board.king(color):
        raise FalseClaim(claimed, "a king is never pinned; it is in check, or not", board=board)
    behind = _behind(board, to, place)
    if behind is None:
        reason = f"{SIDES[color]} has no {chess.piece_name(read_piece(to))} to pin it to"
        raise FalseClaim(claimed, reason, board=board)
    pinner = _pinner(board, place, behind, color)
    claimed = said(board, "pinned", piece_on(board, place), f"to {piece_on(board, behind)}")
    if isinstance(pinner, str):
        raise FalseClaim(claimed, pinner, board=board)
    if behind != board.king(color) and _may_take(board, place, pinner):
        reason = f"it can take {the_piece(board, pinner)} along the line, and loses nothing by it"
        raise FalseClaim(claimed, reason, board=board, marks=_pin_marks(pinner, place, behind))
    return Claim(
        said=said(board, "pinned", *claimed.fields, f"by {piece_on(board, pinner)}"),
        fen=board.fen(),
        marks=_pin_marks(pinner, place, behind),
    )


def _behind(board: chess.Board, to: Square | PieceKind, place: chess.Square) -> chess.Square | None:
    """Return the square of what a piece is said to be pinned to; None if nothing such is there.

    Raises
    ------
    ClaimError
        If `to` is neither a piece nor a square, or several pieces are meant.
    """
    with suppress(InputError):
        return read_square(to)  # type: ignore[arg-type]
    try:
        kind = read_piece(to)
    except InputError:
        raise ClaimError(
            "to is “king”, another piece, or the square of what stands behind, such as to='d8';"
            f" not {as_given(to)}"
        ) from None
    color = bool(board.color_at(place))
    there = [chess.square_name(one) for one in board.pieces(kind, color) if one != place]
    if len(there) > 1:
        which = listed([f"to={square!r}" for square in there], joint="or")
        pieces = f"{NUMBERS[len(there)]} {chess.piece_name(kind)}s"
        raise ClaimError(f"{SIDES[color]} has {pieces}: say which, {which} [{board.fen()}]")
    return chess.parse_square(there[0]) if there else None


def _pinner(
    board: chess.Board, square: chess.Square, behind: chess.Square, color: chess.Color
) -> chess.Square | str:
    """Return the piece that pins, or why there is none."""
    if board.color_at(behind) != color:
        return f"no piece or pawn of {SIDES[color]}'s stands on {chess.square_name(behind)}"
    if behind == board.king(color):
        if board.is_pinned(color, square):
            return pinner_of(board, square)
        return "no line of an enemy piece through it ends at its king"
    if POINTS[_kind(board, behind)] <= POINTS[_kind(board, square)]:
        return f"{the_piece(board, behind)} is worth no more than it"
    if not chess.SquareSet.between(square, behind) & board.occupied:
        for attacker in board.attackers(not color, square) & chess.SquareSet.ray(square, behind):
            slides = _kind(board, attacker) in (chess.BISHOP, chess.ROOK, chess.QUEEN)
            if slides and square in chess.SquareSet.between(attacker, behind):
                return attacker
    return f"no line of an enemy piece goes through it to {the_piece(board, behind)}"


def _may_take(board: chess.Board, square: chess.Square, pinner: chess.Square) -> bool:
    """Tell whether a piece could take the piece that pins it without a loss."""
    ours = as_if_to_move(board, bool(board.color_at(square)))
    take = chess.Move(square, pinner)
    return ours.is_legal(take) and nets(ours, take) >= 0


def _kind(board: chess.Board, square: chess.Square) -> chess.PieceType:
    return board.piece_type_at(square) or chess.PAWN


def _pin_marks(
    pinner: chess.Square, square: chess.Square, behind: chess.Square
) -> tuple[Mark, ...]:
    names = [chess.square_name(one) for one in (pinner, square, behind)]
    return (
        Mark(role="actor", square=names[0]),
        Mark(role="blocked", square=names[0], to=names[2]),
        Mark(role="target", square=names[1]),
    )


@checked
def trapped(position: Position, square: Square, *, within: int = 3, budget: int = 400_000) -> Claim:
    """Claim that a piece is trapped: attacked, and no move of its side saves it.

    Two things are proved: if its side passed, the piece would be taken with a
    gain; and so it is after every legal reply, wherever the piece itself goes.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position; the piece's side is to move, and not in check.
    square : str or chess.Square
        Where the piece stands.
    within : int
        So many moves of the side that wins it.
    budget : int
        Positions for each question.

    Examples
    --------
    >>> bishop = "6k1/5ppp/8/8/8/1P6/bKP5/8 b - - 0 1"
    >>> print(trapped(bishop, "a2"))
    1... | trapped | Ba2 | within 3 | proved
    """
    board = read_position(position)
    place = read_square(square)
    color = board.color_at(place)
    whole_number("within", within, most=MOST_MOVES)
    fields = piece_on(board, place), f"within {within}"
    claimed = said(board, "trapped", *fields, status="proved")
    if color is None:
        raise FalseClaim(claimed, f"{chess.square_name(place)} is empty", board=board)
    if color != board.turn:
        raise ClaimError(
            f"whether {the_piece(board, place)} is trapped shows when it is {SIDES[color]}'s move"
            f" [{board.fen()}]"
        )
    refuse_if_over(board, claimed)
    if not pressure(board, place).attacked_by:
        raise FalseClaim(claimed, "nothing attacks it", board=board)
    taken = _taken_after_a_pass(board, place, claimed, within=within, budget=budget)
    evidence = [f"If {SIDES[color]} passed: {write_line(taken.board, taken.main_line)}."]
    falls = _Falling(board=board, place=place, claimed=claimed, within=within, budget=budget)
    moves = sorted(board.legal_moves, key=lambda move: (move.from_square != place, move.uci()))
    lines = {move: falls.after(move) for move in moves}
    own = [line for move, line in lines.items() if move.from_square == place]
    evidence += [f"{write_line(board, line)}." for line in own] or ["It has no move."]
    if len(lines) > len(own):
        evidence.append("After every move of another piece it is lost as well.")
    return Claim(
        said=claimed,
        fen=board.fen(),
        evidence=tuple(evidence),
        caution=QUIET_END.format(horizon=f"within {counted(within, 'move')}"),
        marks=(Mark(role="target", square=chess.square_name(place)),),
        proof=taken,
    )


def _taken_after_a_pass(
    board: chess.Board, place: chess.Square, claimed: Record, *, within: int, budget: int
) -> Proof:
    """Prove that a piece is taken with a gain if its side passes, or refuse the claim."""
    passed = after_pass(board)
    if passed is None:
        reason = f"{SIDES[board.turn]} is in check, which has to be answered first"
        raise FalseClaim(claimed, reason, board=board)
    goal = Gain(points=1, within=within, measure=Measure.gain(passed))
    outcome = _taking(passed, place, goal, budget)
    if outcome.proof is not None:
        return outcome.proof
    if outcome.status == "not settled":
        raise UnprovedClaim(claimed, TOO_FEW, board=board)
    raise FalseClaim(claimed, "to take it wins nothing (searched)", board=board)


def _taking(board: chess.Board, place: chess.Square, goal: Gain, budget: int) -> Outcome:
    """Ask whether taking the piece on a square reaches a goal."""
    captures = [move for move in board.legal_moves if move.to_square == place]
    captures.sort(key=chess.Move.uci)
    none = Outcome(fen=board.fen(), attacker=board.turn, goal=goal, status="false")
    return best((prove(board, goal, move=capture, budget=budget) for capture in captures), none)


@dataclass(frozen=True, kw_only=True)
class _Falling:
    """What becomes of a piece that is said to be trapped."""

    board: chess.Board
    place: chess.Square
    claimed: Record
    within: int
    budget: int

    def after(self, move: chess.Move) -> tuple[chess.Move, ...]:
        """Return the line in which the piece falls after a reply, or refuse the claim.

        Raises
        ------
        FalseClaim
            If the reply saves it, as far as was searched.
        UnprovedClaim
            If that is not proved, or nobody can say what is lost.
        """
        after = self.board.copy()
        after.push(move)
        lost = partial(Measure.loss, self.board, since=(move,))
        measure = measured(self.claimed, self.board, lost)
        goal = Gain(points=1, within=self.within, measure=measure)
        there = move.to_square if move.from_square == self.place else self.place
        outcome = best(self._costs(after, there, goal))
        if outcome.proof is not None:
            return (move, *outcome.proof.main_line)
        named = write_line(self.board, (move,))
        if outcome.status == "not settled":
            reason = f"{named}: {TOO_FEW}"
            raise UnprovedClaim(self.claimed, reason, board=self.board, line=(move,))
        reason = f"{named} saves it (searched)"
        raise FalseClaim(self.claimed, reason, board=self.board, line=(move,))

    def _costs(self, after: chess.Board, there: chess.Square, goal: Gain) -> Iterator[Outcome]:
        """Yield what a reply may cost: the piece, or mate, or after a check still the piece."""
        yield _taking(after, there, goal, self.budget)
        yield prove(after, Mate(within=self.within), budget=self.budget)
        if after.is_check():
            yield prove(after, goal, budget=self.budget)


@checked
def pawn(position: Position, square: Square, *, is_: PawnWord) -> Claim:
    """Claim that a pawn is isolated, doubled, passed or backward.

    Examples
    --------
    >>> pawn("4k3/8/8/3P4/8/8/8/4K3 w - - 0 1", "d5", is_="passed").words
    'the pawn on d5 is passed'
    """
    if is_ not in PAWN_WORDS:
        raise ClaimError(f"a pawn is {listed(PAWN_WORDS, joint='or')}, not {is_!r}")
    board = read_position(position)
    place = read_square(square)
    claimed = said(board, "pawn", piece_on(board, place), is_)
    name = chess.square_name(place)
    if board.piece_type_at(place) != chess.PAWN:
        raise FalseClaim(claimed, f"there is no pawn on {name}", board=board)
    facts = pawns(board)
    structure = facts.white if board.color_at(place) else facts.black
    if name not in getattr(structure, is_):
        also = [word for word in PAWN_WORDS if name in getattr(structure, word)]
        reason = f"it is {listed(also)}" if also else "it is none of the named kinds"
        raise FalseClaim(claimed, reason, board=board)
    return Claim(said=claimed, fen=board.fen(), marks=(Mark(role="target", square=name),))
