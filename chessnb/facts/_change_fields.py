"""What a move changes, as the fields of its record.

Which of the changes are told, and in which order, is for the words to decide,
and may be decided better; the record holds them by what they are.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from chessnb.board.pieces import Man
from chessnb.facts._comparison import Gain
from chessnb.facts._move_changes import MoveChanges
from chessnb.findings.record_fields import men_field, side_word


def fields_of(changes: MoveChanges) -> Iterator[str]:
    """Run through the fields, in the order of the kind ``changes``."""
    yield from _the_move_itself(changes)
    if changes.ends_the_game:
        return  # nothing else matters any more
    yield from _men("attacks", (hit.target for hit in changes.hits))
    yield from _men("uncovers", (hit.target for hit in changes.uncovered))
    yield from _men("pins", (pin.man for pin in changes.pins))
    yield from _men("gets pinned", (pin.man for pin in changes.gets_pinned))
    yield from _men("undefended", changes.left_unguarded)
    yield from _gains("threatens", changes.threatens)
    yield from _gains("offers", changes.offers)
    yield from _men("parries", changes.parries)
    for side, wing in changes.castling_lost:
        yield f"ends castling {side_word(side)} {wing}"
    for kind in ("passed", "isolated", "doubled", "backward"):
        yield from _men(kind, getattr(changes, kind))
    for kind, letters in (
        ("opens", changes.files_opened),
        ("half-opens", changes.files_half_opened),
    ):
        if letters:
            yield f"{kind} {' '.join(letters)}"


def _the_move_itself(changes: MoveChanges) -> Iterator[str]:
    if changes.captured:
        yield f"takes {men_field([changes.captured])}{' en passant' if changes.en_passant else ''}"
    if changes.check or changes.stalemate:
        yield changes.check or "stalemate"
    if changes.castles:
        yield f"castles {changes.castles}"
    if changes.move.promotion:
        yield f"promotes {changes.man.piece.upper()}"


def _men(kind: str, men: Iterable[Man]) -> Iterator[str]:
    """Yield a field with its men, each once."""
    if named := men_field(dict.fromkeys(men)):
        yield f"{kind} {named}"


def _gains(kind: str, gains: Iterable[Gain]) -> Iterator[str]:
    for gain in gains:
        yield f"{kind} {men_field([gain.man])} {gain.points} points"
