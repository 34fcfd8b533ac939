"""What a student's try is worth: an honest answer that does not give the lesson's move away.

The try alone is judged, and compared with what is proved of the lesson's own
move.  Against a move that is not proved to be bad nothing was found, and that
is all that is said of it; "not settled" is kept for a search that ran out.
"""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import Any, Literal, get_args

import chess

from chessnb.board.sides import SIDES
from chessnb.lessons import Moment
from chessnb.notation import write_line
from chessnb.proof import Gain, Mate, Proof, TooWild, baseline, held, holds
from chessnb.search.budget import Searching, finish
from chessnb.search.proof_book import ProofBook, book_of
from chessnb.verdicts.judge import USUAL, Depth, Kind, Measure, Verdict, judging, judging_all
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
    kept = None if book is None else kept_verdict(book, board, move)
    if kept is not None:
        return kept
    return (yield from judged(board, move, depth=depth))


def judged(board: chess.Board, move: chess.Move, *, depth: Depth = USUAL) -> Searching[Verdict]:
    """Return the search for what a move does, where nobody may wait for long.

    Settling a balance cannot be cut into slices, so it gets few positions;
    where that is not enough, only mates are looked for.
    """
    try:
        kept = held(board, positions=SETTLING)
        return (
            yield from judging(
                board, move, depth=depth, measure=Measure(kept=kept, base=baseline(board))
            )
        )
    except TooWild:
        pass
    mating = yield from judging(board, move, depth=depth, measure=_BEYOND_REACH)
    return replace(mating, kind="not settled") if mating.kind == "nothing" else mating


SETTLING = 2_000
"""Positions for settling what is won or lost before a try is judged."""

_BEYOND_REACH = Measure(kept=-100, base=100)
"""A measure by which nothing is won or lost: there are not so many points on a board."""


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


# -- kept beside the lesson ----------------------------------------------------


def keep_verdicts(moment: Moment, *, depth: Depth = USUAL) -> int:
    """Keep what every legal move of a moment does, so that a try is answered at once.

    Returns
    -------
    int
        How many were kept; 0 for a lesson that was not read from a file.

    Notes
    -----
    Costs as much as a reply table.  The book is written only where proofs
    are (see :mod:`chessnb.search.proof_book`).
    """
    book = book_of(moment)
    if book is None:
        return 0
    board = moment.board
    found = finish(judging_all(board, depth=depth))
    book.keep_verdicts(board, {verdict.move.uci(): verdict_data(verdict) for verdict in found})
    return len(found)


def verdict_data(verdict: Verdict) -> dict[str, Any]:
    """Return a verdict ready for JSON; with its proof, so that it can be replayed."""
    data: dict[str, Any] = {
        "kind": verdict.kind,
        "moves": verdict.moves,
        "points": verdict.points,
        "men": verdict.men,
        "line": [move.uci() for move in verdict.line],
        "depth": [verdict.depth.mate, verdict.depth.within, verdict.depth.budget],
    }
    if verdict.proof is not None:
        data["proof"] = verdict.proof.to_data()
    return data


def kept_verdict(book: ProofBook, board: chess.Board, move: chess.Move) -> Verdict | None:
    """Return what a book says of a move; None if nothing, or nothing that can be believed.

    A claim of mate or material counts only after its proof was replayed.
    """
    data = book.verdicts(board).get(move.uci())
    if not isinstance(data, Mapping):
        return None
    with suppress(ValueError, KeyError, TypeError, IndexError):
        verdict = _read_verdict(board, move, data)
        if _agrees(verdict):
            return verdict
    return None


def _read_verdict(board: chess.Board, move: chess.Move, data: Mapping[str, Any]) -> Verdict:
    if data["kind"] not in get_args(Kind):
        raise ValueError(data["kind"])
    after = board.copy()
    after.push(move)
    proof = Proof.from_data(data["proof"]) if "proof" in data else None
    if proof is not None and proof.board.epd() != after.epd():
        raise ValueError("the proof is of another position")
    mate, within, budget = data["depth"]
    return Verdict(
        fen=board.fen(),
        move=move,
        kind=data["kind"],
        moves=data["moves"],
        points=data["points"],
        men=data["men"],
        line=(move, *(() if proof is None else proof.main_line)),
        proof=proof,
        depth=Depth(mate=mate, within=within, budget=budget),
    )


def _agrees(verdict: Verdict) -> bool:
    """Tell whether a kept verdict says what the rules or its proof say."""
    after = verdict.board
    after.push(verdict.move)
    match verdict.kind:
        case "checkmate":
            return after.is_checkmate()
        case "stalemate":
            return after.is_stalemate()
        case "draw":
            return after.is_insufficient_material()
        case "mates" | "mated" | "wins" | "loses":
            return verdict.proof is not None and _is_what_it_proves(verdict, verdict.proof)
    return True  # "nothing" and "not settled" claim nothing that could be replayed


def _is_what_it_proves(verdict: Verdict, proof: Proof) -> bool:
    own = verdict.kind in ("mates", "wins")
    if proof.attacker != (verdict.board.turn == own) or not holds(proof):
        return False
    if verdict.kind in ("mates", "mated"):
        return isinstance(proof.goal, Mate) and verdict.moves == proof.moves + own
    gain = proof.goal
    return isinstance(gain, Gain) and (verdict.points, verdict.moves) == (
        gain.points,
        gain.within + own,
    )
