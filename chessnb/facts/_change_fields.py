"""What a move changes, as the fields of its record.

Which of the changes are told, and in which order, is for the words to decide,
and may be decided better; the record holds them by what they are.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from chessnb.board.pieces import Piece
from chessnb.facts._comparison import ExchangeGain
from chessnb.facts._move_changes import MoveChanges
from chessnb.findings.record_fields import pieces_field, side_word


def fields_of(changes: MoveChanges) -> Iterator[str]:
    """Run through the fields, in the order of the kind ``changes``."""
    yield from _the_move_itself(changes)
    if changes.ends_the_game:
        return  # nothing else matters any more
    yield from _pieces("attacks", (attack.target for attack in changes.attacks))
    yield from _pieces("uncovers", (attack.target for attack in changes.uncovered))
    yield from _pieces("pins", (pin.piece for pin in changes.pins))
    yield from _pieces("gets pinned", (pin.piece for pin in changes.gets_pinned))
    yield from _pieces("undefended", changes.left_undefended)
    yield from _gains("threatens", changes.threatens)
    yield from _gains("offers", changes.offers)
    yield from _gains("leaves", changes.leaves)
    yield from _pieces("parries", changes.parries)
    for side, wing in changes.castling_lost:
        yield f"ends castling {side_word(side)} {wing}"
    for kind in ("passed", "isolated", "doubled", "backward"):
        yield from _pieces(kind, getattr(changes, kind))
    for kind, letters in (
        ("opens", changes.files_opened),
        ("half-opens", changes.files_half_opened),
    ):
        if letters:
            yield f"{kind} {' '.join(letters)}"


def _the_move_itself(changes: MoveChanges) -> Iterator[str]:
    if changes.captured:
        taken = pieces_field([changes.captured])
        yield f"takes {taken}{' en passant' if changes.en_passant else ''}"
    if changes.check or changes.stalemate:
        yield changes.check or "stalemate"
    if changes.forces_mate:
        yield "mates next"
    if changes.castles:
        yield f"castles {changes.castles}"
    if changes.move.promotion:
        yield f"promotes {changes.piece.letter.upper()}"


def _pieces(kind: str, pieces: Iterable[Piece]) -> Iterator[str]:
    """Yield a field with its pieces, each once."""
    if named := pieces_field(dict.fromkeys(pieces)):
        yield f"{kind} {named}"


def _gains(kind: str, gains: Iterable[ExchangeGain]) -> Iterator[str]:
    for gain in gains:
        yield f"{kind} {pieces_field([gain.piece])} {gain.points} points"
