"""Quiet games are not mute, and nothing is told where nothing changed."""

import itertools

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb import Lesson, facts
from chessnb.findings import Finding
from chessnb.teaching.quiet_signs import APART, MOST, features, quiet_signs

EXCHANGE = """
1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. O-O f6 6. d4 exd4 7. Nxd4 c5 8. Nb3 Qxd1 9. Rxd1 Bg4
10. f3 Be6 11. Nc3 Bd6 12. Be3 b6 13. a4 O-O-O 14. a5 Kb7 15. e5 Be7 16. axb6 cxb6 17. Ne4 Bxb3
18. cxb3 f5 19. Ng3 g6 20. Kf2 Rxd1 21. Rxd1 Nh6 22. Bxh6 Bh4 23. Be3 Kc6 24. Rd6+ Kb7 *
"""

CARLSBAD = """
1. d4 d5 2. c4 e6 3. Nc3 Nf6 4. cxd5 exd5 5. Bg5 Be7 6. e3 O-O 7. Bd3 Nbd7 8. Qc2 Re8 9. Nf3 Nf8
10. O-O c6 11. Rab1 Ng6 12. b4 a6 13. a4 Bd6 14. b5 axb5 15. axb5 h6 16. Bxf6 Qxf6 17. bxc6 bxc6
18. Ra1 Bg4 19. Nd2 Rxa1 20. Rxa1 Qe7 *
"""


def told(text):
    """Return what is told after which move."""
    found = {}
    moment = Lesson.from_text(text).start
    while moment.next is not None:
        moment = moment.next
        if signs := quiet_signs(moment):
            found[moment.numbered] = signs
    return found


def words(text):
    return {move: [sign.words for sign in signs] for move, signs in told(text).items()}


def test_a_quiet_game_has_its_stops_spread_over_it():
    for text, moves in ((EXCHANGE, 24), (CARLSBAD, 20)):
        found = told(text)
        assert 5 <= len(found) <= 8
        numbers = sorted(int(move.partition(".")[0]) for move in found)
        assert numbers[0] < moves / 3
        assert numbers[-1] > 2 * moves / 3
        for signs in found.values():
            for sign in signs:
                assert sign.weight > 0
                assert sign.question[-1] in "?."
                assert not sign.words.endswith(".")


def test_what_is_told_is_what_changed():
    found = words(EXCHANGE)
    assert "the queens are off the board" in found["9. Rxd1"]
    assert any("bishop pair" in one for one in found["4... dxc6"])


def test_nothing_is_told_where_nothing_changes():
    shuffle = " ".join(
        f"{number}. {white} {black}"
        for number, (white, black) in enumerate([("Nf3", "Nf6"), ("Ng1", "Ng8")] * 15, 1)
    )
    assert told(shuffle) == {}
    assert told("*") == {}


def test_what_is_taken_back_at_once_is_not_told():
    """The pawn on d5 is isolated and passed for one move of the exchange only."""
    text = """
    [SetUp "1"]
    [FEN "4k3/pp2pppp/8/3p4/4P3/8/PPP2PPP/4K3 w - - 0 1"]

    1. exd5 e6 2. dxe6 fxe6 3. Ke2 Ke7 4. Ke3 Kf6 5. Kd4 h6 6. Kd3 h5 *
    """.replace("    ", "")
    said = [one for signs in words(text).values() for one in signs]
    assert not any("d5" in one for one in said)


@pytest.mark.parametrize(
    ("moves", "ahead"),
    [
        ("3... d6 4. Nf3 Be7 5. d4 O-O 6. Bd3 h6 7. O-O c6", {"3. Nxe5": "White is a pawn ahead"}),
        # The pawn is won back at once, or a little later: nobody was ahead.
        ("3... Nxe4 4. d3 d6 5. dxe4 dxe5 6. Qxd8+ Kxd8 7. Nc3 c6", {}),
        ("3... d6 4. Nf3 Nxe4 5. d4 d5 6. Bd3 Be7 7. O-O O-O", {}),
    ],
)
def test_who_is_ahead_is_told_when_the_exchange_is_over(moves, ahead):
    found = words(f"1. e4 e5 2. Nf3 Nf6 3. Nxe5 {moves} *")
    said = {move: one for move, signs in found.items() for one in signs if "ahead" in one}
    assert said == ahead


def test_where_nobody_can_win_nothing_is_an_advantage():
    assert features(chess.Board("4k3/8/8/8/8/8/3B4/4K3 w - - 0 1")) == {}
    assert features(chess.Board("4k3/8/8/8/8/8/3R4/4K3 w - - 0 1"))


def test_what_has_been_told_is_not_told_again():
    for text in (EXCHANGE, CARLSBAD):
        said = [(sign.kind, sign.words) for signs in told(text).values() for sign in signs]
        assert len(set(said)) == len(said)


def test_a_sideline_and_a_start_have_no_signs():
    lesson = Lesson.from_text("1. e4 e5 2. Nf3 (2. f4 exf4) 2... Nc6")
    assert quiet_signs(lesson.start) == ()
    assert quiet_signs(lesson.at("2. f4 exf4")) == ()


def test_every_cell_runs_and_ends_in_a_finding():
    kinds = set()
    for text in (EXCHANGE, CARLSBAD):
        lesson = Lesson.from_text(text)
        for signs in told(text).values():
            for sign in signs:
                if sign.cell:
                    found = eval(sign.cell, {"lesson": lesson, "facts": facts})
                    assert isinstance(found, Finding)
                    kinds.add(found.record.kind)
    assert len(kinds) > 1


