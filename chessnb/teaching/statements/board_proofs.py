"""How statements are proved that the board shows: attack, pins, castling, captures, tactics."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import chess

from chessnb import facts
from chessnb.board.exchange import hanging as hanging_on
from chessnb.board.sides import SIDES
from chessnb.board.turns import as_if_to_move
from chessnb.lessons import Moment
from chessnb.teaching import cell_code
from chessnb.teaching.statements.places import after
from chessnb.teaching.statements.settling import Case, Settled, all_of, any_of, denied, first_of

_KINDS = {"Q": "queen", "R": "rook", "B": "bishop", "N": "knight", "K": "king", "P": "pawn"}


def _pieces(case: Case) -> tuple[str, ...]:
    """Return the piece that is meant, or all that may be; for an empty square its name."""
    said = case.statement
    return said.candidates or (said.piece or said.square,)


def each(case: Case, settle: Callable[[str], Settled]) -> Settled:
    """Settle a statement about one piece: where several may be meant, about one of them."""
    pieces = _pieces(case)
    tried = [settle(piece) for piece in pieces]
    if len(tried) == 1:
        return tried[0]
    proved = [one for one in tried if one.status == "proved"]
    if case.statement.negated and len(proved) != len(tried):
        return any_of(case, [one for one in tried if one.status != "proved"])
    return any_of(case, tried)


# -- pins --------------------------------------------------------------------------------


def pinned(case: Case) -> Settled:
    """Settle that a piece is pinned, to what, and by what."""
    return each(case, lambda piece: _pinned(case, piece))


def _pinned(case: Case, piece: str) -> Settled:
    said = case.statement
    square = piece[-2:]
    by = [one.removeprefix("by ") for one in said.other if one.startswith("by ")]
    to = [one for one in said.other if not one.startswith("by ")]
    goals = [_goal(to[0])] if to else _behind(said.board, square)
    tried = [case.claim("pinned", square, **_to(goal)) for goal in goals]
    tried = [_by(case, one, by[0]) if by else one for one in tried]
    if said.negated:
        return denied(case, tried, lambda: case.refuted("pinned", square, **_to(goals[0])))
    return any_of(case, tried)


def _to(goal: str) -> dict[str, Any]:
    return {} if goal == "king" else {"to": goal}


def _goal(name: str) -> str:
    if name[0] == "K" and name[0].isupper():
        return "king"
    return name[-2:] if len(name) >= 2 else _KINDS[name]


def _behind(board: chess.Board, square: str) -> list[str]:
    """Return what a piece may be pinned to: the king, and what is worth more."""
    place = chess.parse_square(square)
    color = bool(board.color_at(place))
    others = board.pieces(chess.QUEEN, color) | board.pieces(chess.ROOK, color)
    lines = chess.SquareSet(chess.BB_RANK_ATTACKS[place][0] | chess.BB_FILE_ATTACKS[place][0]
                            | chess.BB_DIAG_ATTACKS[place][0])  # fmt: skip
    return ["king", *(chess.square_name(one) for one in others & lines if one != place)]


def _by(case: Case, found: Settled, pinner: str) -> Settled:
    if found.status != "proved" or f"by {pinner}" in found.records[0]:
        return found
    return case.settled("wrong", code=found.code, truth=getattr(found.findings[0], "words", ""))


# -- attack and defence ---------------------------------------------------------------------


def attacks(case: Case) -> Settled:
    """Settle that one piece, or a side, attacks another."""
    said = case.statement
    square = said.piece[1:]
    board = said.board
    place = chess.parse_square(square)
    side = not board.color_at(place)
    attackers = board.attackers(side, place)
    names = [f"{_letter(board, one)}{chess.square_name(one)}" for one in attackers]
    is_so = said.other[0] in names if said.other else bool(names)
    if is_so == said.negated:
        told = f"{square} is attacked by {' and '.join(names)}" if names else "nothing attacks it"
        return case.settled("wrong", truth=told, code=case.claim("attacked", square).code)
    if said.negated:
        if names:
            return case.settled("not proved", truth="others attack it")
        return case.refuted("attacked", square)
    return case.claim("attacked", square)


def _letter(board: chess.Board, square: chess.Square) -> str:
    piece = board.piece_at(square)
    return "" if piece is None else piece.symbol().upper()


def attacked(case: Case) -> Settled:
    """Settle that something is attacked and defended by so many."""

    def settle(piece: str) -> Settled:
        said, square = case.statement, piece[-2:]
        options: dict[str, Any] = {"by": said.number, "defended_by": said.defenders}
        name = "attacked"
        if said.number is None and said.defenders is not None:
            name, options = "defended", {"by": said.defenders}
        options = {key: value for key, value in options.items() if value is not None}
        if said.negated:
            return case.refuted(name, square, **options)
        found = case.claim(name, square, **options)
        if found.status == "wrong" and _would_count(case, square):
            return replace(found, status="not proved")
        return found

    return each(case, settle)


def _would_count(case: Case, square: str) -> bool:
    """Tell whether the numbers are right if a king or a pinned piece counts that cannot take."""
    said = case.statement
    pressure = facts.pressure(said.board, square)
    return said.number in (None, len(pressure.attackers)) and said.defenders in (
        None,
        len(pressure.defenders),
    )


def defended(case: Case) -> Settled:
    """Settle that something is defended, at all or by a piece."""
    return each(case, lambda piece: _defended(case, piece, negated=case.statement.negated))


def undefended(case: Case) -> Settled:
    """Settle that nothing defends something."""
    return each(case, lambda piece: _defended(case, piece, negated=not case.statement.negated))


def _defended(case: Case, piece: str, *, negated: bool) -> Settled:
    said, square = case.statement, piece[-2:]
    board = said.board
    place = chess.parse_square(square)
    by = said.other[0] if said.other else ""
    if by:
        there = chess.parse_square(by[1:])
        is_so = place in board.attacks(there)
        if is_so == negated:
            return case.settled("wrong", truth=facts.pressure(board, square).words)
        if negated:
            return case.settled("not proved", truth="others defend it")
        if board.color_at(place) is None:
            owner = SIDES[bool(board.color_at(there))]
            return case.claim("attacked", square, side=owner)
    if board.color_at(place) is None:
        return case.settled("not proved", truth=f"{square} is empty")
    return case.refuted("defended", square) if negated else case.claim("defended", square)


def hanging(case: Case) -> Settled:
    """Settle that a piece hangs: it can be taken with a gain."""
    return each(case, lambda piece: _hanging(case, piece))


def _hanging(case: Case, piece: str) -> Settled:
    said, square = case.statement, piece[-2:]
    board = said.board
    place = chess.parse_square(square)
    owner = bool(board.color_at(place))
    hangs = place in hanging_on(board, owner)
    if hangs == said.negated:
        return case.settled("wrong", truth=facts.pressure(board, square).words)
    if said.negated:
        return first_of(
            case,
            [lambda: case.refuted("attacked", square), lambda: case.claim("defended", square)],
        )
    if not facts.pressure(board, square).defended_by:
        return case.claim("attacked", square, defended_by=0)
    found = facts.exchange(board, square, side=SIDES[not owner])
    code = cell_code.call("facts.exchange", case.place(said.at), square, side=SIDES[not owner])
    return case.settled("proved", [found], code=code)


def all_defended(case: Case) -> Settled:
    """Settle that every piece of a side, or of both, is defended; or that nothing hangs."""
    said = case.statement
    board = said.board
    sides = chess.COLORS if said.side is None else (said.side,)
    if said.what == "hangs":
        for side in sides:
            for square in hanging_on(board, side):
                truth = facts.pressure(board, square).words
                return case.settled("wrong", truth=truth)
        return all_of(case, [
            case.refuted("wins_material", at_least=1, within=1,
                         side=None if side != board.turn else SIDES[not side])
            for side in sides
        ])  # fmt: skip
    parts = []
    for side in sides:
        for kind in (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT):
            for square in board.pieces(kind, side):
                parts.append(case.claim("defended", chess.square_name(square)))
    if said.negated:
        wrong = [part for part in parts if part.status == "wrong"]
        return case.settled("not proved") if wrong else case.settled("wrong", truth="all are")
    return all_of(case, parts)


# -- castling, taking, moving ----------------------------------------------------------------


def castling(case: Case) -> Settled:
    """Settle that a side may castle, may not now, or has lost the right."""
    said = case.statement
    side = SIDES[bool(said.side)]
    wings = [said.what] if said.what else ["kingside", "queenside"]
    lasting = {"for good": True, "for now": False}.get(said.other[0]) if said.other else None
    cannot = (said.kind == "cannot castle") != said.negated

    def asked(name: str, wing: str) -> Settled:
        options: dict[str, Any] = {"for_good": lasting} if name == "cannot_castle" else {}
        return case.claim(name, wing, side=side, **options)

    if cannot and lasting is False:
        either = [case.claim("cannot_castle", wing, side=side) for wing in wings]
        return all_of(case, [*either, any_of(case, [asked("cannot_castle", one) for one in wings])])
    if cannot:
        return all_of(case, [asked("cannot_castle", wing) for wing in wings])
    if said.kind == "cannot castle" and lasting:
        return any_of(
            case,
            [case.refuted("cannot_castle", wing, side=side, for_good=True) for wing in wings],
        )
    return any_of(case, [asked("can_castle", wing) for wing in wings])


def cannot_take(case: Case) -> Settled:
    """Settle that a piece may not take another, by the rules or because it loses by it."""
    said = case.statement
    takers = None if not (said.piece or said.candidates) else _pieces(case)
    return _no_capture(case, said.other[0][-2:], takers)


def cannot_be_taken(case: Case) -> Settled:
    """Settle that a piece may not be taken, at all or by one."""
    said = case.statement
    return _no_capture(case, said.piece[-2:], said.other or None)


def _no_capture(case: Case, goal: str, takers: Sequence[str] | None) -> Settled:
    board = case.statement.board
    target = chess.parse_square(goal)
    squares = None if takers is None else [chess.parse_square(one[-2:]) for one in takers]
    legal = [
        move for move in board.legal_moves
        if (move.to_square == target and squares in (None, [move.from_square]))
        or (squares is not None and move.to_square == target and move.from_square in squares)
    ]  # fmt: skip
    if legal:
        return all_of(case, [_loses(case, board.san(move)) for move in legal])
    near = squares if squares is not None else list(board.attackers(board.turn, target))
    if not near:
        return case.refuted("attacked", goal)
    return all_of(case, [case.claim("illegal", _capture(board, square, goal)) for square in near])


def _loses(case: Case, san: str) -> Settled:
    found = case.claim("loses", san, at_least=1, within=3)
    if found.status == "proved":
        return found
    return replace(found, status="not proved", truth=f"{san} is legal, and {found.truth}")


def _capture(board: chess.Board, square: chess.Square, goal: str) -> str:
    letter, name = _letter(board, square), chess.square_name(square)
    return f"{name[0]}x{goal}" if letter == "P" else f"{letter}{name}x{goal}"


def cannot_move(case: Case) -> Settled:
    """Settle that a piece has no legal move, because it is pinned or blocked."""

    def settle(piece: str) -> Settled:
        board = case.statement.board
        place = chess.parse_square(piece[-2:])
        own = as_if_to_move(board, bool(board.color_at(place)))
        moves = [move for move in own.legal_moves if move.from_square == place]
        if moves:
            return case.settled("wrong", truth=f"{own.san(moves[0])} is legal")
        return case.claim("pinned", piece[-2:])

    return each(case, settle)


def illegal(case: Case) -> Settled:
    """Settle that a move is legal, or not."""
    said = case.statement
    return case.claim("legal" if said.negated else "illegal", said.san)


def check(case: Case) -> Settled:
    """Settle that a move gives check, or that a king is in check."""
    said = case.statement
    if said.move is None:
        return _in_check(case)
    gives = said.board.gives_check(said.move)
    if gives == said.negated:
        truth = f"{said.san} gives {'' if gives else 'no '}check"
        return case.settled("wrong", truth=truth)
    return case.claim("legal", said.san)


def _in_check(case: Case) -> Settled:
    said = case.statement
    board, side = said.board, bool(said.side)
    king = board.king(side)
    assert king is not None
    in_check = board.is_attacked_by(not side, king)
    if in_check == said.negated:
        truth = f"{SIDES[side]} is {'' if in_check else 'not '}in check"
        return case.settled("wrong", truth=truth)
    name = chess.square_name(king)
    return case.claim("attacked", name) if in_check else case.refuted("attacked", name)


# -- tactics ------------------------------------------------------------------------------


def shows(case: Case) -> Settled:
    """Settle that a move shows a tactic, and of a fork what is forked."""
    said = case.statement
    assert said.move is not None
    missed = _missed(case)
    if missed and not said.negated:
        return case.settled("wrong", truth=missed)
    name = "pin" if said.what == "pin" else said.what
    follow = _following(case)
    there = after(said.at, said.move)
    found = case.claim("shows", name, move=said.san)
    if found.status != "proved" and isinstance(there, Moment):
        found = first_of(case, [lambda: case.claim("shows", name, at=there), lambda: found])
    if found.status == "wrong" and follow:
        longer = case.claim("shows", name, move=said.san, line=follow)
        found = longer if longer.status == "proved" else found
    if found.status != "proved":
        tags = _tagged(case, name, follow)
        found = found if tags is None else tags
    if found.status == "wrong" and "nothing is proved" in found.truth:
        found = replace(found, status="not proved")
    if said.negated:
        return denied(case, [found], lambda: case.refuted("shows", name, move=said.san))
    return found


def _tagged(case: Case, name: str, follow: str) -> Settled | None:
    """Return the tactic as a pattern that is on the board, and wins nothing that is proved."""
    from chessnb import motifs

    said = case.statement
    options: dict[str, object] = {"line": follow} if follow else {}
    tags = motifs.tag(said.board, said.san, **options, geometric=True)  # type: ignore[arg-type]
    found = [tag for tag in tags if tag.motif == name and tag.ply <= 1]
    if not found:
        return None
    code = cell_code.call("motifs.tag", case.place(said.at), said.san, **options, geometric=True)
    return case.settled("proved", found[:1], code=code)


def _following(case: Case) -> str:
    """Return what the lesson has after the move: it shows which way is meant."""
    said = case.statement
    node = getattr(said.at, "node", None)
    if node is None or said.move is None or not node.has_variation(said.move):
        return ""
    board, sans = said.board, []
    board.push(said.move)
    for move in list(node.variation(said.move).mainline_moves())[:8]:
        sans.append(board.san(move))
        board.push(move)
    return " ".join(sans)


def _missed(case: Case) -> str:
    """Say what is not forked or skewered, of what is said to be."""
    said = case.statement
    board = said.board
    if said.move is None or said.what not in ("fork", "sacrifice"):
        return ""
    if said.what == "sacrifice":
        return _not_given(board, said.move, said.other)
    board.push(said.move)
    for name in said.other:
        kind = {"m": (chess.KNIGHT, chess.BISHOP)}.get(
            name[0], (chess.PIECE_SYMBOLS.index(name[0].lower()),) if name[0] in _KINDS else ()
        )
        hit = [
            square
            for square in chess.scan_forward(board.occupied)
            if board.piece_type_at(square) in kind
            and board.color_at(square) == board.turn
            and chess.square_name(square).startswith(name[1:])
            and _bears(board, said.move.to_square, square)
        ]
        if kind and not hit:
            return f"{said.san} attacks no {_KINDS.get(name[0], 'piece')} there"
    return ""


def _not_given(board: chess.Board, move: chess.Move, letters: Sequence[str]) -> str:
    """Say that a piece that is said to be given can not be taken; empty if it can."""
    moved = board.piece_type_at(move.from_square)
    board.push(move)
    taken = {board.piece_type_at(one.to_square) for one in board.generate_legal_captures()}
    kinds = {kind for kind in (moved, *taken) if kind is not None}
    for letter in letters:
        wanted = {"m": {chess.KNIGHT, chess.BISHOP}, "x": {chess.ROOK}}.get(letter)
        if wanted is None and letter in _KINDS:
            wanted = {chess.PIECE_SYMBOLS.index(letter.lower())}
        if wanted is not None and not wanted & kinds:
            return f"no {_KINDS.get(letter, 'such piece')} can be taken there"
    return ""


def _bears(board: chess.Board, attacker: chess.Square, target: chess.Square) -> bool:
    """Tell whether a piece attacks another, at once or behind one of its own."""
    if target in board.attacks(attacker):
        return True
    if board.piece_type_at(target) == chess.KING:
        return False
    name = chess.square_name(attacker)
    pressure = facts.pressure(board, target, side=board.color_at(attacker))
    return any(force.counts and force.piece.square == name for force in pressure.attackers)
