"""What follows from the structure: cases with near misses, in both colours."""

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.errors import InputError
from chessnb.facts import structure
from chessnb.facts._held_lines import held_files
from chessnb.facts._strongpoints import attackable, holes, knight_route, outposts

CASES = [
    # -- a passed pawn and what stops it
    ("4k3/8/3n4/3P4/8/8/8/4K3 w - - 0 1", "white passed d5 blocked Nd6"),
    ("4k3/3r4/8/3P4/8/8/8/4K3 w - - 0 1", "white passed d5 covered Rd7 Ke8"),
    ("8/8/8/3P4/8/8/k7/4K3 w - - 0 1", "white passed d5 free"),
    # A rook behind the pawn stops it, and so does a bishop that sees one square of its way.
    ("8/8/8/3P4/8/8/k2r4/6K1 w - - 0 1", "white passed d5 covered Rd2"),
    ("8/8/8/3P4/7b/8/k7/6K1 w - - 0 1", "white passed d5 covered Bh4"),
    # An own piece before it stops nothing, and a pawn that is not passed is not told.
    ("8/8/3K4/3P4/8/8/k7/8 w - - 0 1", "white passed d5 free"),
    ("4k3/2p5/8/3P4/8/8/8/4K3 w - - 0 1", "!passed"),
    # -- majorities
    ("4k3/pp4pp/8/8/8/8/PPP3PP/4K3 w - - 0 1", "white majority queenside 3 to 2"),
    ("4k3/pp4pp/8/8/8/2P5/P1P3PP/4K3 w - - 0 1", "white majority queenside 3 to 2 doubled"),
    ("4k3/pp4pp/8/8/8/8/PP4PP/4K3 w - - 0 1", "!majority"),
    ("4k3/6pp/8/8/8/8/PP4PP/4K3 w - - 0 1", "!majority"),
    # -- outposts
    ("4k3/pp3ppp/3p4/3N4/4P3/8/8/4K3 w - - 0 1", "white outpost d5 held by Nd5"),
    ("4k3/pp3ppp/3p4/3B4/4P3/8/8/4K3 w - - 0 1", "white outpost d5 held by Bd5"),
    ("4k3/pp3ppp/3p4/8/4P3/2N5/8/4K3 w - - 0 1", "white outpost d5 within 1 of Nc3"),
    ("4k3/pp3ppp/3p4/8/4P3/8/8/4K1N1 w - - 0 1", "white outpost d5 within 3 of Ng1"),
    # A pawn on c7 or e7 can still drive it away; without the pawn on e4 nobody guards it.
    ("4k3/ppp2ppp/3p4/3N4/4P3/8/8/4K3 w - - 0 1", "!outpost d5"),
    ("4k3/pp2pppp/3p4/3N4/4P3/8/8/4K3 w - - 0 1", "!outpost d5"),
    ("4k3/pp3ppp/3p4/3N4/8/8/8/4K3 w - - 0 1", "!outpost"),
    # A rook does not stand on an outpost, and the pinned knight cannot go to one.
    ("4k3/pp3ppp/3p4/3R4/4P3/8/8/4K3 w - - 0 1", "!outpost"),
    ("4k3/pp3ppp/3p4/b7/4P3/2N5/8/4K3 w - - 0 1", "!within"),
    # The square is in White's own half.
    ("4k3/pp3ppp/8/8/3N4/2P5/8/4K3 w - - 0 1", "!outpost"),
    # -- holes
    ("4k3/8/5n2/8/8/6P1/5P1P/6K1 w - - 0 1", "white holes f3"),
    # The pawn on g2 can still guard it; a knight or a bishop of its colour must be there to use it.
    ("4k3/8/5n2/8/8/8/5PPP/6K1 w - - 0 1", "!holes"),
    ("4k3/8/8/8/8/6P1/5P1P/6K1 w - - 0 1", "!holes"),
    ("2b1k3/8/8/8/8/6P1/5P1P/6K1 w - - 0 1", "white holes f3"),
    ("4kb2/8/8/8/8/6P1/5P1P/6K1 w - - 0 1", "!holes"),
    # -- a bad bishop
    ("2b1k3/1p3p2/4p3/3pP3/3P4/8/8/4K3 w - - 0 1", "black bad Bc8 behind b7 d5 e6 f7"),
    # The other bishop is not; nor is one whose pawns may still move.
    ("4kb2/1p3p2/4p3/3pP3/3P4/8/8/4K3 w - - 0 1", "!bad"),
    ("2b1k3/1p3p2/4p3/3p4/8/8/8/4K3 w - - 0 1", "!bad"),
    # -- files
    ("4k3/8/8/8/8/8/P6P/3RK3 w - - 0 1", "white open d by Rd1"),
    ("4k3/8/8/8/8/3R4/P2R3P/4K3 w - - 0 1", "white open d by Rd2 Rd3"),
    ("4k3/3p4/8/8/8/8/P6P/3RK3 w - - 0 1", "white half-open d by Rd1"),
    ("3rk3/8/8/8/8/8/P6P/3RK3 w - - 0 1", "!open d"),
    ("4k3/8/8/8/8/8/P2P3P/3RK3 w - - 0 1", "!open"),
    # -- gaps before a king
    ("3qk3/8/8/8/8/8/5P1P/6K1 w - - 0 1", "white gaps g before Kg1"),
    ("3rk3/8/8/8/8/8/5P1P/6K1 w - - 0 1", "!gaps"),
    ("3qk3/8/8/8/8/8/5PPP/6K1 w - - 0 1", "!gaps"),
    ("3qk3/8/8/8/8/8/5P1P/4K2R w K - 0 1", "!gaps"),
]  # fmt: skip


