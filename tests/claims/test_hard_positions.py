"""Claims on positions that fool people and programs, with the answer a strong player gives.

Positions are composed here unless a source stands beside them.  Material is
1-3-3-5-9 (common practice, no source).
"""

import inspect

import chess
import pytest

from chessnb import claims
from chessnb.claims import FalseClaim, UnprovedClaim
from chessnb.errors import PositionError
from chessnb.lessons import Lesson


def line(claim):
    return f"{claim.words} ({claim.record.status})"


def evidence(claim):
    return " ".join(claim.evidence)


# -- what is won, and what only looks like it -----------------------------------


def test_two_rooks_for_the_queen_are_a_point():
    both = "3r2k1/5ppp/8/8/8/3r4/3Q4/3R2K1 w - - 0 1"
    assert line(claims.wins_material(both, at_least=1, within=2)) == (
        "White wins at least 1 within 2 moves (proved)"
    )
    assert "two rooks for queen" in evidence(claims.wins_material(both, at_least=1, within=2))
    with pytest.raises(FalseClaim):
        claims.wins_material(both, at_least=2, within=3)


DESPERADO = "6k1/2p2ppp/3p4/4N3/4n3/3P4/5PPP/6K1 w - - 0 1"


def test_both_knights_hang_and_nobody_gains():
    """1. dxe4 dxe5 is even, and so is 1. Nxf7 Nxf2: each desperado eats a pawn."""
    for first in ("dxe4", "Nxf7"):
        with pytest.raises(FalseClaim):
            claims.wins_material(DESPERADO, at_least=1, within=3, move=first)
    with pytest.raises(FalseClaim) as caught:
        claims.wins_material(DESPERADO, at_least=1, within=3, move="Nxf7")
    assert "1. Nxf7 Nxf2 gets away" in caught.value.reason


def test_a_recapture_is_no_gain():
    lesson = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6")
    with pytest.raises(FalseClaim):
        claims.wins_material(lesson.after("4. Bxc6"), at_least=1, within=3, move="dxc6")


IN_BETWEEN = "r1b2rk1/ppp2ppp/2nq4/1B6/3P4/8/PPP2PPP/R1BQK2R w KQ - 0 1"


def test_a_recapture_after_a_check_in_between_is_no_gain():
    lesson = Lesson.from_text(f'[FEN "{IN_BETWEEN}"]\n\n1. Bxc6 Qe6+ 2. Kf1 bxc6')
    taking_back = lesson.after("2. Kf1")
    with pytest.raises(FalseClaim):
        claims.wins_material(taking_back, at_least=1, within=1, move="bxc6")


def test_of_a_capture_with_a_recapture_only_the_difference_is_won():
    """A knight takes a rook in the corner and is taken at once: 5 - 3."""
    corner = "r7/1kN5/8/8/8/8/8/4K3 w - - 0 1"
    claim = claims.wins_material(corner, at_least=2, within=2, move="Nxa8")
    assert "rook for knight" in evidence(claim)
    with pytest.raises(FalseClaim):
        claims.wins_material(corner, at_least=3, within=2, move="Nxa8")


def test_a_gain_says_what_it_leaves_out():
    """The knight takes the rook, and Black may trap it later by quiet moves: nobody searched."""
    claim = claims.wins_material(
        "r5k1/1pN2ppp/8/8/8/8/5PPP/6K1 w - - 0 1", at_least=5, within=1, move="Nxa8"
    )
    assert "3 moves more for whatever would win it back" in claim.paragraphs[-1]


def test_the_piece_that_takes_and_is_lost_for_a_mate_gains_nothing():
    """Qxa7 takes a knight and leaves the back rank: 1... Re1#."""
    greedy = "4r1k1/n4ppp/8/8/8/8/5PPP/Q5K1 w - - 0 1"
    with pytest.raises(FalseClaim):
        claims.wins_material(greedy, at_least=1, within=1, move="Qxa7")


# -- draws by force ---------------------------------------------------------------

# The rook on g8 takes the king's flight square away.
DESPERATE_ROOK = "6rk/6R1/8/8/8/1q6/8/K7 w - - 0 1"


