"""What statements are made of that speak of the board: attack, pins, castling, material, pawns."""

from __future__ import annotations

import re
from dataclasses import replace

import chess

from chessnb.teaching.statements.forcing_kinds import by_clause, named_move
from chessnb.teaching.statements.meaning import (
    Meaning,
    Unclear,
    moves_it,
    names_of,
)
from chessnb.teaching.statements.mentions import PieceNamed
from chessnb.teaching.statements.places import Named, board_of
from chessnb.teaching.statements.statement import Statement

# -- attack and defence --------------------------------------------------------


def _target(meaning: Meaning, *groups: str, side: chess.Color | None = None) -> dict[str, object]:
    """Return the piece or the square that a group names; else what the text spoke of before."""
    for group in groups:
        if meaning.has(group):
            sort, meant = meaning.sort(group), meaning.meant(group)
            if sort == "Q":
                return _on_square(meaning, str(meant))
            if sort == "A":
                raise Unclear
            return _piece(meaning, meant, side=side)
    square = meaning.slots.slots("Q", end=meaning.match.start())
    if square:
        return _on_square(meaning, str(meaning.slots.meant[square[-1][0]]))
    if (subject := meaning.subject_piece()) is not None:
        return _piece(meaning, subject, side=side)
    raise Unclear


def _on_square(meaning: Meaning, square: str) -> dict[str, object]:
    there = names_of(meaning.board, [chess.parse_square(square)])
    return {"piece": there[0]} if there else {"square": square}


def _piece(
    meaning: Meaning, piece: PieceNamed, *, side: chess.Color | None = None
) -> dict[str, object]:
    found = meaning.one_of(piece, side=side)
    if len(found) == 1:
        return {"piece": found[0]}
    return {"piece": found[0][0], "candidates": found}


def attacked(meaning: Meaning) -> Statement:
    """Read that something is attacked or defended by so many."""
    attackers, defenders = meaning.number("C", "N", "T"), meaning.number("C2", "T2")
    if meaning.has("no") or meaning.pattern.fixed.get("none"):
        defenders = 0
    negated = meaning.has("not")
    # "attacked twice and not defended": the denial may stand behind the count.
    behind = re.search(r"\d⟧.*\bnot\b", meaning.match[0][4:])
    if negated and attackers is not None and behind:
        negated, defenders = False, 0
    side = meaning.side("S")
    if side is not None and attackers is None:
        side = not side  # "Black has one defender on f7"
    target = _target(meaning, "B", "B2", "P", side=None if side is None else not side)
    return meaning.made(
        at=meaning.ground, number=attackers, defenders=defenders, negated=negated, **target
    )


def defended(meaning: Meaning) -> Statement:
    """Read that something is defended, undefended, or hangs."""
    if meaning.pattern.fixed.get("leaves"):
        actor = meaning.actor
        board = board_of(actor.at)
        target = _piece(meaning, meaning.meant("P"), side=board.turn if actor.named else actor.side)
        return meaning.made(at=meaning.ground, **target)
    target = _target(meaning, "B", "P")
    other: tuple[str, ...] = ()
    if meaning.has("P2"):
        board = meaning.board
        owner = None
        if "piece" in target and "candidates" not in target:
            owner = board.color_at(chess.parse_square(str(target["piece"])[1:]))
        other = meaning.one_of(meaning.meant("P2"), side=owner)
        if len(other) > 1 and "piece" in target:
            goal = chess.parse_square(str(target["piece"])[1:])
            near = [one for one in other if goal in board.attacks(chess.parse_square(one[1:]))]
            other = tuple(near) if len(near) == 1 else other
        if len(other) != 1 or target.get("piece") == other[0]:
            raise Unclear
    return meaning.made(at=meaning.ground, other=other, **target)


def all_defended(meaning: Meaning) -> Statement:
    """Read that every piece is defended, or that nothing hangs."""
    side = meaning.side("S")
    for slot, at in meaning.slots.slots("SX"):
        if side is None and meaning.match.start() <= at < meaning.match.end():
            words = meaning.slots.words[slot].lower()
            if words.startswith("white"):
                side = chess.WHITE
            elif words.startswith("black"):
                side = chess.BLACK
            elif re.search(r"rook|bishop|knight|pawn|queen|king", words):
                raise Unclear
    what = str(meaning.pattern.fixed.get("what", ""))
    return meaning.made(at=meaning.ground, side=side, what=what)


