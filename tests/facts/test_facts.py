"""What holds for all facts: the exports, texts that read back, and colours that make no odds."""

import chess
import pytest
from boards import random_boards
from hypothesis import given, settings
from hypothesis import strategies as st
from thoroughness import scaled

from chessnb import facts
from chessnb.facts import (
    Force,
    Structure,
    castling,
    changes,
    draws,
    ending,
    exchange,
    files,
    material,
    pawns,
    pressure,
    structure,
)
from chessnb.findings import Finding
from chessnb.findings.record import read_record


def all_facts(board: chess.Board) -> list[Finding]:
    found: list[Finding] = [
        material(board),
        castling(board),
        pawns(board),
        files(board),
        draws(board),
        pressure(board, "e4"),
        exchange(board, "d5"),
        structure(board),
        ending(board),
    ]
    found += [changes(board, move) for move in list(board.legal_moves)[:2]]
    return found


def test_facts_and_their_records_read_back_and_say_one_line() -> None:
    names = {name: getattr(facts, name) for name in facts.__all__}
    names["Move"] = chess.Move
    for board in random_boards(scaled(30), seed=40):
        for found in all_facts(board):
            again = eval(repr(found), names)
            assert again == found
            assert again.words == found.words == found.words.strip()
            assert "\n" not in found.words
            assert read_record(str(found)) == again.record == found.record
            # Words alone say how the material stands and whether the game is drawn.
            in_words = isinstance(found, facts.Material | facts.DrawFacts)
            first = "<p>" if in_words else "<img "
            face = "<div class='chessnb'><div style='font-family: Georgia,Palatino,serif'>"
            assert found._repr_html_().startswith(f"{face}{first}")


@pytest.mark.parametrize("look", [material, castling, pawns, files, draws, structure, ending])
def test_a_position_without_kings_is_refused(look) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match="has no king"):
        look("8/8/8/8/8/8/8/K7 w - - 0 1")


@st.composite
def boards(draw: st.DrawFn) -> chess.Board:
    board = chess.Board()
    for choice in draw(st.lists(st.integers(0, 217), max_size=90)):
        moves = list(board.legal_moves)
        if not moves:
            break
        board.push(moves[choice % len(moves)])
    return board


def flipped(square: str) -> str:
    """Return the square in the mirror that lies between the fourth and the fifth rank."""
    return f"{square[0]}{9 - int(square[1])}"


@given(boards())
@settings(max_examples=scaled(80), deadline=None, derandomize=True)
def test_material_has_no_favourite_colour(board: chess.Board) -> None:
    found, mirrored = material(board), material(board.mirror())
    assert (found.white, found.black) == (mirrored.black, mirrored.white)
    assert found.balance == -mirrored.balance
    assert found.opposite_bishops == mirrored.opposite_bishops
    swapped = mirrored.words.replace("White", "?").replace("Black", "White").replace("?", "Black")
    assert found.words == swapped


@given(boards())
@settings(max_examples=scaled(60), deadline=None, derandomize=True)
def test_pawns_have_no_favourite_colour(board: chess.Board) -> None:
    found, mirrored = pawns(board), pawns(board.mirror())
    for ours, theirs in ((found.white, mirrored.black), (found.black, mirrored.white)):
        assert ours == Structure(
            **{
                kind: tuple(sorted(map(flipped, getattr(theirs, kind))))
                for kind in ("isolated", "doubled", "passed", "backward")
            }
        )
    assert files(board).half_open_for_white == files(board.mirror()).half_open_for_black


@given(boards(), st.sampled_from(chess.SQUARE_NAMES))
@settings(max_examples=scaled(150), deadline=None, derandomize=True)
def test_pressure_has_no_favourite_colour(board: chess.Board, square: str) -> None:
    found, mirrored = pressure(board, square), pressure(board.mirror(), flipped(square))
    assert found.side != mirrored.side
    for forces, others in (
        (found.attackers, mirrored.attackers),
        (found.defenders, mirrored.defenders),
    ):
        assert _without_colour(forces) == {
            (name, flipped(place), counts) for name, place, counts in _without_colour(others)
        }


def _without_colour(forces: tuple[Force, ...]) -> set[tuple[str, str, bool]]:
    return {(force.piece.name, force.piece.square, force.counts) for force in forces}


@given(boards(), st.sampled_from(chess.SQUARE_NAMES))
@settings(max_examples=scaled(150), deadline=None, derandomize=True)
def test_the_exchange_has_no_favourite_colour(board: chess.Board, square: str) -> None:
    found, mirrored = exchange(board, square), exchange(board.mirror(), flipped(square))
    assert found.started == mirrored.started
    assert found.gain == mirrored.gain


@given(boards())
@settings(max_examples=scaled(60), deadline=None, derandomize=True)
def test_changes_have_no_favourite_colour(board: chess.Board) -> None:
    for move in list(board.legal_moves)[:2]:
        there = chess.Move(
            chess.square_mirror(move.from_square),
            chess.square_mirror(move.to_square),
            move.promotion,
        )
        found, mirrored = changes(board, move), changes(board.mirror(), there)
        assert found.check == mirrored.check
        for kind in ("attacks", "uncovered", "defends", "pins", "threatens", "offers", "opened"):
            assert len(getattr(found, kind)) == len(getattr(mirrored, kind)), kind
        for kind in ("left_undefended", "exposed", "parries", "passed", "backward"):
            assert {piece.square for piece in getattr(found, kind)} == {
                flipped(piece.square) for piece in getattr(mirrored, kind)
            }, kind