def test_a_rook_offers_itself_for_stalemate():
    assert line(claims.forces_stalemate(DESPERATE_ROOK, within=1, move="Rh7+")) == (
        "White forces stalemate within 1 move with 1. Rh7+ (proved)"
    )
    with pytest.raises(FalseClaim):
        claims.forces_stalemate(DESPERATE_ROOK, within=1, move="Rxg8+")


def test_a_winning_queen_that_stalemates_wins_nothing():
    trap = "7k/8/6K1/8/8/8/8/5Q2 w - - 0 1"
    with pytest.raises(FalseClaim):
        claims.mates(trap, within=4, move="Qf7")
    assert line(claims.forces_stalemate(trap, within=1, move="Qf7")) == (
        "White forces stalemate within 1 move with 1. Qf7 (proved)"
    )


def test_a_perpetual_is_shown_until_it_comes_round():
    claim = claims.perpetual("6k1/6p1/8/7Q/8/8/1q6/6K1 w - - 0 1")
    assert line(claim) == "White has perpetual check (proved)"
    assert tuple(claim.evidence) == ("1. Qe8+ Kh7 2. Qh5+ Kg8 and so on.",)


def test_checks_that_end_in_mate_are_no_perpetual():
    with pytest.raises(FalseClaim, match=r"the checks end in mate: 1\. Ra8#"):
        claims.perpetual("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1")


def test_checks_that_run_out_are_no_perpetual():
    with pytest.raises(FalseClaim, match="the checks come to an end"):
        claims.perpetual("7k/8/8/8/8/8/8/K4R2 w - - 0 1")


# -- zugzwang --------------------------------------------------------------------

# Each king defends its pawn and attacks the other's: whoever is to move loses its
# (known since the oldest endgame books; common practice, no source).
MUTUAL = "8/8/8/3pK3/2kP4/8/8/8 {} - - 0 1"


@pytest.mark.parametrize("turn", "wb")
def test_whoever_is_to_move_is_in_zugzwang(turn):
    side = {"w": "White", "b": "Black"}[turn]
    assert line(claims.zugzwang(MUTUAL.format(turn))) == f"{side} is in zugzwang (searched)"


def test_in_zugzwang_the_longest_resistance_is_shown_first():
    """Found by chance: to c1 the king is mated in two, to d1 and d2 in three."""
    claim = claims.zugzwang("8/8/1R6/8/8/5R2/2k5/7K b - - 0 1")
    assert claim.evidence[-1].startswith("1... Kc1 2. ")
    assert claim.evidence[-1].endswith(" 3. Rb1#.")
    assert {shown.split()[1] for shown in claim.evidence[:-1]} == {"Kd1", "Kd2"}
    assert all(" 4. " in shown for shown in claim.evidence[:-1])


def test_a_spare_pawn_move_is_a_way_out_of_zugzwang():
    with pytest.raises(FalseClaim, match=r"1\. h3 does not lose that way"):
        claims.zugzwang("8/8/8/3pK3/2kP4/8/7P/8 w - - 0 1", within=2)


def test_to_be_lost_anyway_is_no_zugzwang():
    with pytest.raises(FalseClaim, match="a pass would lose too"):
        claims.zugzwang("7k/8/6K1/8/8/8/8/R7 b - - 0 1")


# -- special moves ------------------------------------------------------------------


def test_en_passant_counts_as_a_capture():
    """FIDE Laws, article 3.7.3.1 (3.7.4 in later editions)."""
    claim = claims.wins_material("7k/8/8/3pP3/8/8/8/4K3 w - d6 0 2", at_least=1, within=1)
    assert claim.proof.key == chess.Move.from_uci("e5d6")
    with pytest.raises(FalseClaim):
        claims.wins_material("7k/8/8/3pP3/8/8/8/4K3 w - - 0 2", at_least=1, within=1)


def test_en_passant_that_bares_the_king_is_no_gain():
    pinned = "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 2"
    with pytest.raises(FalseClaim, match="cannot take in passing"):
        claims.legal(pinned, "exd6")
    with pytest.raises(FalseClaim):
        claims.wins_material(pinned, at_least=1, within=1)


def test_castling_forks_king_and_rook():
    """FIDE Laws, article 3.8.2: the rook goes to d1 with check, the king to c1 beside b2."""
    fork = "3k4/8/8/8/8/8/1r6/R3K3 w Q - 0 1"
    claim = claims.wins_material(fork, at_least=5, within=2, move="O-O-O+")
    assert "a rook" in evidence(claim)
    with pytest.raises(FalseClaim):
        claims.wins_material(fork.replace(" Q ", " - "), at_least=5, within=2)


