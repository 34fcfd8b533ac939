"""What statements are made of that speak of force: mate, only moves, threats, gains, losses."""

from __future__ import annotations

import re
from dataclasses import replace

import chess

from chessnb import claims
from chessnb.board.turns import after_pass
from chessnb.errors import ChessnbError
from chessnb.lessons import Moment
from chessnb.teaching.statements.meaning import (
    WORDS,
    Actor,
    Meaning,
    Unclear,
)
from chessnb.teaching.statements.mentions import PieceNamed
from chessnb.teaching.statements.places import Named, board_of
from chessnb.teaching.statements.statement import Ground, Statement

# -- mate ----------------------------------------------------------------------


def _sufferer(meaning: Meaning) -> chess.Color:
    """Return the side that suffers; where a pronoun leaves it open, the one to move."""
    found = meaning.side("S")
    if found is None:
        return meaning.board.turn
    return found


def mate(meaning: Meaning) -> Statement:
    """Read that a side mates, is mated, or has a mate in so many; perhaps on which square."""
    found = _mate(meaning)
    if not meaning.has("Q") or meaning.pattern.fixed.get("piece"):
        return found
    return replace(found, square=str(meaning.meant("Q")))


def _mate(meaning: Meaning) -> Statement:
    fixed, number = meaning.pattern.fixed, meaning.number("N")
    what = "next" if fixed.get("next") else ""
    if fixed.get("piece"):
        move = _move_of_piece(meaning)
        return meaning.made(at=meaning.ground, side=meaning.board.turn, move=move, number=number)
    if fixed.get("allows"):
        at = named_move(meaning, "M").after if meaning.has("M") else _after_it(meaning)
        return meaning.made(at=at, side=board_of(at).turn, number=number, negated=False)
    if fixed.get("passive"):
        side = not _sufferer(meaning)
        if meaning.has("M"):
            named = named_move(meaning, "M")
            return meaning.made(at=named.at, side=side, move=named.move, number=number)
        if number is None and not what and _is_over(meaning, side):
            return replace(meaning.made(at=meaning.ground, side=side), kind="checkmate")
        return meaning.made(at=meaning.ground, side=side, number=number, what=what)
    if fixed.get("turn") and not meaning.has("S") and not meaning.has("M"):
        return meaning.made(at=meaning.ground, side=meaning.board.turn, number=number)
    bare = not (meaning.has("any") or meaning.has("it") or meaning.has("S") or meaning.has("M"))
    actor = by_clause(meaning) if bare else meaning.actor
    if (bare or meaning.has("it")) and meaning.led is not None and meaning.led_is_given:
        actor = _after_given(meaning)
    elif bare or meaning.has("it"):
        actor = _who_can(meaning, actor)
    if fixed.get("to") and actor.side != meaning.board.turn:
        raise Unclear
    if fixed.get("turn") and meaning.has("S"):
        actor = Actor(side=actor.side, at=meaning.ground)
    if what and actor.named is not None:
        actor = Actor(side=actor.side, at=actor.named.after)
    return meaning.by(actor, number=number, what=what)


def _is_over(meaning: Meaning, side: chess.Color) -> bool:
    """Tell whether the other side is mated where the text speaks."""
    return meaning.board.is_checkmate() and meaning.board.turn != side


def _who_can(meaning: Meaning, actor: Actor) -> Actor:
    """Return the side to move where "it is mate in two" stands behind the loser's move."""
    board = meaning.board
    if not actor.played or board.turn == actor.side or board.is_check() or board.is_game_over():
        return actor
    try:
        claims.mates(meaning.ground, within=_AT_MOST, budget=_LITTLE)
    except ChessnbError:
        return actor
    return Actor(side=board.turn, at=meaning.ground)


_AT_MOST, _LITTLE = 4, 20_000
"""How far it is looked who mates, where the words leave it open, and at how many positions."""


