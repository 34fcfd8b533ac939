"""Movetext, checked against the PGN standard and python-chess's own reader."""

import io
import random

import chess
import chess.pgn
import pytest

from chessnb.errors import GameFileError, IllegalMove, MalformedMove, NotationError
from chessnb.notation import read_line, read_movetext, write_movetext
from chessnb.notation.movetext import GLYPHS


def random_tree(seed):
    """A game with random variations, comments and glyphs."""
    chance = random.Random(seed)
    game = chess.pgn.Game()
    game.comment = chance.choice(["", "before it all", "two\nlines"])
    nodes = [game]
    for _ in range(60):
        node = chance.choice(nodes[-6:] if chance.random() < 0.7 else nodes)
        board = node.board()
        unused = [move for move in board.legal_moves if not node.has_variation(move)]
        if not unused:
            continue
        child = node.add_variation(chance.choice(unused))
        if chance.random() < 0.3:
            child.nags.add(chance.choice([1, 2, 3, 4, 5, 6, 10, 18, 146]))
        if chance.random() < 0.3:
            child.comment = chance.choice(
                [
                    "fine",
                    "[%example 12] slow",
                    "a (bracket) and ; a semicolon",
                    "$3 in words",
                    "% x",
                ]
            )
        if child.starts_variation() and chance.random() < 0.3:
            child.starting_comment = "instead of this:"
        nodes.append(child)
    return game


@pytest.mark.parametrize("seed", range(40))
def test_random_trees_read_as_the_reference_library_reads_them(seed):
    tree = random_tree(seed)
    text = write_movetext(tree, columns=random.Random(seed).choice([None, 40, 80]))
    theirs = chess.pgn.read_game(io.StringIO(text))
    ours = read_movetext(text)
    assert str(ours) == str(theirs)
    assert write_movetext(ours) == write_movetext(tree)


def test_the_example_of_the_standard():
    # PGN standard (1994), section 2.3, the movetext of its example game, from memory.
    text = """1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3
    O-O 9. h3 Nb8 10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15. Nb1 h6 16. Bh4
    c5 17. dxe5 Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21. Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5
    Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7 27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3
    Kd6 31. axb4 cxb4 32. Ra5 Nd5 33. f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4
    38. g3 Nxh3 39. Kd2 Kb5 40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6 1/2-1/2"""
    game = read_movetext(text)
    assert game.end().ply() == 85
    assert game.headers["Result"] == "1/2-1/2"


@pytest.mark.parametrize(
    "text",
    [
        "1. e4 e5 2. Nf3", "1.e4 e5 2.Nf3", "1 e4 e5 2 Nf3", "e4 e5 Nf3", "1. e4 1... e5 2. Nf3",
        "1. e4 1. ... e5 2. Nf3", "1. e4 … e5 2. Nf3", "1 . e4 e5 2 . Nf3", "1. e2-e4 e7-e5 2. Ng1-f3",
        "e2e4 e7e5 g1f3", "1. e4! e5?? 2. Nf3!?", "1. e4 $1 e5 $4 2. Nf3 $5", "1. e4 e5 2. ♘f3",
        "1. e4 {a comment} e5 ; another\n2. Nf3", "1. e4\n% an escaped line\ne5 2. Nf3 *",
        "1. e4 e5 = 2. Nf3 +/-", "1. e4 <reserved> e5 2. Nf3",
    ],
)  # fmt: skip
def test_one_line_in_many_hands(text):
    assert [move.uci() for move in read_line("start", text)] == ["e2e4", "e7e5", "g1f3"]


@pytest.mark.parametrize(
    ("text", "kind", "part"),
    [
        ("1. e4 e5 2. Bg5", IllegalMove, "the pawn on d2 is in the way"),
        ("1. e4 e5 3. Nf3", MalformedMove, "the next move is White's, number 2."),
        ("1... e5", MalformedMove, "the next move is White's, number 1."),
        ("1. e4 hello", MalformedMove, "this is not a move"),
        ("1. e4 {no end", GameFileError, "no closing brace"),
        ("1. e4\n\n(1. d4", GameFileError, "the text, line 3: the variation that opens here"),
        ("1. e4 () {kept?}", GameFileError, "the variation that closes here has no moves"),
        ("1. e4 ($3) e5", GameFileError, "the variation that closes here has no moves"),
        ("1. e4 )", GameFileError, "without an opening one"),
        ("(1. e4)", GameFileError, "before the move that it replaces"),
        ("1. e4 ((1. d4))", GameFileError, "before the move that it replaces"),
        ("1. e4 }", GameFileError, "closing brace"),
        ("1. e4 [x]", NotationError, "this is not a move"),
        ("1. e4 N", NotationError, "'N'"),
        ("1. e4 D", NotationError, "'D'"),
        ("1. e4 (1. d4) e5", GameFileError, "a variation"),
    ],
)
def test_what_is_no_line_is_refused(text, kind, part):
    with pytest.raises(kind) as caught:
        read_line("start", text)
    assert part in str(caught.value)


def test_numbers_that_the_standard_does_not_know_are_kept_and_have_no_sign():
    # PGN standard, section 10: 0 to 139 have a meaning, 0 to 255 may stand in a file.
    game = read_movetext("1. e4 $1 $146 e5 $220 $255 2. Nf3 $14")
    assert [node.nags for node in game.mainline()] == [{1, 146}, {220, 255}, {14}]
    assert write_movetext(game) == "1. e4 $1 $146 e5 $220 $255 2. Nf3 $14 *"
    assert max(GLYPHS) <= 139


def test_a_promotion_in_brackets_is_no_variation():
    board = "7k/4P3/8/8/8/8/8/4K3 w - - 0 1"
    assert read_line(board, "1. e8(Q)+ Kg7 2. Qe7+")[0].uci() == "e7e8q"
    game = read_movetext("1. e8(Q)+ Kg7 (1... Kh7 2. Qf7+) 2. Qe7+", position=board)
    assert len(game[0].variations) == 2


def test_the_position_that_is_handed_in_is_not_changed():
    board = chess.Board()
    read_line(board, "1. e4 e5")
    assert board == chess.Board()
    assert not board.move_stack