@pytest.mark.parametrize(
    ("fen", "why"),
    [
        ("4k3/8/8/8/8/5r2/8/4K2R w K - 0 1", "attacks f1, which the king would pass"),
        ("4k3/8/8/8/8/4r3/8/4K2R w K - 0 1", "check"),
        ("4k3/8/8/8/8/6r1/8/4K2R w K - 0 1", "g1"),
        ("4k3/8/8/8/8/8/8/4K1NR w K - 0 1", "g1"),
        ("4k3/8/8/8/8/8/8/4K2R w - - 0 1", ""),
    ],
)
def test_castling_through_into_and_out_of_check(fen, why):
    """FIDE Laws, article 3.8.2: castling is prevented then."""
    with pytest.raises(FalseClaim) as caught:
        claims.can_castle(fen, "kingside")
    assert why in caught.value.reason
    assert why in evidence(claims.cannot_castle(fen, "kingside"))
    assert claims.illegal(fen, "O-O")


def test_a_rook_that_passes_an_attacked_square_may_castle():
    """FIDE Laws, article 3.8.2.2.2 speaks of the king's squares alone."""
    assert claims.can_castle("1r2k3/8/8/8/8/8/8/R3K3 w Q - 0 1", "queenside")


# -- promotion -----------------------------------------------------------------------


@pytest.mark.parametrize(("piece", "mates"), [("Q", True), ("R", True), ("B", False), ("N", False)])
def test_each_promotion_is_another_move(piece, mates):
    corner = "7k/P7/6K1/8/8/8/8/8 w - - 0 1"
    move = f"a8={piece}"
    assert claims.legal(corner, move)
    if mates:
        assert claims.mates(corner, within=1, move=move)
    else:
        with pytest.raises(FalseClaim):
            claims.mates(corner, within=1, move=move)


def test_a_new_knight_forks_where_a_new_queen_wins_less():
    fork = "8/2q1P1k1/8/8/8/8/8/6K1 w - - 0 1"
    claim = claims.wins_material(fork, at_least=11, within=2, move="e8=N+")
    assert "a queen" in evidence(claim)
    with pytest.raises(FalseClaim):
        claims.wins_material(fork, at_least=9, within=2, move="e8=Q")


def test_saavedras_rook():
    """Saavedra, 1895, the last position: 6. c8=Q Rc4+ 7. Qxc4 is stalemate (from memory)."""
    end = "8/2P5/8/8/3r4/8/2K5/k7 w - - 0 1"
    assert claims.wins_material(end, at_least=9, within=3, move="c8=R")
    with pytest.raises(FalseClaim) as caught:
        claims.wins_material(end, at_least=9, within=3, move="c8=Q")
    assert "1. c8=Q Rc4+ gets away" in caught.value.reason


# -- double check, smothered mate --------------------------------------------------------


def test_a_double_check_mates_though_both_checkers_hang():
    """Réti against Tartakower, Vienna 1910 (from memory): 9. Qd8+ Kxd8 10. Bg5+ and mate."""
    vienna = "rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9"
    claim = claims.fastest_mate(vienna, within=3)
    assert claim.proof.main_line[0].uci() == "d3d8"
    assert "No mate in 2: every try was replayed." in claim.caution


def test_lucenas_smothered_mate():
    """Lucena, 1497 (the pattern): the queen gives herself on g8."""
    claim = claims.mates("5r1k/6pp/7N/8/2Q5/8/5PPP/6K1 w - - 0 1", within=2, move="Qg8+")
    assert line(claim) == "White mates in 2 with 1. Qg8+ (proved)"
    assert tuple(claim.evidence) == ("1. Qg8+", "a) 1... Rxg8 2. Nf7#")


def test_only_the_king_answers_a_double_check():
    """FIDE Laws, article 3.9: no other move stops both."""
    double = "4k3/3b1n2/8/8/8/5N2/8/4R1K1 b - - 0 1"
    after = chess.Board(double.replace(" b ", " w "))
    after.set_piece_at(chess.E5, after.remove_piece_at(chess.F3))
    after.push_san("Nd3")
    assert claims.illegal(after, "Nd6")


# -- where the game is over ----------------------------------------------------------------