def attacks(meaning: Meaning) -> Statement:
    """Read that one piece, or a side, attacks another."""
    if meaning.has("P"):
        attackers = meaning.one_of(meaning.meant("P"))
        ground = meaning.ground
    elif meaning.sort("any") == "P":
        ground = meaning.ground
        attackers = meaning.one_of(meaning.meant("any"))
    elif meaning.sort("any") == "S":
        side = meaning.side("any")
        if side is None:
            raise Unclear
        target = meaning.one_of(meaning.meant("P2"), side=not side)
        if len(target) != 1:
            raise Unclear
        return meaning.made(at=meaning.ground, piece=target[0], side=side)
    else:
        actor = meaning.actor
        if actor.named is None:
            raise Unclear
        ground = actor.named.after
        attackers = names_of(board_of(ground), [actor.named.move.to_square])
    board = board_of(ground)
    if len(attackers) > 1:
        attackers = _attackers_of(meaning, board, attackers)
    side = bool(board.color_at(chess.parse_square(attackers[0][1:])))
    target = meaning.one_of(meaning.meant("P2"), side=not side, board=board)
    if len(target) != 1:
        raise Unclear
    return meaning.made(at=ground, piece=target[0], other=attackers)


def _attackers_of(
    meaning: Meaning, board: chess.Board, attackers: tuple[str, ...]
) -> tuple[str, ...]:
    """Return the one of several pieces that attacks what is named."""
    found = set()
    for one in attackers:
        place = chess.parse_square(one[1:])
        side = not board.color_at(place)
        targets = meaning.squares(meaning.meant("P2"), side=side, board=board)
        if any(target in board.attacks(place) for target in targets):
            found.add(one)
    if len(found) != 1:
        raise Unclear
    return tuple(found)


def pinned(meaning: Meaning) -> Statement:
    """Read that a piece is pinned: which, to what, by what."""
    fixed = meaning.pattern.fixed
    board = meaning.board
    pinner: tuple[str, ...] = ()
    if fixed.get("active"):
        pinner = meaning.one_of(meaning.meant("P"))
        if len(pinner) != 1:
            raise Unclear
        owner = board.color_at(chess.parse_square(pinner[0][1:]))
        target = _piece(meaning, meaning.meant("P2"), side=not owner)
    elif meaning.has("any") or meaning.has("it"):
        actor = meaning.actor
        ground = actor.named.after if actor.named else meaning.ground
        if board_of(ground).fen() != board.fen():
            raise Unclear
        target = _piece(meaning, meaning.meant("P"), side=not actor.side)
    else:
        target = _piece(meaning, meaning.meant("P"))
        if meaning.has("P2"):
            pinner = meaning.one_of(meaning.meant("P2"))
            if len(pinner) != 1:
                raise Unclear
    to: tuple[str, ...] = ()
    for group in ("B", "B2"):
        if meaning.has(group):
            to = _behind(meaning, group, target)
    other = (*to, *(f"by {one}" for one in pinner))
    return meaning.made(at=meaning.ground, other=other, **target)


def _behind(meaning: Meaning, group: str, target: dict[str, object]) -> tuple[str, ...]:
    """Return what a piece is pinned to."""
    meant = meaning.meant(group)
    if meaning.sort(group) == "Q":
        return names_of(meaning.board, [chess.parse_square(str(meant))]) or (str(meant),)
    candidates = target.get("candidates") or (target["piece"],)
    first = str(next(iter(candidates)))  # type: ignore[call-overload]
    owners = {
        meaning.board.color_at(chess.parse_square(str(one)[1:]))
        for one in candidates  # type: ignore[attr-defined]
    }
    if len(owners) != 1:
        return (meant.letter,)
    found = [
        name
        for name in meaning.one_of(
            meant, side=meaning.board.color_at(chess.parse_square(first[1:]))
        )
        if name != target.get("piece")
    ]
    return (found[0] if len(found) == 1 else meant.letter,)


# -- castling, taking, moving --------------------------------------------------


def castling(meaning: Meaning) -> Statement:
    """Read who may castle, may not now, or has lost the right."""
    side = by_clause(meaning).side if meaning.pattern.fixed.get("clause") else meaning.side("S")
    if side is None:
        side = meaning.board.turn
    wing = meaning.word("wing")
    lasting = ""
    if meaning.pattern.fixed.get("lasting") or meaning.has("lasting"):
        lasting = "for good"
    elif meaning.has("passing"):
        lasting = "for now"
    other = tuple(one for one in (lasting,) if one)
    negated = meaning.has("not")
    if meaning.pattern.fixed.get("right"):
        made = meaning.made(at=meaning.ground, side=side, what=wing, other=("for good",))
        return replace(made, kind="cannot castle", negated=True)
    return meaning.made(at=meaning.ground, side=side, what=wing, other=other, negated=negated)


