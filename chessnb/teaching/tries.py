"""What a student's try is worth: an honest answer that does not give the lesson's move away.

The try alone is judged, and compared with what is proved of the lesson's own
move.  Against a move that is not proved to be bad nothing was found, and that
is all that is said of it; "not settled" is kept for a search that ran out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

import chess

from chessnb.board.sides import SIDES
from chessnb.notation import write_line
from chessnb.proof import TooWild, held
from chessnb.search.budget import Searching, finish
from chessnb.search.proof_book import ProofBook
from chessnb.teaching.kept_verdicts import finding_kept
from chessnb.verdicts.depth import USUAL, Depth
from chessnb.verdicts.judge import Measures, Verdict, judging
from chessnb.verdicts.replies import how_deep

AnswerKind = Literal["lesson", "refuted", "good", "part", "open"]
"""What an answer says: the lesson plays it too; it loses by force; it is as good as the
lesson's move; it wins, but less or later; none of these is proved."""

NOBODY = "Nobody has proved that it is good."
"""Said of a move against which nothing was found."""


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What a student hears of a try.

    Attributes
    ----------
    kind : AnswerKind
        What it says.
    sentence : str
        In a teacher's words.
    line : tuple of chess.Move
        The line that shows it, from the try on; the try alone if there is none.
    written : str
        The line in SAN with numbers; empty if there is none.
    """

    kind: AnswerKind
    sentence: str
    line: tuple[chess.Move, ...]
    written: str = ""

    def data(self) -> dict[str, Any]:
        """Return it ready for JSON."""
        return {
            "kind": self.kind,
            "sentence": self.sentence,
            "line": [move.uci() for move in self.line],
            "written": self.written,
        }


def answer(
    board: chess.Board,
    move: chess.Move,
    *,
    lesson_move: chess.Move | None = None,
    book: ProofBook | None = None,
    depth: Depth = USUAL,
) -> Answer:
    """Say what a try is worth.

    Parameters
    ----------
    board : chess.Board
        The position before it.
    move : chess.Move
        A legal move there.
    lesson_move : chess.Move or None
        What the lesson plays there; it is not named in the answer.
    book : ProofBook or None
        Where verdicts may have been kept.
    depth : Depth
        How far to look where none were.

    Returns
    -------
    Answer
        From the point of view of the side that moves.

    Examples
    --------
    >>> board = chess.Board("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1")
    >>> mate, check = board.parse_san("Ra8#"), board.parse_san("Ra7")
    >>> answer(board, mate).sentence
    'Checkmate.'
    >>> answer(board, check, lesson_move=mate).kind
    'open'
    """
    return finish(answering(board, move, lesson_move=lesson_move, book=book, depth=depth))


def answering(
    board: chess.Board,
    move: chess.Move,
    *,
    lesson_move: chess.Move | None = None,
    book: ProofBook | None = None,
    depth: Depth = USUAL,
) -> Searching[Answer]:
    """Return the search that :func:`answer` runs."""
    tried = yield from _known_or_judged(board, move, book, depth)
    if lesson_move is None or lesson_move == move:
        return _alone(tried)
    own = yield from _known_or_judged(board, lesson_move, book, depth)
    return compared(tried, own)


def _known_or_judged(
    board: chess.Board, move: chess.Move, book: ProofBook | None, depth: Depth
) -> Searching[Verdict]:
    kept = None if book is None else (yield from finding_kept(book, board, move))
    return kept or (yield from judged(board, move, depth=depth))


def judged(board: chess.Board, move: chess.Move, *, depth: Depth = USUAL) -> Searching[Verdict]:
    """Return the search for what a move does, where nobody may wait for long.

    Settling a balance cannot be cut into slices, so it gets few positions;
    where that is not enough, only mates are looked for.
    """
    return (yield from judging(board, move, depth=depth, measures=_measures(board)))


def _measures(board: chess.Board) -> Measures | None:
    """Return what losses and gains are measured from; None where settling it would take long."""
    try:
        held(board, positions=SETTLING)
    except TooWild:
        return None
    return Measures.of(board)


SETTLING = 2_000
"""Positions for settling what is won or lost before a try is judged."""

# -- in words ----------------------------------------------------------------


def compared(tried: Verdict, own: Verdict) -> Answer:
    """Say what a try is worth beside the lesson's own move, whose verdict is `own`.

    Only what is proved counts: "nothing found" on either side settles nothing.
    """
    if tried.is_bad:
        more = " The lesson's move does no better." if tried.rank <= own.rank else ""
        return _said(tried, "refuted", f"{_bad(tried)}{more}")
    if tried.kind == "nothing" and _wins(own):
        return _said(tried, "open", f"{_nothing_wrong(tried)}, but there is more.")
    if {tried.kind, own.kind} & {"nothing", "not settled"}:
        return _alone(tried)
    if tried.rank <= own.rank or (_is_drawn(tried) and _is_drawn(own)):
        return _said(tried, "good", f"As good as the lesson's move: {_does(tried, low=True)}.")
    if _is_drawn(tried):
        return _said(tried, "open", f"{_does(tried)}; but there is more.")
    slower = tried.kind == "mates" and own.kind in ("checkmate", "mates")
    how = "but there is a faster mate" if slower else "but there is more"
    return _said(tried, "part", f"Right in part: {_does(tried, low=True)}, {how}.")


def _alone(tried: Verdict) -> Answer:
    """Say what a move does where nothing is proved that it could be compared with."""
    if tried.is_bad:
        return _said(tried, "refuted", _bad(tried))
    if tried.kind == "nothing":
        return _said(tried, "open", f"{_nothing_wrong(tried)}. {NOBODY}")
    if tried.kind == "not settled":
        return _said(tried, "open", "Not settled: ask your teacher.")
    return _said(tried, "good" if _wins(tried) else "open", f"{_does(tried)}.")


def _nothing_wrong(tried: Verdict) -> str:
    return f"Nothing wrong with it was found ({how_deep(tried)})"


def _said(tried: Verdict, kind: AnswerKind, sentence: str) -> Answer:
    shown = len(tried.line) > 1
    return Answer(
        kind=kind,
        sentence=sentence,
        line=tried.line if shown else (tried.move,),
        written=write_line(tried.board, tried.line) if shown else "",
    )


def _wins(tried: Verdict) -> bool:
    return tried.kind in ("checkmate", "mates", "wins")


def _is_drawn(tried: Verdict) -> bool:
    return tried.kind in ("draw", "stalemate")


def _bad(tried: Verdict) -> str:
    if tried.kind == "mated":
        return f"After {tried.san} {SIDES[tried.board.turn]} is {tried.words}."
    return f"{tried.san} {tried.words}."


def _does(tried: Verdict, *, low: bool = False) -> str:
    """Say what a move does, as a sentence or (`low`) within one."""
    if tried.kind in ("checkmate", "draw", "stalemate"):
        return tried.words if low else tried.words[0].upper() + tried.words[1:]
    return f"it {tried.words}" if low else f"{tried.san} {tried.words}"