MATED = "R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1"
STALEMATED = "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"
ABOUT_MOVES_TO_COME = {
    "mates": {"within": 2},
    "fastest_mate": {"within": 2},
    "wins_material": {"at_least": 1, "within": 2},
    "mates_or_wins": {"mate": 2, "at_least": 1, "within": 2},
    "perpetual": {},
    "forces_stalemate": {"within": 2},
}


@pytest.mark.parametrize("side", ["White", "Black", None])
@pytest.mark.parametrize(("name", "options"), ABOUT_MOVES_TO_COME.items(), ids=str)
@pytest.mark.parametrize(
    ("fen", "over"), [(MATED, "Black is checkmated"), (STALEMATED, "Black is stalemated")]
)
def test_after_the_end_nothing_is_claimed_of_moves_to_come(fen, over, name, options, side):
    with pytest.raises(FalseClaim, match=f"the game is over: {over}"):
        getattr(claims, name)(fen, side=side, **options)


@pytest.mark.parametrize(
    ("fen", "over"), [(MATED, "Black is checkmated"), (STALEMATED, "Black is stalemated")]
)
def test_after_the_end_there_is_no_threat_and_no_zugzwang(fen, over):
    with pytest.raises(FalseClaim, match=f"the game is over: {over}"):
        claims.threatens(fen, "Qf8#")
    with pytest.raises(FalseClaim, match=f"the game is over: {over}"):
        claims.zugzwang(fen)


def test_a_dead_position_has_no_mate():
    with pytest.raises(FalseClaim):
        claims.mates("7k/8/8/5K2/8/8/8/6B1 w - - 0 1", within=5)


# -- boards that cannot be -------------------------------------------------------------------

IMPOSSIBLE = {
    "no king": "8/8/8/8/8/8/8/K7 w - - 0 1",
    "a pawn on the first rank": "4k3/8/8/8/8/8/8/P3K3 w - - 0 1",
    "the side that moved is in check": "4k3/8/8/8/8/8/4R3/4K3 w - - 0 1",
    "three kings": "k3k3/8/8/8/8/8/8/4K3 w - - 0 1",
    "kings side by side": "8/8/8/3kK3/8/8/8/8 w - - 0 1",
    "not a FEN": "a position",
    "nothing": "",
}
MORE = {
    "only_legal_reply": {"move": "Kd1"},
    "legal": {"move": "Kd1"},
    "illegal": {"move": "Kd1"},
    "can_castle": {"wing": "kingside"},
    "cannot_castle": {"wing": "kingside"},
    "drawn": {},
    "checkmate": {},
    "threatens": {"move": "Kd1"},
    "parries": {"move": "Kd1"},
    "refuted": {"claim": "mates", "within": 1},
    "only_defence": {"move": "Kd1"},
    "forced": {"line": "Kd1"},
    "loses": {"move": "Kd1"},
    "must_check": {},
    "zugzwang": {},
    "attacked": {"square": "e4"},
    "defended": {"square": "e4"},
    "pinned": {"square": "e4"},
    "material": {"says": "even"},
    "trapped": {"square": "e4"},
    "shows": {"motif": "fork", "move": "Kd1"},
    "pawn": {"square": "e4", "is_": "passed"},
}
EVERY = {**ABOUT_MOVES_TO_COME, **MORE}


def test_every_claim_is_in_the_table():
    functions = {name for name in claims.__all__ if inspect.isfunction(getattr(claims, name))}
    assert functions == {*EVERY, "judgement"}


@pytest.mark.parametrize(("name", "options"), EVERY.items(), ids=str)
@pytest.mark.parametrize("fen", IMPOSSIBLE.values(), ids=IMPOSSIBLE)
def test_nothing_is_claimed_of_an_impossible_board(fen, name, options):
    with pytest.raises(PositionError):
        getattr(claims, name)(fen, **options)


# -- not proved ----------------------------------------------------------------------------


def test_a_spent_budget_is_neither_true_nor_false():
    with pytest.raises(UnprovedClaim) as caught:
        claims.mates(chess.STARTING_FEN, within=6, budget=2_000)
    assert not isinstance(caught.value, FalseClaim)
    assert str(caught.value) == "1. | mates | white | 6 | not proved"
    assert "is not proved" in caught.value.shown
    assert "is wrong" not in caught.value.shown