@pytest.mark.parametrize(("fen", "field"), CASES)
def test_what_is_found_and_what_is_not(fen, field):
    found = " | ".join(structure(fen).record.fields)
    mirrored = " | ".join(structure(chess.Board(fen).mirror()).record.fields)
    if field.startswith("!"):
        assert field[1:] not in found
        assert in_the_mirror(field[1:]) not in mirrored
    else:
        assert field in found
        assert in_the_mirror(field) in mirrored


def in_the_mirror(field):
    """Return a field with the sides changed and the ranks turned round."""
    words = []
    for word in field.split(" "):
        if word in ("white", "black"):
            words.append({"white": "black", "black": "white"}[word])
        elif word[-1].isdigit() and len(word) in (2, 3):
            words.append(f"{word[:-1]}{9 - int(word[-1])}")
        else:
            words.append(word)
    return " ".join(words)


def test_the_start_has_nothing_of_it():
    assert structure("start").record.fields == ()
    assert structure("start").words == (
        "No weak or passed pawn, no outpost, and no file that one side holds."
    )


def test_one_part_may_be_asked_for():
    board = "4r1k1/pp3ppp/3p4/3N4/4P3/8/PP3PPP/3R2K1 w - - 0 1"
    found = structure(board, about="outposts")
    assert str(found) == "1. | structure | about outposts | white outpost d5 held by Nd5 | rules"
    assert len(found.paragraphs) == 1
    found = structure(board, about=["weak pawns", "files"])
    assert found.paragraphs == (
        "Black has an isolated pawn on d6.",
        "White holds the half-open d-file with the rook on d1.",
        "Black holds the half-open e-file with the rook on e8.",
    )
    assert structure(board, about="passed pawns").words == "There are no passed pawns."
    every = structure(board)
    assert every.outposts == structure(board, about="outposts").outposts


@pytest.mark.parametrize("wrong", ["pawns", "", 7, ["files", "rooks"], [None]])
def test_a_part_that_there_is_not_is_refused(wrong):
    with pytest.raises(InputError, match="what is asked about is"):
        structure("start", about=wrong)


