"""What counts as losing something: not what was left untaken, and not what was poisoned.

The positions are made for these tests, but where a source is named.
"""

import chess
import pytest

from chessnb import claims, reply_table
from chessnb.claims import FalseClaim, UnprovedClaim
from chessnb.verdicts.judge import verdict


def after(moves: str) -> chess.Board:
    """Return the board after moves in SAN."""
    board = chess.Board()
    for san in moves.split():
        board.push_san(san)
    return board


NOTHING_LOST = {
    "an undefended rook is left standing": ("6k1/5ppp/8/2r5/1B6/8/5PPP/R5K1 w - - 0 1", "h3"),
    "to take the knight allows mate": ("4r1k1/5ppp/8/3n4/8/6B1/5PPP/3R2K1 w - - 0 1", "h3"),
    "the pawn on a2 costs the bishop": ("6k1/pp3ppp/4b3/8/8/8/PPP2PPP/2K5 b - - 0 1", "Kf8"),
    "a queen would stalemate": ("8/5P1k/8/6K1/8/8/8/8 w - - 0 1", "f8=R"),
    # Saavedra, 1895, from memory
    "a queen would be stalemated away": ("8/2P5/8/8/3r4/8/2K5/k7 w - - 0 1", "c8=R"),
    "another capture wins more": (
        "r4rk1/pp3ppp/8/3n1Q2/3q1N2/8/PP3PPP/R4RK1 w - - 0 1",
        "Qxd5",
    ),
    "queens are exchanged": ("3r2k1/pp3ppp/8/3q4/3Q4/4B3/PP3PPP/6K1 w - - 0 1", "Qxd5"),
}


@pytest.mark.parametrize("case", NOTHING_LOST)
def test_what_is_left_alone_is_not_lost(case):
    fen, move = NOTHING_LOST[case]
    with pytest.raises(FalseClaim):
        claims.loses(fen, move)


@pytest.mark.parametrize("move", ["e6", "c6", "Nf6", "e5"])
def test_declining_a_gambit_loses_nothing(move):
    with pytest.raises(FalseClaim):
        claims.loses(after("d4 d5 c4"), move)


def test_a_table_counts_only_what_goes():
    table = reply_table("4r1k1/5ppp/8/3n4/8/6B1/5PPP/3R2K1 w - - 0 1")
    lost = {one.points for one in table.verdicts if one.kind == "offers"}
    assert lost == {2, 3}  # the bishop, where it is left to be taken; on e5 two pawns come back
    assert sum(one.kind == "nothing" for one in table.verdicts) == 12


def test_a_piece_that_was_just_taken_must_be_taken_back():
    exchanged = after("e4 e5 Nf3 Nc6 Bb5 a6 Bxc6")
    claim = claims.loses(exchanged, "h6", at_least=2)
    assert "4... h6 5. B" in claim.evidence[0]
    assert verdict(exchanged, "dxc6").kind == "nothing"
    forgotten = chess.Board(exchanged.fen())  # what was taken is not known any more
    assert verdict(forgotten, "dxc6").kind == "wins"


TRAPPED = "6k1/5ppp/8/8/8/1P6/bKP5/8 b - - 0 1"


def test_a_bishop_with_safe_squares_is_not_trapped():
    # Every other move only leaves a poisoned pawn alone.
    with pytest.raises(FalseClaim):
        claims.trapped("4k3/pp4pp/4bp2/5P2/6P1/8/PPP4P/2K5 b - - 0 1", "e6")


def test_a_piece_that_another_one_saves_is_not_trapped():
    assert claims.trapped(TRAPPED, "a2")
    defended = TRAPPED.replace("6k1/5ppp", "4r1k1/5ppp")
    with pytest.raises(FalseClaim, match=r"1\.\.\. Ra8 saves it"):
        claims.trapped(defended, "a2")


@pytest.mark.parametrize(
    ("fen", "move", "remains"),
    [
        ("1r3rk1/5p1p/5B1Q/8/8/7P/5PP1/6K1 b - - 0 1", "Rb1+", "mate in 3 remains"),
        ("3q2k1/5ppp/8/8/8/8/3Q1PPP/3R2K1 b - - 0 1", "Qb8", "mate in 2 remains"),
    ],
)
def test_what_only_puts_a_mate_off_is_no_defence(fen, move, remains):
    with pytest.raises(FalseClaim, match=remains):
        claims.parries(fen, move)


