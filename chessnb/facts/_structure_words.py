"""The sentences for the structure of a position, as a book would print them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import chess

from chessnb.board.naming import NUMBERS, listed
from chessnb.board.pieces import Piece, pieces_in_words
from chessnb.board.sides import SIDES
from chessnb.facts._held_lines import BadBishop, HeldFile, KingShelter
from chessnb.facts._passers import Majority, PassedPawn
from chessnb.facts._pawns import Structure
from chessnb.facts._strongpoints import Outpost

NOTHING = "No weak or passed pawn, no outpost, and no file that one side holds."


def sentences(
    *,
    weak: Iterable[tuple[chess.Color, Structure]],
    passed: Iterable[PassedPawn],
    majorities: Iterable[Majority],
    holes: Iterable[tuple[chess.Color, tuple[str, ...]]],
    outposts: Iterable[Outpost],
    bad_bishops: Iterable[BadBishop],
    held_files: Iterable[HeldFile],
    shelters: Iterable[KingShelter],
) -> tuple[str, ...]:
    """Return one sentence for each part that there is; none if there is nothing."""
    found = [
        *weak_sentences(weak),
        *map(passed_sentence, passed),
        *map(outpost_sentence, outposts),
        *hole_sentences(holes),
        *map(bishop_sentence, bad_bishops),
        *map(file_sentence, held_files),
        *map(majority_sentence, majorities),
        *map(shelter_sentence, shelters),
    ]
    return tuple(found)


def weak_sentences(weak: Iterable[tuple[chess.Color, Structure]]) -> Iterator[str]:
    """Yield who has which weak pawns: ``"White has an isolated pawn on d4."``."""
    for side, pawns in weak:
        kinds = [
            _weak(kind, squares)
            for kind in ("isolated", "doubled", "backward")
            if (squares := getattr(pawns, kind))
        ]
        if kinds:
            yield f"{SIDES[side]} has {listed(kinds)}."


def _weak(kind: str, squares: tuple[str, ...]) -> str:
    if len(squares) > 1:
        return f"{kind} pawns on {listed(squares)}"
    return f"{'an' if kind == 'isolated' else 'a'} {kind} pawn on {squares[0]}"


def passed_sentence(pawn: PassedPawn) -> str:
    """Return who has a passed pawn, and what stops it."""
    other = SIDES[not pawn.side].lower()
    start = f"{SIDES[pawn.side]} has a passed pawn on {pawn.square}"
    if pawn.blocked_by is not None:
        return f"{start}; {pawn.blocked_by} blocks it."
    if pawn.stopped_by:
        verb = "watches" if len(pawn.stopped_by) == 1 else "watch"
        return f"{start}; {_mixed(pawn.stopped_by)} {verb} its way."
    return f"{start}, and no {other} piece watches its way."


def _mixed(pieces: tuple[Piece, ...]) -> str:
    """Name pieces one after another: the queen on d8 and the rooks on a8 and c8."""
    return pieces_in_words(pieces)


def outpost_sentence(post: Outpost) -> str:
    """Return which square is an outpost, why, and who is or soon can be there."""
    guards = f"{'pawns' if len(post.guards) > 1 else 'pawn'} on {listed(post.guards)}"
    verb = "guard" if len(post.guards) > 1 else "guards"
    other = SIDES[not post.side].lower()
    why = f"the {guards} {verb} it, and no {other} pawn on {_neighbours(post.square)}"
    if post.piece is None:
        return f"{post.square} is an outpost for {SIDES[post.side]}: {why} can attack it."
    if post.is_held:
        return f"{SIDES[post.side]}'s {_bare(post.piece)} has an outpost: {why} can drive it away."
    moves = "one move" if len(post.route) == 1 else f"{NUMBERS[len(post.route)]} moves"
    by = f" by way of {listed(post.route[:-1])}" if len(post.route) > 1 else ""
    return (
        f"{post.square} is an outpost for {SIDES[post.side]}, and {post.piece} can be there in "
        f"{moves}{by}."
    )


def _neighbours(square: str) -> str:
    """Name the files beside a square: ``"the c- or the e-file"``."""
    file = chess.FILE_NAMES.index(square[0])
    letters = [chess.FILE_NAMES[one] for one in (file - 1, file + 1) if 0 <= one < 8]
    return (
        f"the {letters[0]}-file" if len(letters) == 1 else "the {}- or the {}-file".format(*letters)
    )


def _bare(piece: Piece) -> str:
    return str(piece).removeprefix("the ")


def hole_sentences(holes: Iterable[tuple[chess.Color, tuple[str, ...]]]) -> Iterator[str]:
    """Yield which squares a side's pawns can guard no more by going ahead."""
    for side, squares in holes:
        if squares:
            yield f"{SIDES[side]} has no pawn that can still come to guard {listed(squares)}."


def bishop_sentence(bishop: BadBishop) -> str:
    """Return why a bishop is bad."""
    where = listed(bishop.pawns)
    stuck = listed(bishop.blocked)
    rest = "these are all" if bishop.blocked == bishop.pawns else f"those on {stuck} are"
    return (
        f"{SIDES[bishop.piece.color]}'s {_bare(bishop.piece)} is a bad bishop: its own pawns on "
        f"{where} stand on its colour, and {rest} blocked."
    )


def file_sentence(held: HeldFile) -> str:
    """Return who holds a file, and with what."""
    kind = "open" if held.is_open else "half-open"
    return f"{SIDES[held.side]} holds the {kind} {held.file}-file with {_mixed(held.pieces)}."


def majority_sentence(most: Majority) -> str:
    """Return who has more pawns on which half of the board."""
    doubled = ", some of them doubled" if most.doubled else ""
    own, enemy = NUMBERS[most.own], NUMBERS[most.enemy]
    plural = "pawns" if most.own > 1 else "pawn"
    return f"{SIDES[most.side]} has {own} {plural} against {enemy} on the {most.wing}{doubled}."


def shelter_sentence(king: KingShelter) -> str:
    """Return which files before a king have no pawn of its side."""
    files = listed(f"{letter}-" for letter in king.missing)
    plural = "files" if len(king.missing) > 1 else "file"
    return (
        f"{SIDES[king.king.color]}'s {_bare(king.king)} has no pawn of its own on the "
        f"{files}{plural}."
    )