def test_whether_a_pawn_can_come_to_attack_a_square_is_tried_out():
    """By walking every pawn ahead, square by square, as if nothing stood in its way."""
    for board in random_boards(scaled(150), seed=5, longest=140):
        for side in chess.COLORS:
            reach = set()
            for pawn in board.pieces(chess.PAWN, side):
                while 0 < chess.square_rank(pawn) < 7:
                    reach |= set(chess.SquareSet(chess.BB_PAWN_ATTACKS[side][pawn]))
                    pawn += 8 if side else -8
            for square in chess.SQUARES:
                assert attackable(board, square, side) == (square in reach), board.fen()
            for name in holes(board, side):
                assert chess.parse_square(name) not in reach
            for post in outposts(board, not side):
                square = chess.parse_square(post.square)
                assert square not in reach
                assert {chess.square_name(one) for one in board.attackers(not side, square)
                        if board.piece_type_at(one) == chess.PAWN} == set(post.guards)  # fmt: skip


def test_a_knight_that_is_said_to_come_can_be_played_there():
    played = 0
    for board in random_boards(scaled(300), seed=6, longest=90):
        for side in chess.COLORS:
            for post in outposts(board, side):
                if post.piece is None or post.is_held:
                    continue
                board.turn = side
                here = chess.parse_square(post.piece.square)
                if board.is_check() or board.was_into_check():
                    continue
                walked = board.copy(stack=False)
                for name in post.route:
                    step = chess.Move(here, chess.parse_square(name))
                    assert step in walked.legal_moves, (board.fen(), post)
                    walked.push(step)
                    walked.push(chess.Move.null())
                    here = chess.parse_square(name)
                    if walked.was_into_check():
                        break
                played += 1
    assert played >= scaled(20)


def test_a_knight_hemmed_in_has_no_way():
    board = chess.Board("4k3/8/8/8/8/1P6/2P5/N3K3 w - - 0 1")
    assert knight_route(board, chess.A1, chess.D5) == ()


def test_a_file_is_held_by_one_side_at_most():
    for board in random_boards(scaled(200), seed=7, longest=140):
        held = [{one.file for one in held_files(board, side)} for side in chess.COLORS]
        assert not held[0] & held[1]


@pytest.mark.parametrize(
    ("fen", "sentence"),
    [
        ("4k3/8/3n4/3P4/8/8/8/4K3 w - - 0 1",
         "White has a passed pawn on d5; the knight on d6 blocks it."),
        ("8/8/8/3P4/8/8/k7/4K3 w - - 0 1",
         "White has a passed pawn on d5, and no black piece watches its way."),
        ("4k3/3r4/8/3P4/8/8/8/4K3 w - - 0 1",
         "White has a passed pawn on d5; the rook on d7 and the king on e8 watch its way."),
        ("4k3/pp3ppp/3p4/8/4P3/8/8/4K1N1 w - - 0 1",
         "d5 is an outpost for White, and the knight on g1 can be there in three moves by way of "
         "e2 and c3."),
        ("2b1k3/1p3p2/4p3/3pP3/3P4/8/8/4K3 w - - 0 1",
         "Black's bishop on c8 is a bad bishop: its own pawns on b7, d5, e6 and f7 stand on its "
         "colour, and those on d5 and e6 are blocked."),
        ("4k3/8/5n2/8/8/6P1/5P1P/6K1 w - - 0 1",
         "White has no pawn that can still come to guard f3."),
        ("4k3/8/8/8/8/3R4/P2R3P/4K3 w - - 0 1",
         "White holds the open d-file with the rooks on d2 and d3."),
        ("3qk3/8/8/8/8/8/7P/6K1 w - - 0 1",
         "White's king on g1 has no pawn of its own on the f- and g-files."),
        ("4k3/pp4pp/8/8/8/2P5/P1P3PP/4K3 w - - 0 1",
         "White has three pawns against two on the queenside, some of them doubled."),
    ],
)  # fmt: skip
def test_how_it_is_said(fen, sentence):
    assert sentence in structure(fen).paragraphs