def cannot_take(meaning: Meaning) -> Statement:
    """Read that a piece, or a side, may not take."""
    board, ground = meaning.board, meaning.ground
    side = meaning.side("S")
    goal: tuple[str, ...] = ()
    if meaning.has("B2"):
        found = _target(meaning, "B2", side=not board.turn)
        goal = (str(found.get("piece") or found["square"]),) if "candidates" not in found else ()
        if not goal:
            raise Unclear
    elif meaning.has("Q"):
        goal = names_of(board, [chess.parse_square(str(meaning.meant("Q")))])
    elif board.move_stack and board.piece_at(board.peek().to_square) is not None:
        goal = names_of(board, [board.peek().to_square])
    if not goal:
        raise Unclear
    owner = board.color_at(chess.parse_square(goal[0][-2:]))
    taker: dict[str, object] = {}
    if meaning.has("P"):
        taker = _piece(meaning, meaning.meant("P"), side=None if owner is None else not owner)
    if owner == board.turn or side not in (None, board.turn):
        raise Unclear
    return meaning.made(at=ground, side=board.turn, other=goal, negated=False, **taker)


def cannot_be_taken(meaning: Meaning) -> Statement:
    """Read that a piece may not be taken."""
    if meaning.has("P"):
        target = meaning.one_of(meaning.meant("P"), side=not meaning.board.turn)
        ground = meaning.ground
    elif meaning.sort("any") == "P":
        target = meaning.one_of(meaning.meant("any"), side=not meaning.board.turn)
        ground = meaning.ground
    elif meaning.sort("any") == "S":
        raise Unclear
    else:
        actor = meaning.actor
        if actor.named is None:
            raise Unclear
        ground = actor.named.after
        target = names_of(board_of(ground), [actor.named.move.to_square])
    if len(target) != 1:
        raise Unclear
    taker: tuple[str, ...] = ()
    if meaning.has("P2"):
        taker = meaning.one_of(meaning.meant("P2"), side=board_of(ground).turn)
        if len(taker) != 1:
            raise Unclear
    return meaning.made(at=ground, piece=target[0], other=taker, negated=False)


def cannot_move(meaning: Meaning) -> Statement:
    """Read that a piece may not move."""
    piece = meaning.meant("P") or (meaning.meant("any") if meaning.sort("any") == "P" else None)
    if piece is None and meaning.has("it"):
        piece = meaning.subject_piece()
    if not isinstance(piece, PieceNamed):
        raise Unclear
    return meaning.made(at=meaning.ground, negated=False, **_piece(meaning, piece))


def illegal(meaning: Meaning) -> Statement:
    """Read that a move is legal or not."""
    named = named_move(meaning, "M")
    if named.passed:
        raise Unclear
    return meaning.made(at=named.at, move=named.move, side=named.mover)


# -- tactics -------------------------------------------------------------------


def shows(meaning: Meaning) -> Statement:
    """Read that a move shows a tactic, and what is forked."""
    what = str(meaning.pattern.fixed.get("what", "")) or _motif(meaning)
    actor = meaning.actor
    if meaning.sort("any") == "P" and (
        actor.named is None or not moves_it(meaning.meant("any"), actor.named)
    ):
        raise Unclear
    if actor.named is None:
        raise Unclear
    other: list[str] = []
    for group in ("O", "O2", "P2", "B", "B2"):
        piece = meaning.meant(group) if meaning.has(group) else None
        if isinstance(piece, str) and what in ("fork", "skewer") and actor.named is not None:
            other += names_of(board_of(actor.named.after), [chess.parse_square(piece)]) or ["?"]
        if isinstance(piece, PieceNamed) and what in ("fork", "skewer"):
            other.append(piece.letter + (piece.where if len(piece.where) == 2 else ""))
    if what == "sacrifice":
        pieces = [meaning.meant(group) for group in ("O", "O3", "P2") if meaning.has(group)]
        other = [one.letter for one in pieces if isinstance(one, PieceNamed)]
    return meaning.by(actor, what=what, other=tuple(other))


def _motif(meaning: Meaning) -> str:
    said = meaning.groups["motif"]
    for form, name in meaning.language.motifs.items():
        if re.fullmatch(form, said):
            return name
    raise Unclear