def by_clause(meaning: Meaning) -> Actor:
    """Return who does it where the part itself does not say so: the side named before, if any."""
    before = meaning.slots.form[: meaning.match.start()]
    slots = meaning.slots.slots("S", end=meaning.match.start())
    sides = {meaning.slots.meant[slot] for slot, _ in slots}
    if len(sides) != 1:
        return meaning.of_it() if not sides else _silent()
    side = sides.pop()
    if not isinstance(side, bool):
        return meaning.of_it()
    if re.search(meaning.language.suffers, before):
        side = not side
    return meaning.of_side(side)


def _after_given(meaning: Meaning) -> Actor:
    """Return who mates after "if Black takes": the other side; after a check whoever gave it."""
    led = meaning.led
    if led is None or led.passed:
        raise Unclear
    board = board_of(led.after)
    if board.is_check():
        return meaning.with_move(led)
    if re.search(meaning.language.conditions, meaning.slots.form) is None:
        raise Unclear
    return Actor(side=board.turn, at=led.after)


def _silent() -> Actor:
    raise Unclear


def _after_it(meaning: Meaning) -> Ground:
    actor = meaning.actor
    if actor.named is None:
        raise Unclear
    return actor.named.after


def checkmate(meaning: Meaning) -> Statement:
    """Read that a move, or a king, is mate."""
    if meaning.pattern.fixed.get("sign") and not named_move(meaning, "M").mates:
        raise Unclear
    if meaning.has("P"):
        king = meaning.meant("P")
        side = meaning.board.turn if meaning.board.is_check() else None
        kings = meaning.one_of(king, side=side)
        if len(kings) != 1 or kings[0][0] != "K":
            raise Unclear
        owner = meaning.board.color_at(chess.parse_square(kings[0][1:]))
        return meaning.made(at=meaning.ground, side=not owner)
    if meaning.sort("any") == "S":
        raise Unclear
    return meaning.by(meaning.actor)


def no_defence(meaning: Meaning) -> Statement:
    """Read that a side has no defence."""
    return meaning.made(at=meaning.ground, side=not _sufferer(meaning), negated=False)


def named_move(meaning: Meaning, group: str) -> Named:
    """Return the move of a group; nothing is read if it is legal nowhere."""
    found = meaning.meant(group)
    if not isinstance(found, Named):
        raise Unclear
    return found


# -- only moves ----------------------------------------------------------------


def only_legal(meaning: Meaning) -> Statement:
    """Read how many legal moves there are."""
    if meaning.has("M"):
        named = named_move(meaning, "M")
        return meaning.made(
            at=named.at, side=named.mover, move=named.move, number=meaning.number("N")
        )
    if meaning.pattern.fixed.get("it"):
        if meaning.side("S") is not None and meaning.side("S") != meaning.actor.side:
            return meaning.made(at=meaning.ground, side=_its_turn(meaning), number=1)
        return meaning.by(_only_it(meaning), number=1)
    side = meaning.board.turn
    if meaning.side("S") not in (None, side):
        raise Unclear
    return meaning.made(at=meaning.ground, side=side, number=meaning.number("N"))


def only_move(meaning: Meaning) -> Statement:
    """Read that a move is the only one, or forced."""
    what = str(meaning.pattern.fixed.get("against", ""))
    what = what or _against(meaning)
    fixed = meaning.pattern.fixed
    if meaning.has("M"):
        named = named_move(meaning, "M")
        if named.passed or meaning.side("S") not in (None, named.mover):
            raise Unclear
        return meaning.made(at=named.at, side=named.mover, move=named.move, what=what)
    if meaning.has("P"):
        return meaning.made(
            at=meaning.ground, side=meaning.board.turn, move=_move_of_piece(meaning), what=what
        )
    if fixed.get("it") and meaning.side("S") in (None, meaning.actor.side):
        return meaning.by(_only_it(meaning), what=what)
    side = meaning.board.turn
    if meaning.side("S") not in (None, side):
        raise Unclear
    ground = meaning.ground
    following = ground.next if isinstance(ground, Moment) else None
    move = None if following is None else following.move
    return meaning.made(at=ground, side=side, move=move, what=what)