@pytest.mark.parametrize(("move", "points", "dead"), [("f8=B", 2, True), ("f8=R", 4, False)])
def test_what_is_won_in_a_dead_position_is_said_to_be_worth_nothing(move, points, dead):
    pawn = "8/5P1k/8/6K1/8/8/8/8 w - - 0 1"
    claim = claims.wins_material(pawn, at_least=points, within=1, move=move)
    assert ("The game is a draw then" in " ".join(claim.paragraphs)) == dead


def test_an_only_defence_is_refused_at_the_first_other_one():
    # From a game of two engines; asking every reply with the whole budget took over a minute.
    middlegame = "r2q1rk1/1pp3p1/p1n2Pnp/3p1b2/P2P4/2P4P/4BPPN/R1BQ1RK1 b - - 0 15"
    with pytest.raises(FalseClaim, match=r"15\.\.\. Qxf6 is not lost that way either"):
        claims.only_defence(middlegame, "Rxf6", against="loss", budget=400_000)


def test_a_wall_of_pawns_is_not_said_to_be_no_draw():
    walled = "4k3/8/p1p1p1p1/PpPpPpPp/1P1P1P1P/8/8/4K3 w - - 0 1"
    with pytest.raises(UnprovedClaim, match="every pawn is blocked"):
        claims.drawn(walled)
    with pytest.raises(FalseClaim):
        claims.drawn(walled, rule="stalemate")
    with pytest.raises(FalseClaim):
        claims.drawn(walled.replace("4K3", "3RK3"))


def test_a_king_is_never_pinned():
    with pytest.raises(FalseClaim, match="a king is never pinned"):
        claims.pinned("r5k1/5ppp/8/8/8/8/5PPP/6K1 b - - 0 1", "g8")


def test_a_mate_that_comes_later_is_no_escape():
    # Two rooks mate a bare king in two moves, not in one.
    ladder = "7k/R7/8/8/8/8/8/1R4K1 w - - 0 1"
    assert claims.mates(ladder, within=1, move="Rb8#")
    with pytest.raises(FalseClaim, match=r"1\. Rb6 Kg8 holds out longer"):
        claims.mates(ladder, within=1, move="Rb6")


def test_a_gain_that_is_mate_says_so():
    claim = claims.wins_material("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", at_least=1, within=1)
    assert "mated" in next(iter(claim.evidence))


BACK_RANK = "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"
"""The rook guards the first rank; where it leaves it there is mate in two."""


def test_a_loss_is_told_beside_a_better_move():
    claim = claims.loses(BACK_RANK, "Rb3", better="g3")
    assert str(claim) == "1. Rb3 | allows mate | 2 | better g3 | searched"
    assert claim.words == "1. Rb3 allows mate in 2; 1. g3 is better"
    assert "That 1. g3 is better is searched, not replayed." in claim.caution
    assert str(claims.loses(BACK_RANK, "Rb3")).endswith("| allows mate | 2 | proved")


@pytest.mark.parametrize(
    ("better", "error", "says"),
    [
        ("Rb7", FalseClaim, "mated in 2"),
        ("Rb3", claims.ClaimError, "cannot be better than itself"),
    ],
)
def test_a_move_that_loses_as_well_is_not_better(better, error, says):
    with pytest.raises(error) as caught:
        claims.loses(BACK_RANK, "Rb3", better=better)
    assert says in f"{caught.value} {getattr(caught.value, '__notes__', '')}"


def test_better_is_two_points_less():
    """The rook attacks bishop and pawn: the bishop can be saved, the pawn not."""
    fen = "6k1/3B1ppp/8/8/1P1r4/7P/5PPK/8 w - - 0 1"
    assert "better Bc6" in str(claims.loses(fen, "f3", at_least=3, better="Bc6"))
    with pytest.raises(FalseClaim):
        claims.loses(fen, "f3", at_least=3, better="g3")
