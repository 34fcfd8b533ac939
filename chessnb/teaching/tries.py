"""What a student's try is worth: an honest answer that does not give the lesson's move away.

The try alone is judged, and compared with what is proved of the lesson's own
move.  Against a move that is not proved to be bad nothing was found, and that
is all that is said of it; "not settled" is kept for a search that ran out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Literal

import chess
import chess.pgn

from chessnb.board.naming import counted
from chessnb.board.sides import SIDES
from chessnb.notation import write_line
from chessnb.proof import TooWild, held
from chessnb.search.budget import Searching, finish
from chessnb.search.proof_book import ProofBook
from chessnb.teaching.kept_verdicts import finding_kept
from chessnb.verdicts.depth import USUAL, Depth
from chessnb.verdicts.judge import Measures, judging
from chessnb.verdicts.mistake import finding_better
from chessnb.verdicts.move_verdict import Verdict

AnswerKind = Literal["lesson", "refuted", "good", "part", "offer", "open"]
"""What an answer says: the lesson plays it too; it loses by force; it is as good as the
lesson's move; it wins, but less or later; it leaves something to be taken; none is proved."""

NOBODY = "Nobody has proved that it is good."
"""Said of a move against which nothing was found."""

BAD_GLYPHS = {chess.pgn.NAG_MISTAKE, chess.pgn.NAG_BLUNDER, chess.pgn.NAG_DUBIOUS_MOVE}
"""The glyphs ?, ?? and ?! (PGN standard, section 10)."""

GOOD_GLYPHS = {
    chess.pgn.NAG_GOOD_MOVE,
    chess.pgn.NAG_BRILLIANT_MOVE,
    chess.pgn.NAG_SPECULATIVE_MOVE,
}
"""The glyphs !, !! and !? (PGN standard, section 10)."""


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
    if lesson_move is not None and lesson_move != move:
        own = yield from _known_or_judged(board, lesson_move, book, depth)
        return compared(tried, own)
    if _is_telling(tried):
        better = yield from finding_better(tried)
        return _alone(tried, alternative=better is not None)
    return _alone(tried)


def answering_own(
    node: chess.pgn.ChildNode, *, book: ProofBook | None = None, depth: Depth = USUAL
) -> Searching[Answer]:
    """Return the search for what a student hears who found the lesson's own move.

    If it loses, the answer says so; and so it does where the lesson marks it
    as a mistake.
    """
    board = node.parent.board()
    own = yield from _known_or_judged(board, node.move, book, depth)
    sentence = LESSONS_MOVE
    if own.is_bad:
        who = "it" if own.kind == "loses" else f"{SIDES[board.turn]} is"
        sentence = f"That was played in the game, and {who} {own.words}."
    elif node.nags & BAD_GLYPHS:
        sentence = "That was played in the game, but the lesson marks it as a mistake."
    return Answer(kind="lesson", sentence=sentence, line=(node.move,))


LESSONS_MOVE = "That is the lesson's move."
"""Said of the lesson's own move, if nothing speaks against it."""


def beside_the_lesson(
    found: Answer,
    sideline: chess.pgn.GameNode | None,
    met: chess.pgn.GameNode | None,
    comment: str = "",
) -> Answer:
    """Add what the lesson itself says of a try.

    Parameters
    ----------
    found : Answer
        What was computed.
    sideline : GameNode or None
        The try where a sideline of the lesson begins with it.
    met : GameNode or None
        Where the position after it stands in the lesson, on whatever way.
    comment : str
        What the lesson says there, if that may be told.
    """
    if sideline is not None and sideline.nags & GOOD_GLYPHS:
        return replace(found, sentence=f"{found.sentence} The lesson recommends it in a sideline.")
    if sideline is not None and sideline.nags & BAD_GLYPHS:
        return replace(found, sentence=f"{found.sentence} The lesson marks it as a mistake.")
    if sideline is None and met is not None:
        marked = ", where the last move is marked as a mistake" if met.nags & BAD_GLYPHS else ""
        said = f", which says: “{comment}”" if comment else "."
        sentence = f"{found.sentence} The same position stands in the lesson{marked}{said}"
        return replace(found, sentence=sentence)
    return found