def _its_turn(meaning: Meaning) -> chess.Color:
    """Return the side that is to move, where it is the one that is named."""
    if meaning.side("S") != meaning.board.turn:
        raise Unclear
    return meaning.board.turn


def _move_of_piece(meaning: Meaning) -> chess.Move:
    """Return the move of "the king must go to f1" or "the knight must take": the one that fits."""
    board, goal = meaning.board, meaning.meant("Q")
    if goal is None and not board.move_stack:
        raise Unclear
    square = chess.parse_square(str(goal)) if goal else board.peek().to_square
    starts = meaning.squares(meaning.meant("P"), side=board.turn)
    moves = [
        move
        for move in board.legal_moves
        if move.to_square == square and move.from_square in starts
    ]
    if len(moves) != 1:
        raise Unclear
    return moves[0]


def _against(meaning: Meaning) -> str:
    return "mate" if meaning.has("against") and "mat" in meaning.text("against") else ""


def _only_it(meaning: Meaning) -> Actor:
    actor = meaning.actor
    if actor.named is None:
        raise Unclear
    return actor


# -- threats -------------------------------------------------------------------


def threatens(meaning: Meaning) -> Statement:
    """Read what is threatened, and by whom."""
    what = str(meaning.pattern.fixed.get("what", ""))
    if meaning.has("O"):
        what = won(meaning)
    number = meaning.number("N")
    if meaning.has("mates"):
        what, number = "mate", 1
    if what and not meaning.has("M"):
        side, ground = _threatener(meaning)
        square = str(meaning.meant("Q") or "")
        return meaning.made(at=ground, side=side, what=what, number=number, square=square)
    if what and meaning.has("M") and what != "mate":
        raise Unclear
    named = named_move(meaning, "M")
    subject = meaning.meant("any") if meaning.sort("any") == "M" else None
    ground = subject.after if isinstance(subject, Named) else meaning.ground
    board = board_of(ground)
    passed = after_pass(board)
    if passed is None:
        raise Unclear
    if not named.passed:
        named = _as_threat(named, passed)
    if board.turn == named.mover or meaning.side("any") not in (None, named.mover):
        raise Unclear
    if named.mates:
        what, number = "mate", 1
    return meaning.made(at=ground, side=named.mover, move=named.move, what=what, number=number)


def _as_threat(named: Named, passed: chess.Board) -> Named:
    if named.mover != passed.turn or named.move not in passed.legal_moves:
        raise Unclear
    return Named(at=passed, move=named.move, line=(), passed=True, mates=named.mates)


def _threatener(meaning: Meaning) -> tuple[chess.Color, Ground]:
    """Return who threatens, and where: the other side is to move."""
    if meaning.pattern.fixed.get("what") == "nothing" and not meaning.has("any"):
        side = meaning.side("S")
        return (not meaning.board.turn if side is None else side), meaning.ground
    actor = meaning.actor
    if actor.named is None and not (meaning.has("S") or meaning.has("any")):
        return not meaning.board.turn, meaning.ground
    ground = actor.named.after if actor.named is not None else actor.at
    if board_of(ground).turn == actor.side:
        raise Unclear
    return actor.side, ground


def parries(meaning: Meaning) -> Statement:
    """Read that a move meets a threat."""
    threat = meaning.meant("M")
    actor = meaning.actor if threat is None else _only_subject(meaning)
    if actor.named is None:
        raise Unclear
    mate = "mate" if "mat" in meaning.match[0] else ""
    return meaning.by(actor, what=mate)


def _only_subject(meaning: Meaning) -> Actor:
    if meaning.sort("any") == "M":
        named = named_move(meaning, "any")
    elif meaning.played is not None:
        named = meaning.played
    else:
        raise Unclear
    return Actor(side=named.mover, at=named.at, named=named, played=meaning.is_played(named))