@pytest.mark.parametrize(
    ("fen", "kind", "weight"),
    [
        ("4k3/pp3ppp/3p4/3N4/4P3/8/PP3PPP/4K3 w - - 0 1", "outpost", 4),
        ("4k3/pp3ppp/3p4/8/4P3/2N5/PP3PPP/4K3 w - - 0 1", "free outpost", 2),
        ("6k1/1R3pp1/7p/r7/8/7P/5PP1/6K1 w - - 0 1", "seventh rank", 3),
        ("6k1/5pp1/P6p/8/8/7P/r4PP1/R5K1 w - - 0 1", "far passed pawn", 3),
        ("6k1/5pp1/7p/P7/8/7P/5PP1/R2r2K1 w - - 0 1", "rook behind the pawn", 2),
        ("r1b2rk1/ppp2ppp/2n5/3pP3/3P4/5N2/PP3PPP/R1B2RK1 w - - 0 1", "space", 2),
        ("r2q1rk1/ppp2ppp/2n5/4p3/4P3/2N5/PPP2PPP/2KR1Q1R w - - 0 1", "opposite castling", 3),
        ("6k1/5ppp/8/4p3/3K4/8/5PPP/8 w - - 0 1", "king in the middle", 2),
        ("r3r1k1/pp3ppp/8/3p4/8/3R4/PP3PPP/3R2K1 w - - 0 1", "pressure", 2),
        ("4k3/8/4K3/8/4P3/8/8/8 w - - 0 1", "exact result", 5),
        ("4k3/pp3ppp/4p3/3pP3/3P4/8/PP3PPP/4K3 w - - 0 1", "closed centre", 3),
        ("4k3/pp3ppp/8/8/8/8/PP3PPP/4K3 w - - 0 1", "ending", 4),
    ],
)
def test_features_and_their_near_misses(fen, kind, weight):
    board = chess.Board(fen)
    for look in (board, board.mirror()):
        assert [one.weight for one in features(look).values() if one.kind == kind] == [weight]


@pytest.mark.parametrize(
    ("fen", "kind"),
    [
        # The rook on the seventh has no pawn to attack; the king has left its home.
        ("6k1/1R6/5p1p/r5p1/8/7P/5PP1/6K1 w - - 0 1", "seventh rank"),
        ("8/1R3pp1/6kp/r7/8/7P/5PP1/6K1 w - - 0 1", "seventh rank"),
        # The rook stands beside the pawn, not behind it.
        ("6k1/5pp1/7p/PR6/8/7P/5PP1/3r2K1 w - - 0 1", "rook behind the pawn"),
        # Nobody guards the pawn on e5.
        ("r1b2rk1/ppp2ppp/2n5/3pP3/8/5N2/PP3PPP/R1B2RK1 w - - 0 1", "space"),
        # Castled apart, but without queens there is no storm; both on one wing.
        ("r4rk1/ppp2ppp/2n5/4p3/4P3/2N5/PPP2PPP/2KR3R w - - 0 1", "opposite castling"),
        ("r2q1rk1/ppp2ppp/2n5/4p3/4P3/2N5/PPP2PPP/R2Q1RK1 w - - 0 1", "opposite castling"),
        # A king in the middle of the middlegame's start square.
        ("rnbqk3/5ppp/8/4p3/3K4/8/5PPP/RNBQ4 w - - 0 1", "king in the middle"),
        ("r3r1k1/pp3ppp/8/3p4/8/8/PP3PPP/3R2K1 w - - 0 1", "pressure"),
        # Another pawn on the d-file can still move; the e-pawns do not face each other.
        ("4k3/pp3ppp/4p3/3pP3/3P4/3P4/PP4PP/4K3 w - - 0 1", "closed centre"),
        ("4k3/pp2pppp/8/3pP3/3P4/8/PP3PPP/4K3 w - - 0 1", "closed centre"),
    ],
)
def test_what_only_looks_like_it(fen, kind):
    board = chess.Board(fen)
    for look in (board, board.mirror()):
        assert kind not in {one.kind for one in features(look).values()}


def test_features_have_no_favourite_colour():
    met = set()
    for board in random_boards(scaled(150), seed=31, longest=150):
        ours = sorted(map(plain, features(board).values()))
        theirs = sorted(map(plain, features(board.mirror()).values()))
        assert ours == sorted((kind, weight, mirrored(said)) for kind, weight, said in theirs)
        met |= {kind for kind, _, _ in ours}
    assert len(met) > 8


def plain(feature):
    return feature.kind, feature.weight, tuple(sorted(feature.words.replace(",", "").split()))


def mirrored(said):
    """Return words with the sides changed and the squares turned round."""
    swap = {"White": "Black", "Black": "White", "white": "black", "black": "white"}
    turned = []
    for word in said:
        stem, mark, rest = word.partition("'")
        stem, colon = (stem[:-1], stem[-1]) if stem[-1] in ":;" else (stem, "")
        if stem in swap:
            stem = swap[stem]
        elif len(stem) == 2 and stem in chess.SQUARE_NAMES:
            stem = f"{stem[0]}{9 - int(stem[1])}"
        turned.append(f"{stem}{colon}{mark}{rest}")
    return tuple(sorted(turned))


def test_stops_keep_their_distance():
    plies = []
    moment = Lesson.from_text(CARLSBAD).start
    while moment.next is not None:
        moment = moment.next
        if quiet_signs(moment):
            plies.append(moment.node.ply())
    assert len(plies) <= MOST
    assert all(later - earlier >= APART for earlier, later in itertools.pairwise(plies))