def without_hidden(found: Answer, board: chess.Board, hidden: frozenset[str]) -> Answer:
    """Cut the line of an answer before the first move that the lesson still hides.

    Parameters
    ----------
    found : Answer
        The answer to a try.
    board : chess.Board
        The position before the try.
    hidden : frozenset of str
        The hidden moves, a letter for the side and UCI: ``"b e5f3"``.
    """
    turn = board.turn
    shown = 2 if found.kind == "offer" else 1  # an offer says itself that it can be taken
    for number, move in enumerate(found.line):
        if number >= shown and f"{'w' if turn else 'b'} {move.uci()}" in hidden:
            line = found.line[:number]
            if number == 1:
                return replace(found, line=line, written="", sentence=f"{found.sentence} {FIND_IT}")
            return replace(found, line=line, written=write_line(board, line))
        turn = not turn
    return found


FIND_IT = "Which answer shows it?"
"""Said instead of a line that would give the lesson's next moves away."""


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

    Only what is proved counts: "nothing found" on either side proves nothing.
    """
    if tried.is_bad and tried.rank <= own.rank:
        return _said(tried, "open", f"{_bad(tried)} The lesson's move does no better.")
    if tried.is_bad:
        return _said(tried, "refuted" if _is_telling(tried) else "open", _bad(tried))
    if tried.kind == "offers":
        return _said(tried, "offer", _offer(tried))
    if tried.kind == "nothing" and _wins(own):
        return _said(tried, "open", f"{_nothing_wrong(tried)}. {MORE}")
    if {tried.kind, own.kind} & {"nothing", "not settled", "offers"}:
        return _alone(tried)
    if tried.rank <= own.rank or (_is_drawn(tried) and _is_drawn(own)):
        return _said(tried, "good", f"As good as the lesson's move: {_does(tried, low=True)}.")
    if _is_drawn(tried):
        return _said(tried, "open", f"{_does(tried)}; but there is more.")
    slower = tried.kind == "mates" and own.kind in ("checkmate", "mates")
    how = "but there is a faster mate" if slower else "but there is more"
    return _said(tried, "part", f"Right in part: {_does(tried, low=True)}, {how}.")


MORE = "The lesson's move is proved to win; yours is not checked that far."
"""Said beside a move that was found to win, of one against which nothing was found."""


def _alone(tried: Verdict, *, alternative: bool = True) -> Answer:
    """Say what a move does where nothing is proved that it could be compared with."""
    if tried.is_bad and alternative:
        return _said(tried, "refuted" if _is_telling(tried) else "open", _bad(tried))
    if tried.is_bad:
        return _said(tried, "open", f"{_bad(tried)} I found no better move.")
    if tried.kind == "offers":
        return _said(tried, "offer", _offer(tried))
    if tried.kind == "nothing":
        return _said(tried, "open", f"{_nothing_wrong(tried)}. {NOBODY}")
    if tried.kind == "not settled":
        return _said(tried, "open", "Not proved either way: ask your teacher.")
    return _said(tried, "good" if _wins(tried) else "open", f"{_does(tried)}.")


def _is_telling(tried: Verdict) -> bool:
    """Tell whether a loss is a mistake if there is a better move; a pawn may be well given."""
    return tried.kind == "mated" or (tried.kind == "loses" and tried.points >= TELLING_POINTS)


TELLING_POINTS = 2
"""So many points must be lost before a try is called wrong (common practice, no source)."""


def _nothing_wrong(tried: Verdict) -> str:
    deep = counted(min(tried.depth.mate, tried.depth.within), "move")
    return f"I found nothing wrong with it in {deep}"


def _offer(tried: Verdict) -> str:
    """Say what can be taken, and ask what is had for it."""
    side = SIDES[tried.board.turn]
    return f"{tried.taken}. What does {side} get for it?"


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
