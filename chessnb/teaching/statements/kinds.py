"""What each kind of statement is made of."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import chess

from chessnb.board.turns import after_pass
from chessnb.lessons import Moment
from chessnb.teaching.statements.meaning import (
    WORDS,
    Actor,
    Meaning,
    Unclear,
    moves_it,
    names_of,
)
from chessnb.teaching.statements.mentions import PieceNamed
from chessnb.teaching.statements.places import Named, board_of
from chessnb.teaching.statements.statement import Ground, Statement


def statement_of(meaning: Meaning) -> Statement | None:
    """Return what a match states; None where it is not clear."""
    try:
        if meaning.pattern.kind in _STANDING and re.search(meaning.language.past, meaning.match[0]):
            return None  # it was so, and the text does not say when
        return _BUILT[meaning.pattern.kind](meaning)
    except Unclear:
        return None


_STANDING = frozenset(
    {
        "pinned", "attacks", "attacked", "defended", "undefended", "hanging", "all defended",
        "can castle", "cannot castle", "pawn", "file", "trapped", "material",
    }
)  # fmt: skip
"""What is said of a position, and not of a move."""


# -- mate ----------------------------------------------------------------------------


def _sufferer(meaning: Meaning) -> chess.Color:
    """Return the side that suffers; where a pronoun leaves it open, the one to move."""
    found = meaning.side("S")
    if found is None:
        return meaning.board.turn
    return found


def _mate(meaning: Meaning) -> Statement:
    fixed, number = meaning.pattern.fixed, meaning.number("N")
    what = "next" if fixed.get("next") else ""
    if fixed.get("allows"):
        at = _named(meaning, "M").after if meaning.has("M") else _after_it(meaning)
        return meaning.made(at=at, side=board_of(at).turn, number=number, negated=False)
    if fixed.get("passive"):
        side = not _sufferer(meaning)
        if meaning.has("M"):
            named = _named(meaning, "M")
            return meaning.made(at=named.at, side=side, move=named.move, number=number)
        return meaning.made(at=meaning.ground, side=side, number=number, what=what)
    if fixed.get("turn") and not meaning.has("S") and not meaning.has("M"):
        return meaning.made(at=meaning.ground, side=meaning.board.turn, number=number)
    bare = not (meaning.has("any") or meaning.has("it") or meaning.has("S") or meaning.has("M"))
    actor = _by_clause(meaning) if bare else meaning.actor
    if (bare or meaning.has("it")) and meaning.led is not None and meaning.led_is_given:
        actor = _after_given(meaning)
    if fixed.get("to") and actor.side != meaning.board.turn:
        raise Unclear
    if fixed.get("turn") and meaning.has("S"):
        actor = Actor(side=actor.side, at=meaning.ground)
    if what and actor.named is not None:
        actor = Actor(side=actor.side, at=actor.named.after)
    return meaning.by(actor, number=number, what=what)


def _by_clause(meaning: Meaning) -> Actor:
    """Return who mates where the part itself does not say so: the side named before, if any."""
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


def _checkmate(meaning: Meaning) -> Statement:
    if meaning.pattern.fixed.get("sign") and not _named(meaning, "M").mates:
        raise Unclear
    if meaning.has("P"):
        kings = meaning.one_of(meaning.meant("P"))
        if len(kings) != 1 or kings[0][0] != "K":
            raise Unclear
        owner = meaning.board.color_at(chess.parse_square(kings[0][1:]))
        return meaning.made(at=meaning.ground, side=not owner)
    if meaning.sort("any") == "S":
        raise Unclear
    return meaning.by(meaning.actor)


def _no_defence(meaning: Meaning) -> Statement:
    return meaning.made(at=meaning.ground, side=not _sufferer(meaning), negated=False)


def _named(meaning: Meaning, group: str) -> Named:
    found = meaning.meant(group)
    if not isinstance(found, Named):
        raise Unclear
    return found


# -- only moves ------------------------------------------------------------------------


def _only_legal(meaning: Meaning) -> Statement:
    if meaning.has("M"):
        named = _named(meaning, "M")
        return meaning.made(
            at=named.at, side=named.mover, move=named.move, number=meaning.number("N")
        )
    if meaning.pattern.fixed.get("it"):
        return meaning.by(_only_it(meaning), number=1)
    side = meaning.board.turn
    if meaning.side("S") not in (None, side):
        raise Unclear
    return meaning.made(at=meaning.ground, side=side, number=meaning.number("N"))


def _only_move(meaning: Meaning) -> Statement:
    what = str(meaning.pattern.fixed.get("against", ""))
    what = what or _against(meaning)
    fixed = meaning.pattern.fixed
    if meaning.has("M"):
        named = _named(meaning, "M")
        if named.passed or meaning.side("S") not in (None, named.mover):
            raise Unclear
        return meaning.made(at=named.at, side=named.mover, move=named.move, what=what)
    if fixed.get("it"):
        return meaning.by(_only_it(meaning), what=what)
    side = meaning.board.turn
    if meaning.side("S") not in (None, side):
        raise Unclear
    ground = meaning.ground
    following = ground.next if isinstance(ground, Moment) else None
    move = None if following is None else following.move
    return meaning.made(at=ground, side=side, move=move, what=what)


def _against(meaning: Meaning) -> str:
    return "mate" if meaning.has("against") and "mat" in meaning.text("against") else ""


def _only_it(meaning: Meaning) -> Actor:
    actor = meaning.actor
    if actor.named is None:
        raise Unclear
    return actor


# -- threats ---------------------------------------------------------------------------


def _threatens(meaning: Meaning) -> Statement:
    what = str(meaning.pattern.fixed.get("what", ""))
    if meaning.has("O"):
        what = _won(meaning)
    number = meaning.number("N")
    if meaning.has("mates"):
        what, number = "mate", 1
    if what and not meaning.has("M"):
        side, ground = _threatener(meaning)
        return meaning.made(at=ground, side=side, what=what, number=number)
    if what and meaning.has("M") and what != "mate":
        raise Unclear
    named = _named(meaning, "M")
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
    ground = actor.named.after if actor.named is not None else actor.at
    if board_of(ground).turn == actor.side:
        raise Unclear
    return actor.side, ground


def _parries(meaning: Meaning) -> Statement:
    threat = meaning.meant("M")
    actor = meaning.actor if threat is None else _only_subject(meaning)
    if actor.named is None:
        raise Unclear
    mate = "mate" if "mat" in meaning.match[0] else ""
    return meaning.by(actor, what=mate)


def _only_subject(meaning: Meaning) -> Actor:
    if meaning.sort("any") == "M":
        named = _named(meaning, "any")
    elif meaning.played is not None:
        named = meaning.played
    else:
        raise Unclear
    return Actor(side=named.mover, at=named.at, named=named, played=meaning.is_played(named))


# -- winning and losing -------------------------------------------------------------------


def _won(meaning: Meaning, group: str = "O") -> str:
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
    what = _won(meaning)
    if what == "king" or piece.side not in (None, loser):
        raise Unclear
    found: dict[str, object] = {"what": what}
    if piece.where:
        found["piece"] = meaning.one_of(piece, side=loser, board=board_of(ground))[0]
    elif meaning.has("O2"):
        found["what"] = f"{what} for {_won(meaning, 'O2')}"
    return found


def _last(words: str) -> str:
    return words.split()[-1]


def _wins(meaning: Meaning) -> Statement:
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


def _loses(meaning: Meaning) -> Statement:
    if meaning.pattern.fixed.get("owner"):
        piece = meaning.meant("P")
        if piece.letter in "Kx*":
            raise Unclear
        pieces = meaning.one_of(piece)
        sides = {meaning.board.color_at(chess.parse_square(one[1:])) for one in pieces}
        if len(sides) != 1 or meaning.has("M"):
            raise Unclear
        named = pieces[0] if len(pieces) == 1 else ""
        return meaning.made(
            at=meaning.ground, side=sides.pop(), what=WORDS[piece.letter], piece=named
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


# -- attack and defence ---------------------------------------------------------------------


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


def _attacked(meaning: Meaning) -> Statement:
    attackers, defenders = meaning.number("C", "N", "T"), meaning.number("C2", "T2")
    if meaning.has("no") or meaning.pattern.fixed.get("none"):
        defenders = 0
    negated = meaning.has("not")
    if negated and attackers is not None:  # "attacked twice and not defended"
        # The denial may stand behind the count.
        if re.search(r"\d⟧.*\bnot\b", meaning.match[0][4:]):
            negated, defenders = False, 0
    side = meaning.side("S")
    if side is not None and attackers is None:
        side = not side  # "Black has one defender on f7"
    target = _target(meaning, "B", "B2", "P", side=None if side is None else not side)
    return meaning.made(
        at=meaning.ground, number=attackers, defenders=defenders, negated=negated, **target
    )


def _defended(meaning: Meaning) -> Statement:
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
        if len(other) != 1 or target.get("piece") == other[0]:
            raise Unclear
    return meaning.made(at=meaning.ground, other=other, **target)


def _all_defended(meaning: Meaning) -> Statement:
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


def _attacks(meaning: Meaning) -> Statement:
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


def _pinned(meaning: Meaning) -> Statement:
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


# -- castling, taking, moving ------------------------------------------------------------------


def _castling(meaning: Meaning) -> Statement:
    side = meaning.side("S")
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


def _cannot_take(meaning: Meaning) -> Statement:
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


def _cannot_be_taken(meaning: Meaning) -> Statement:
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


def _cannot_move(meaning: Meaning) -> Statement:
    piece = meaning.meant("P") or (meaning.meant("any") if meaning.sort("any") == "P" else None)
    if piece is None and meaning.has("it"):
        piece = meaning.subject_piece()
    if not isinstance(piece, PieceNamed):
        raise Unclear
    return meaning.made(at=meaning.ground, negated=False, **_piece(meaning, piece))


def _illegal(meaning: Meaning) -> Statement:
    named = _named(meaning, "M")
    if named.passed:
        raise Unclear
    return meaning.made(at=named.at, move=named.move, side=named.mover)


# -- tactics -----------------------------------------------------------------------------


def _shows(meaning: Meaning) -> Statement:
    what = str(meaning.pattern.fixed.get("what", "")) or _motif(meaning)
    actor = meaning.actor
    if meaning.sort("any") == "P" and (
        actor.named is None or not moves_it(meaning.meant("any"), actor.named)
    ):
        raise Unclear
    if actor.named is None:
        raise Unclear
    other = []
    for group in ("O", "O2", "P2", "B", "B2"):
        piece = meaning.meant(group) if meaning.has(group) else None
        if isinstance(piece, str) and what in ("fork", "skewer") and actor.named is not None:
            other += names_of(board_of(actor.named.after), [chess.parse_square(piece)]) or ["?"]
        if isinstance(piece, PieceNamed) and what in ("fork", "skewer"):
            other.append(piece.letter + (piece.where if len(piece.where) == 2 else ""))
    return meaning.by(actor, what=what, other=tuple(other))


def _motif(meaning: Meaning) -> str:
    said = meaning.groups["motif"]
    for form, name in meaning.language.motifs.items():
        if re.fullmatch(form, said):
            return name
    raise Unclear


def _by_actor(meaning: Meaning) -> Statement:
    actor = meaning.actor
    if actor.named is None:
        raise Unclear
    return meaning.by(actor)


# -- material, draws, pawns ----------------------------------------------------------------


def _material(meaning: Meaning) -> Statement:
    side = meaning.side("S")
    what, lead = meaning.word("what"), meaning.word("lead")
    if lead and meaning.language.name != "english":
        what = meaning.in_english(meaning.groups.get("what", ""))
    fixed = meaning.pattern.fixed
    if fixed.get("what") == "":
        what = ""
    if what == "even":
        return meaning.made(at=meaning.ground, what="even")
    if meaning.has("S") and side is None:
        raise Unclear
    if lead:
        what = f"{what} {lead}".strip()
    if re.match(r"(?:not|no|about|two moves)\b", what):
        raise Unclear
    return meaning.made(at=meaning.ground, side=side, what=re.sub(r"^(?:a|an) ", "", what))


def _perpetual(meaning: Meaning) -> Statement:
    if meaning.pattern.fixed.get("turn"):
        side = meaning.side("S")
        return meaning.made(at=meaning.ground, side=meaning.board.turn if side is None else side)
    return meaning.by(meaning.actor)


def _stalemate(meaning: Meaning) -> Statement:
    if meaning.pattern.fixed.get("forces"):
        return meaning.by(meaning.actor, number=meaning.number("N"), what="forces")
    named = meaning.meant("any") if meaning.sort("any") == "M" else None
    ground = named.after if isinstance(named, Named) else meaning.ground
    return meaning.made(at=ground, what=str(meaning.pattern.fixed.get("what", "")))


def _draw(meaning: Meaning) -> Statement:
    rule = meaning.word("rule")
    return meaning.made(at=meaning.ground, what=rule)


def _zugzwang(meaning: Meaning) -> Statement:
    side = meaning.side("any")
    if side not in (None, meaning.board.turn) and "put" not in meaning.match[0]:
        raise Unclear
    return meaning.made(at=meaning.ground, side=meaning.board.turn)


def _about_piece(meaning: Meaning) -> Statement:
    if meaning.meant("P").letter == "K":
        raise Unclear
    return meaning.made(at=meaning.ground, **_piece(meaning, meaning.meant("P")))


def _pawn(meaning: Meaning) -> Statement:
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


def _file(meaning: Meaning) -> Statement:
    what, negated = meaning.word("what"), meaning.has("not")
    if what == "closed":
        what, negated = "open", not negated
    side = meaning.side("S")
    if what == "half-open" and side is None:
        raise Unclear
    square = str(meaning.meant("L"))
    return meaning.made(at=meaning.ground, square=square, what=what, side=side, negated=negated)


_BUILT: dict[str, Callable[[Meaning], Statement]] = {
    "mate": _mate,
    "checkmate": _checkmate,
    "no defence": _no_defence,
    "check": _by_actor,
    "only move": _only_move,
    "only legal move": _only_legal,
    "pinned": _pinned,
    "threatens": _threatens,
    "parries": _parries,
    "wins": _wins,
    "loses": _loses,
    "attacks": _attacks,
    "attacked": _attacked,
    "defended": _defended,
    "undefended": _defended,
    "hanging": _defended,
    "all defended": _all_defended,
    "can castle": _castling,
    "cannot castle": _castling,
    "shows": _shows,
    "material": _material,
    "stalemate": _stalemate,
    "perpetual": _perpetual,
    "draw": _draw,
    "cannot take": _cannot_take,
    "cannot be taken": _cannot_be_taken,
    "cannot move": _cannot_move,
    "illegal": _illegal,
    "pawn": _pawn,
    "file": _file,
    "trapped": _about_piece,
    "zugzwang": _zugzwang,
}
