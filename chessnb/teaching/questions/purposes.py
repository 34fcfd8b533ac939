"""What a move does, as things that can be named: a verb, and what it is done to.

All of it follows from the rules (:func:`chessnb.facts.changes`).  What is
telling is what a teacher would say of the move; the rest is true as well.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.naming import the_piece
from chessnb.board.pieces import Piece
from chessnb.board.sides import SIDES
from chessnb.board.squares import name
from chessnb.facts import Changes
from chessnb.motifs.pin_lines import lined_up
from chessnb.motifs.tactics.relative_pin import leaving_loses

Facts = Iterator["Purpose"]


@dataclass(frozen=True, kw_only=True)
class Purpose:
    """One thing that a move does.

    Attributes
    ----------
    verb : str
        What it does: ``"attacks"``.
    target : str
        The square of the piece it is done to, a file, a wing; empty for none.
    sentence : str
        The same in words, as the end of "It …".
    telling : bool
        Whether a teacher would say it of the move.
    """

    verb: str
    target: str = ""
    sentence: str
    telling: bool = True


def purposes(changes: Changes) -> tuple[Purpose, ...]:
    """Return all that a move does and that can be named, the telling things first."""
    found = [
        *_itself(changes),
        *_aims(changes),
        *_pins(changes),
        *_helps(changes),
        *_opens(changes),
        *_develops(changes),
    ]
    once: dict[tuple[str, str], Purpose] = {}
    for one in found:
        once.setdefault((one.verb, one.target), one)
    return tuple(sorted(once.values(), key=lambda one: not one.telling))


def _itself(changes: Changes) -> Facts:
    if changes.check == "checkmate":
        yield Purpose(verb="mates", sentence="mates")
    elif changes.check:
        king = changes.after.king(not changes.side)
        square = "" if king is None else name(king)
        yield Purpose(verb="checks", target=square, sentence=f"gives {changes.check}")
    if changes.forces_mate:
        yield Purpose(verb="threatens mate", sentence="forces mate on the next move")
    if changes.captured is not None:
        taken = changes.captured
        yield Purpose(verb="takes", target=taken.square, sentence=f"takes {taken}")
    if changes.castles:
        sentence = f"castles {changes.castles}: the king goes to safety, the rook into play"
        yield Purpose(verb="castles", target=changes.castles, sentence=sentence)
    if changes.move.promotion:
        yield Purpose(verb="promotes", sentence=f"promotes to a {changes.piece.name}")
    if changes.answered:
        yield Purpose(verb="answers check", sentence="answers the check")


def _aims(changes: Changes) -> Facts:
    gains = {gain.piece for gain in changes.threatens}
    for attack in (*changes.attacks, *changes.uncovered):
        piece = attack.target
        telling = attack.undefended or piece.name != "pawn" or piece in gains
        yield Purpose(
            verb="attacks", target=piece.square, sentence=f"attacks {piece}", telling=telling
        )
    for gain in changes.threatens:
        piece = gain.piece
        sentence = f"threatens to take {piece}"
        yield Purpose(verb="threatens", target=piece.square, sentence=sentence)


def _pins(changes: Changes) -> Facts:
    """Yield new pins: to the king, to something else; a line-up that only looks like one last."""
    for pin in changes.pins:
        sentence = f"pins {pin.piece} to its king"
        yield Purpose(verb="pins", target=pin.piece.square, sentence=sentence)
    before, after = chess.Board(changes.fen), changes.after
    known = {pin.pair for pin in lined_up(before, changes.side)}
    for new in lined_up(after, changes.side):
        if new.pair in known:
            continue
        pinned, rear = the_piece(after, new.pinned), the_piece(after, new.rear)
        yield Purpose(
            verb="pins",
            target=name(new.pinned),
            sentence=f"pins {pinned} to {rear}",
            telling=leaving_loses(after, changes.side, new),
        )


def _helps(changes: Changes) -> Facts:
    needed = {*changes.newly_defended, *changes.parries}
    for defence in changes.defends:
        piece = defence.piece
        sentence = f"defends {piece}"
        yield Purpose(
            verb="defends", target=piece.square, sentence=sentence, telling=piece in needed
        )
    for piece in changes.parries:
        yield Purpose(verb="saves", target=piece.square, sentence=_saves(changes, piece))
    for pin in changes.frees:
        sentence = f"frees {pin.piece} from the pin"
        yield Purpose(verb="unpins", target=pin.piece.square, sentence=sentence)
    for side, wing in changes.castling_lost:
        if side != changes.side:
            sentence = f"ends {SIDES[side]}'s right to castle {wing}"
            yield Purpose(verb="stops castling", target=wing, sentence=sentence)


def _saves(changes: Changes, piece: Piece) -> str:
    if piece in changes.moved:
        return f"brings the {piece.name} out of attack"
    return f"parries the attack on {piece}"


def _opens(changes: Changes) -> Facts:
    for line in changes.opened:
        sentence = f"opens {line.name} for {line.by}"
        telling = bool(line.attacks) or len(line.squares) >= 3
        for target in (line.by.square, _file_of(line.name)):
            yield Purpose(verb="opens", target=target, sentence=sentence, telling=telling)
    for letter in changes.files_opened:
        yield Purpose(verb="opens", target=letter, sentence=f"opens the {letter}-file")
    for line in changes.closed_to_enemy:
        telling = bool(line.attacks) or len(line.squares) >= 3
        sentence = f"closes {line.name} to {line.by}"
        yield Purpose(verb="closes", target=line.by.square, sentence=sentence, telling=telling)
    for piece in changes.passed:
        if piece.color == changes.side:
            sentence = f"makes a passed pawn on {piece.square}"
            yield Purpose(verb="makes a passed pawn", target=piece.square, sentence=sentence)


def _develops(changes: Changes) -> Facts:
    """Yield that a knight or a bishop leaves its first rank."""
    home = 0 if changes.side else 7
    piece = changes.piece
    if piece.name in ("knight", "bishop") and chess.square_rank(changes.move.from_square) == home:
        yield Purpose(verb="develops", target=piece.square, sentence=f"develops the {piece.name}")


def _file_of(name: str) -> str:
    """Return the letter of a file: ``"c"`` for ``"the c-file"``; a diagonal by its name."""
    return name.removeprefix("the ").removesuffix("-file").removesuffix(" diagonal")