# -- winning and losing --------------------------------------------------------


def won(meaning: Meaning, group: str = "O") -> str:
    """Return what is won or lost, in one word."""
    piece = meaning.meant(group)
    if not isinstance(piece, PieceNamed):
        raise Unclear
    return WORDS[piece.letter]


def _goods(meaning: Meaning, loser: chess.Color, ground: Ground) -> dict[str, object]:
    """Return what is won or lost; a piece on a square must be there, and the loser's."""
    if not meaning.has("O"):  # "a rook for a pawn"
        first, _, second = meaning.text("what").partition(" for ")
        return {"what": f"{_last(first)} for {_last(second)}"}
    piece = meaning.meant("O")
    what = won(meaning)
    if what == "king" or piece.side not in (None, loser):
        raise Unclear
    found: dict[str, object] = {"what": what}
    if piece.where:
        found["piece"] = meaning.one_of(piece, side=loser, board=board_of(ground))[0]
    elif meaning.has("O2"):
        found["what"] = f"{what} for {won(meaning, 'O2')}"
    return found


def _last(words: str) -> str:
    return words.split()[-1]


def wins(meaning: Meaning) -> Statement:
    """Read that a side, or a move, wins something."""
    actor = meaning.actor
    if re.search(meaning.language.perfect, meaning.match[0]):
        actor = _captured(meaning, actor.side)
        return meaning.by(actor, past=True, **_goods(meaning, not actor.side, actor.at))
    return meaning.by(actor, **_goods(meaning, not actor.side, actor.at))


def _captured(meaning: Meaning, side: chess.Color) -> Actor:
    """Return the move by which a side has won what is named: its last such capture."""
    piece = meaning.meant("O")
    ground = meaning.ground
    for _ in range(8):
        back = ground.back if isinstance(ground, Moment) else None
        if back is None or not isinstance(ground, Moment) or not isinstance(piece, PieceNamed):
            break
        move = ground.move
        taken = None if move is None else back.board.piece_at(move.to_square)
        if move is not None and taken is not None and back.turn == side:
            letter = taken.symbol().upper()
            if letter == piece.letter or (piece.letter == "m" and letter in "BN"):
                named = Named(at=back, move=move, line=())
                return Actor(side=side, at=back, named=named)
        ground = back
    raise Unclear


def loses(meaning: Meaning) -> Statement:
    """Read that a side, or a move, loses something."""
    if meaning.pattern.fixed.get("owner"):
        piece = meaning.meant("P")
        if piece.letter in "Kx*":
            raise Unclear
        pieces = meaning.one_of(piece)
        sides = {meaning.board.color_at(chess.parse_square(one[1:])) for one in pieces}
        if len(sides) != 1 or meaning.has("M"):
            raise Unclear
        name = pieces[0] if len(pieces) == 1 else ""
        return meaning.made(
            at=meaning.ground, side=sides.pop(), what=WORDS[piece.letter], piece=name
        )
    if meaning.pattern.fixed.get("costs"):
        named = meaning.meant("any") if meaning.sort("any") == "M" else None
        actor = meaning.with_move(named) if isinstance(named, Named) else meaning.of_it()
        victim = meaning.side("S")
        if victim is not None and victim != actor.side:
            won = meaning.by(actor, **_goods(meaning, victim, actor.at))
            return replace(won, kind="wins")
        return meaning.by(actor, **_goods(meaning, actor.side, actor.at))
    actor = meaning.actor
    if re.search(meaning.language.perfect, meaning.match[0]):
        actor = _captured(meaning, not actor.side)
        won = meaning.by(actor, past=True, **_goods(meaning, not actor.side, actor.at))
        return replace(won, kind="wins")
    return meaning.by(actor, **_goods(meaning, actor.side, actor.at))
