"""Discovered lines: what a piece sees once another of its side has left its line."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import is_slider, moves_along
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, force, ring, the, ticks
from chessnb.motifs.targets import targets_of


def opened(case: Case) -> Iterator[tuple[chess.Square, chess.Square]]:
    """Yield our pieces whose line the move has opened, and what enemy piece each now attacks."""
    left = case.move.from_square
    for piece in chess.SquareSet(case.after.occupied_co[case.side]):
        if piece == case.move.to_square or not is_slider(case.after, piece):
            continue
        for target in case.after.attacks(piece):
            if case.after.color_at(target) == (not case.side) and (
                left in chess.SquareSet.between(piece, target)
                and moves_along(case.after, piece, target)
            ):
                yield piece, target


def discovered(case: Case) -> Iterator[tuple[chess.Square, chess.Square]]:
    """Yield the opened lines that lead to something worth attacking."""
    for piece, target in opened(case):
        if target in targets_of(case.after, piece, case.side):
            yield piece, target


def discovery_tag(
    motif: str, case: Case, piece: chess.Square, target: chess.Square, *, verb: str, sound: bool
) -> Tag:
    """Make the tag of an opened line: which piece left it, which looks along it, and at what."""
    return case.tag(
        motif,
        sound=sound,
        actor=piece,
        targets=(target,),
        squares=(case.move.from_square, case.move.to_square),
        sentence=(
            f"{The(case.before, case.move.from_square)} goes to "
            f"{chess.square_name(case.move.to_square)} and opens the line on which "
            f"{the(case.after, piece)} {verb} {the(case.after, target)}"
        ),
        marks=(ring(piece), force(piece, target), ticks(target), ring(case.move.to_square)),
    )


def opens_nothing(case: Case) -> str:
    """Say that the move opens no line of another piece, if it opens none."""
    if any(True for _ in opened(case)):
        return ""
    return f"{the(case.before, case.move.from_square)} opens no line of another piece"
