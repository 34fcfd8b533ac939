"""How statements are proved that need a search: mates, gains, losses, threats, only moves."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import chess

from chessnb import facts
from chessnb.board.naming import counted
from chessnb.board.sides import SIDES
from chessnb.board.turns import after_pass
from chessnb.claims import Claim
from chessnb.lessons import Moment
from chessnb.search.budget import finish
from chessnb.teaching.statements.places import after, board_of
from chessnb.teaching.statements.settling import Case, Settled, any_of, denied, first_of
from chessnb.verdicts.threats import finding_threat

MOST = 6
"""A mate of which no number is given is looked for in so many moves."""

_POINTS = {"queen": 9, "rook": 5, "bishop": 3, "knight": 3, "piece": 3, "pawn": 1}
_RANGE = {
    "queen": (3, None),
    "rook": (3, 6),
    "bishop": (2, 4),
    "knight": (2, 4),
    "piece": (2, 4),
    "pawn": (1, 2),
    "exchange": (1, 2),
    "material": (1, None),
}
"""The least and the most points that the words may mean: a piece may cost a pawn or two."""

_FALLS = {
    "queen": (chess.QUEEN,),
    "rook": (chess.ROOK,),
    "bishop": (chess.BISHOP,),
    "knight": (chess.KNIGHT,),
    "piece": (chess.BISHOP, chess.KNIGHT),
    "pawn": (chess.PAWN,),
    "exchange": (chess.ROOK,),
}


def mate(case: Case) -> Settled:
    """Settle that a side mates, in so many moves or at all, and on the square that is named."""
    return _on_its_square(case, _mate(case))


def _on_its_square(case: Case, found: Settled) -> Settled:
    """Keep a proof of a mate only if it ends on the square that was named, if one was."""
    square = case.statement.square
    if not square or found.status != "proved":
        return found
    proof = getattr(found.findings[0], "proof", None)
    line = list(proof.main_line) if proof is not None else []
    if line and chess.square_name(line[-1].to_square) == square:
        return found
    return case.settled("not proved", truth=f"the mate that was found is not on {square}")


def _mate(case: Case) -> Settled:
    said = case.statement
    if said.number is None:
        return _mate_at_all(case)
    within = said.number
    ways = list(_ways_to_mate(case, within))
    if said.negated:
        refuted: dict[str, Any] = {"side": _side_option(case), "move": said.san or None}
        return denied(
            case, [way() for way in ways], lambda: case.refuted("mates", within=within, **refuted)
        )
    found = first_of(case, ways)
    bounded = re.search(r"within|at most|at the latest|höchstens|spätestens", said.sentence)
    if found.status == "proved":
        if within > 1 and not bounded and not said.what:
            faster = first_of(case, list(_ways_to_mate(case, within - 1)))
            if faster.status == "proved":
                return _told_faster(case, within - 1)
        return found
    for moves in range(within + 1, within + 4):
        slower = first_of(case, list(_ways_to_mate(case, moves)))
        if slower.status == "proved":
            truth = f"it is mate in {moves}, and not sooner"
            return case.settled("wrong", code=slower.code, truth=truth)
        if slower.status == "not proved":
            break
    return found


def _told_faster(case: Case, within: int) -> Settled:
    """Say how fast the mate is."""
    for moves in range(1, within + 1):
        found = first_of(case, list(_ways_to_mate(case, moves)))
        if found.status == "proved":
            return case.settled("wrong", code=found.code, truth=f"it is mate in {moves} already")
    return case.settled("not proved")


def _ways_to_mate(case: Case, within: int) -> Iterator[Callable[[], Settled]]:
    """Yield how a mate in so many moves can be meant: counted from here, or with the last move."""
    said = case.statement
    if said.move is not None:
        yield lambda: case.claim("mates", within=within, move=said.san)
        return
    if said.board.is_checkmate() and said.board.turn != said.side:
        yield lambda: case.claim("checkmate")
        return
    yield lambda: case.claim("mates", within=within, side=_side_option(case))
    back = said.at.back if isinstance(said.at, Moment) else None
    if (
        back is not None
        and back.turn == said.side
        and not said.what
        and said.board.turn != said.side
    ):
        san = back.board.san(said.at.move)  # type: ignore[union-attr, arg-type]
        yield lambda: case.claim("mates", at=back, within=within, move=san)


def _side_option(case: Case) -> str | None:
    said = case.statement
    if said.move is not None or said.side in (None, said.board.turn):
        return None
    return SIDES[bool(said.side)]


def _mate_at_all(case: Case) -> Settled:
    said = case.statement
    if said.move is not None:
        there = after(said.at, said.move)
        if board_of(there).is_checkmate():
            found = case.claim("checkmate", at=there)
            return _denied_by(case, found) if said.negated else found
    if said.board.is_game_over():
        return case.settled("wrong", truth=facts.draws(said.board).words)
    open_ones = False
    for within in range(1, MOST + 1):
        found = first_of(case, list(_ways_to_mate(case, within)))
        if found.status == "proved":
            return _denied_by(case, found) if said.negated else found
        open_ones |= found.status == "not proved"
        if open_ones:
            break
    if said.negated:
        return case.settled("not proved", truth=f"no mate in {MOST} was found", code=found.code)
    how = "was found" if open_ones else "(searched)"
    return case.settled("not proved", truth=f"no mate in {within} {how}", code=found.code)


def checkmate(case: Case) -> Settled:
    """Settle that a move mates at once."""
    said = case.statement
    there = said.at if said.move is None else after(said.at, said.move)
    if said.negated:
        return case.refuted("checkmate", at=there)
    found = case.claim("checkmate", at=there)
    if found.status == "wrong" and said.move is None:
        return _mate_at_all(case)
    return found


def no_defence(case: Case) -> Settled:
    """Settle that a side has no defence: it is mated, or loses at least a piece."""
    found = _mate_at_all(case)
    if found.status == "proved":
        return found
    side = _side_option(case)

    def taking(within: int) -> Callable[[], Settled]:
        return lambda: case.claim("wins_material", at_least=3, within=within, side=side)

    return first_of(case, [taking(within) for within in (1, 2, 3)])


# -- winning and losing ---------------------------------------------------------------


def wins(case: Case) -> Settled:
    """Settle that a side wins something."""
    said = case.statement
    options: dict[str, Any] = {"side": _side_option(case), "move": said.san or None}
    return _gain(
        case,
        lambda least, within: case.claim("wins_material", at_least=least, within=within, **options),
        lambda least, within: case.refuted(
            "wins_material", at_least=least, within=within, **options
        ),
        winner=bool(said.side),
    )


def loses(case: Case) -> Settled:
    """Settle that a side loses something, by a move or as it stands."""
    said = case.statement
    if said.move is not None:
        return _gain(
            case,
            lambda least, within: case.claim("loses", said.san, at_least=least, within=within),
            lambda least, within: case.refuted("loses", said.san, at_least=least, within=within),
            winner=not said.side,
        )
    winner = not said.side
    side = None if winner == said.board.turn else SIDES[winner]
    return _gain(
        case,
        lambda least, within: case.claim("wins_material", at_least=least, within=within, side=side),
        lambda least, within: case.refuted(
            "wins_material", at_least=least, within=within, side=side
        ),
        winner=winner,
    )


def bounds(what: str) -> tuple[int, int | None]:
    """Return the least and the most points that a name for what is won may mean."""
    first, _, second = what.partition(" for ")
    if second:
        value = _POINTS.get(first, 0) - _POINTS.get(second, 0)
        return (max(1, value - 1), max(1, value))
    return _RANGE[what]


def _gain(
    case: Case,
    claimed: Callable[[int, int], Settled],
    refuted: Callable[[int, int], Settled],
    *,
    winner: chess.Color,
) -> Settled:
    """Settle a gain: at least so much, the piece that is named falls, and not much more."""
    what = case.statement.what.split(" ahead")[0]
    least, most = bounds(what)
    if case.statement.negated:
        return denied(case, [claimed(least, 3)], lambda: refuted(least, 3))
    found = first_of(case, [lambda n=n: claimed(least, n) for n in (1, 2, 3)])  # type: ignore[misc]
    if found.status != "proved":
        is_told = case.statement.past and found.status == "wrong"
        return replace(found, status="not proved") if is_told else found
    record = str(found.findings[0].record)
    if "allows mate" in record or getattr(
        getattr(found.findings[0], "proof", None), "mates", False
    ):
        truth = f"it ends in mate: {found.records[0]}"
        return case.settled("wrong", code=found.code, truth=truth)
    if most is not None:
        more = claimed(most + 1, 3)
        if more.status == "proved":
            words = getattr(more.findings[0], "words", "")
            return case.settled("wrong", code=more.code, truth=words)
    kinds = _FALLS.get(what.partition(" for ")[0])
    if kinds is not None and not _falls(case, found, kinds, winner):
        words = getattr(found.findings[0], "words", "")
        evidence = " ".join(getattr(found.findings[0], "evidence", ()))
        return case.settled("wrong", code=found.code, truth=f"{words}: {evidence}")
    return found


def _falls(
    case: Case, found: Settled, kinds: tuple[chess.PieceType, ...], winner: chess.Color
) -> bool:
    """Tell whether a piece of a kind falls to the winner in the line that proves a gain."""
    claim = found.findings[0]
    assert isinstance(claim, Claim)
    if claim.proof is None:
        return False
    board = case.statement.board
    line = list(claim.proof.main_line)
    first = case.statement.move
    if first is not None and (not line or line[0] not in board.legal_moves or line[0] != first):
        line = [first, *line] if board.is_legal(first) else line
    for move in line:
        if move not in board.legal_moves:
            board = after_pass(board) or board
            if move not in board.legal_moves:
                return False
        taken = board.piece_type_at(move.to_square)
        if board.is_en_passant(move):
            taken = chess.PAWN
        if board.turn == winner and taken in kinds:
            return True
        board.push(move)
    return False


# -- threats ----------------------------------------------------------------------------


def threatens(case: Case) -> Settled:
    """Settle that a side threatens a move, mate, or to win something."""
    said = case.statement
    board = said.board
    passed = after_pass(board)
    if passed is None:
        return case.settled("wrong", truth=f"{SIDES[board.turn]} is in check and must answer that")
    if said.what == "nothing":
        threat = finish(finding_threat(board))
        if threat.move is not None:
            san = passed.san(threat.move)
            code = case.claim("threatens", san).code
            return case.settled("wrong", truth=f"{san} is threatened", code=code)
        return case.settled("not proved", truth="no threat was found")
    if said.move is not None:
        return _threat(case, passed.san(said.move))
    if said.what == "mate":
        return _mate_threat(case, passed)
    return _winning_threat(case, passed)


def _threat(case: Case, san: str) -> Settled:
    said = case.statement
    mate = said.number if said.what == "mate" else None
    found = case.claim("threatens", san, mate=mate)
    if found.status == "proved" and said.what == "mate" and " mate " not in found.records[0]:
        truth = getattr(found.findings[0], "words", "")
        found = case.settled("wrong", code=found.code, truth=truth)
    if said.negated:
        return denied(case, [found], lambda: case.refuted("threatens", san))
    return found


def _mate_threat(case: Case, passed: chess.Board) -> Settled:
    said = case.statement
    threat = finish(finding_threat(said.board))
    verdict = threat.verdict
    if verdict is None or verdict.kind != "mates" or threat.move is None:
        if said.negated:
            return case.settled("not proved", truth="no mate is found in 3 moves")
        how = "wrong" if threat.settled else "not proved"
        return case.settled(how, truth="no mate in 3 is threatened (searched)")  # type: ignore[arg-type]
    if said.square and chess.square_name(threat.move.to_square) != said.square:
        return case.settled("not proved", truth=f"{passed.san(threat.move)} is threatened")
    if said.negated:
        return case.settled("wrong", truth=f"{passed.san(threat.move)} threatens mate")
    if said.number is not None and said.number != verdict.moves:
        truth = f"mate in {verdict.moves} is threatened, by {passed.san(threat.move)}"
        return case.settled("wrong", truth=truth)
    return case.claim("threatens", passed.san(threat.move), mate=verdict.moves)


def _winning_threat(case: Case, passed: chess.Board) -> Settled:
    said = case.statement
    least, _ = bounds(said.what)
    kinds = _FALLS.get(said.what)
    takes = [
        move
        for move in passed.legal_moves
        if passed.is_capture(move)
        and (kinds is None or passed.piece_type_at(move.to_square) in kinds)
    ]
    ways = [_threat_to_win(case, passed.san(move), least) for move in takes]
    found = first_of(case, ways) if ways else None
    if found is None or found.status != "proved":
        verdict = finish(finding_threat(said.board)).verdict
        words = "" if verdict is None else verdict.pieces
        if verdict is not None and verdict.kind == "wins" and said.what in words:
            found = case.claim("threatens", passed.san(verdict.move), mate=1, at_least=least)
    if found is None:
        found = case.settled("wrong", truth=f"nothing threatens to take a {said.what}")
    if said.negated:
        if found.status == "proved":
            return _denied_by(case, found)
        return case.settled("not proved")
    return found


def _threat_to_win(case: Case, san: str, least: int) -> Callable[[], Settled]:
    return lambda: case.claim("threatens", san, mate=1, at_least=least, within=2)


def _denied_by(case: Case, found: Settled) -> Settled:
    """Return a denial as wrong: what it denies is proved."""
    return denied(case, [found], lambda: found)


def parries(case: Case) -> Settled:
    """Settle that a move meets a threat."""
    said = case.statement
    if said.negated:
        return case.refuted("parries", said.san)
    return case.claim("parries", said.san)


# -- only moves ---------------------------------------------------------------------------


def only_legal_move(case: Case) -> Settled:
    """Settle how many legal moves there are."""
    said = case.statement
    board = said.board
    moves = list(board.legal_moves)
    move = said.move if said.move is not None else moves[0] if moves else None
    if move is None:
        return case.settled("wrong", truth="there is no legal move")
    number = said.number or 1
    if number != 1 and not said.negated:
        if len(moves) == number:
            return case.settled("not proved", truth="there is no claim for that number")
        return case.settled("wrong", truth=f"there {_are(len(moves))}")
    if said.negated:
        return case.refuted("only_legal_reply", board.san(move))
    return case.claim("only_legal_reply", board.san(move))


def _are(number: int) -> str:
    return f"{'is' if number == 1 else 'are'} {counted(number, 'legal move')}"


def only_move(case: Case) -> Settled:
    """Settle that one move alone is there, or saves its side."""
    said = case.statement
    if said.move is None:
        return case.settled("not proved", truth="the lesson has no move here")
    board = said.board
    if board.legal_moves.count() == 1:
        return only_legal_move(case)
    ways: list[Callable[[], Settled]] = [
        lambda mate=mate: case.claim("only_defence", said.san, against="mate", mate=mate)  # type: ignore[misc]
        for mate in (1, 2, 3)
    ]
    losing: dict[str, Any] = {"against": "loss", "mate": 2, "at_least": 3, "within": 2}
    ways.append(lambda: case.claim("forced", said.san, side=SIDES[board.turn]))
    if said.what != "mate":
        ways.append(lambda: case.claim("only_defence", said.san, **losing))
    if said.negated:
        return denied(
            case,
            [first_of(case, ways)],
            lambda: case.refuted("only_defence", said.san, **losing),
        )
    tried = []
    for way in ways:
        tried.append(way())
        if tried[-1].status == "proved":
            return tried[-1]
    return tried[-1] if tried[-1].status == "wrong" else any_of(case, tried)


def perpetual(case: Case) -> Settled:
    """Settle that a side gives check for ever."""
    said = case.statement
    options: dict[str, Any] = {"move": said.san or None, "side": _side_option(case)}
    found = case.claim("perpetual", **options)
    if found.status == "wrong" and said.move is not None and not said.negated:
        there = after(said.at, said.move)
        side = SIDES[bool(said.side)]
        found = first_of(
            case, [lambda: case.claim("perpetual", at=there, side=side), lambda: found]
        )
    if said.negated:
        return denied(case, [found], lambda: case.refuted("perpetual", **options))
    return found


def zugzwang(case: Case) -> Settled:
    """Settle that the side to move is in zugzwang."""
    return case.refuted("zugzwang") if case.statement.negated else case.claim("zugzwang")