def by_actor(meaning: Meaning) -> Statement:
    """Read what a move does by itself: that it gives check; or that a side is in check."""
    if meaning.pattern.fixed.get("standing"):
        return meaning.made(at=meaning.ground, side=_whose_king(meaning))
    actor = meaning.actor
    if actor.named is None:
        raise Unclear
    return meaning.by(actor)


def _whose_king(meaning: Meaning) -> chess.Color:
    """Return whose king is meant: a side's, or the one that is named."""
    if meaning.sort("any") == "P":
        in_check = meaning.board.turn if meaning.board.is_check() else None
        kings = meaning.one_of(meaning.meant("any"), side=in_check)
        if len(kings) == 1 and kings[0][0] == "K":
            return bool(meaning.board.color_at(chess.parse_square(kings[0][1:])))
        raise Unclear
    side = meaning.side("any")
    if side is None:
        raise Unclear
    return side


# -- material, draws, pawns ----------------------------------------------------


def material(meaning: Meaning) -> Statement:
    """Read how the material stands."""
    side = meaning.side("S")
    what, lead = meaning.word("what"), meaning.word("lead")
    if lead and meaning.language.name != "english":
        what = meaning.in_english(meaning.groups.get("what", ""))
    fixed = meaning.pattern.fixed
    if fixed.get("what") == "":
        what = ""
    if what == "even" or fixed.get("same"):
        return meaning.made(at=meaning.ground, what="even")
    if meaning.has("S") and side is None:
        raise Unclear
    if lead:
        what = f"{what} {lead}".strip()
    if re.match(r"(?:not|no|about|two moves)\b", what):
        raise Unclear
    return meaning.made(at=meaning.ground, side=side, what=re.sub(r"^(?:a|an) ", "", what))


def perpetual(meaning: Meaning) -> Statement:
    """Read that a side gives check for ever."""
    if meaning.pattern.fixed.get("turn"):
        side = meaning.side("S")
        return meaning.made(at=meaning.ground, side=meaning.board.turn if side is None else side)
    return meaning.by(meaning.actor)


def stalemate(meaning: Meaning) -> Statement:
    """Read that it is stalemate, or forced."""
    if meaning.pattern.fixed.get("forces"):
        return meaning.by(meaning.actor, number=meaning.number("N"), what="forces")
    named = meaning.meant("any") if meaning.sort("any") == "M" else None
    ground = named.after if isinstance(named, Named) else meaning.ground
    return meaning.made(at=ground, what=str(meaning.pattern.fixed.get("what", "")))


def draw(meaning: Meaning) -> Statement:
    """Read that the game is drawn, and by which rule."""
    rule = meaning.word("rule")
    return meaning.made(at=meaning.ground, what=rule)


def zugzwang(meaning: Meaning) -> Statement:
    """Read that the side to move is in zugzwang."""
    side = meaning.side("any")
    if side not in (None, meaning.board.turn) and "put" not in meaning.match[0]:
        raise Unclear
    return meaning.made(at=meaning.ground, side=meaning.board.turn)


def about_piece(meaning: Meaning) -> Statement:
    """Read something of one piece: that it is trapped."""
    piece = meaning.meant("P") if meaning.has("P") else meaning.subject_piece()
    if piece is None or piece.letter == "K":
        raise Unclear
    return meaning.made(at=meaning.ground, **_piece(meaning, piece))


def pawn(meaning: Meaning) -> Statement:
    """Read what kind of pawn it is, or that a side has such a pawn."""
    what = meaning.word("what")
    if meaning.has("P"):
        piece = meaning.meant("P")
        if piece.letter != "P":
            raise Unclear
        return meaning.made(at=meaning.ground, what=what, **_piece(meaning, piece))
    side = meaning.side("S")
    if side is None:
        raise Unclear
    square = str(meaning.meant("Q") or "")
    piece = f"P{square}" if square else ""
    return meaning.made(at=meaning.ground, side=side, what=what, piece=piece)


def file(meaning: Meaning) -> Statement:
    """Read that a file is open."""
    what, negated = meaning.word("what"), meaning.has("not")
    if what == "closed":
        what, negated = "open", not negated
    side = meaning.side("S")
    if what == "half-open" and side is None:
        raise Unclear
    square = str(meaning.meant("L"))
    return meaning.made(at=meaning.ground, square=square, what=what, side=side, negated=negated)
