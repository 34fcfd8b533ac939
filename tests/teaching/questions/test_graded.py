"""Every kind of question on positions that are known: right, half right and wrong answers.

Each case is tried in the mirror too, where Black does what White did.  The
sources of the games stand in `quizzes`; other positions were made for this test.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

import chess
import pytest
from quizzes import LEGAL, OPERA, SMOTHERED, VIENNA, mirrored, mirrored_fen
from thoroughness import some

from chessnb import claims, questions
from chessnb.teaching.questions import Question


@dataclass(frozen=True, kw_only=True)
class Case:
    make: Callable[[str, Callable[[str], str]], Question]
    fen: str
    right: tuple[str, ...]
    wrong: tuple[str, ...]
    part: tuple[str, ...] = ()
    count: int | None = None  # so many right answers there are


def plain(maker, **options):
    return lambda fen, turned: maker(fen, **options)


def at(maker, *names, **options):
    """Make a question about squares or moves, which are turned round with the position."""
    return lambda fen, turned: maker(fen, *map(turned, names), **options)


TWO_QUEENS = "k7/8/1K6/8/8/8/2Q5/6Q1 w - - 0 1"
BEFORE_QB8 = OPERA.before("16. Qb8+").fen
BEFORE_RXD7 = OPERA.before("13. Rxd7").fen
OVERLOADED = "3r3k/pp4pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1"

CASES = {
    "one mate": Case(
        make=plain(questions.find_move, mate=1),
        fen="7k/8/5K2/8/8/8/6Q1/8 w - - 0 1",
        right=("Qg7#", "Qg7", "queen to g7", "g2g7", "♕g7", "Qg2-g7", "qg7 mate"),
        part=(
            "Qg1", "Qg3", "Qg4", "Qg5", "Kf7", "Qf1", "Qd2", "Qh2+", "Qh1+", "Qa8+", "Kg6",
        ),
        wrong=(
            "Qg6", "Qg8+", "Kg5", "Kg7", "Qa1", "Kh7", "Qh8", "Ke8", "Qb8", "Qe3", "Kg8",
        ),
        count=1,
    ),
    "two mates": Case(
        make=plain(questions.find_move, mate=1),
        fen=TWO_QUEENS,
        right=("Qc8#", "Qcc8", "Qg8", "Qgg8#", "c2c8"),
        part=("Qa2+", "Qe4+", "Qg7", "Qa4+", "Qa1+", "Qh7", "Qd3", "Qf1", "Ka6"),
        wrong=("Qc7", "Kb7", "Qa7", "Qh8", "Ka7", "Rc8", "Kb8", "e4", "Nf3", "Kd6"),
    ),
    "mate in three": Case(
        make=plain(questions.find_move),
        fen=VIENNA.before("9. Qd8+").fen,
        right=("Qd8+", "queen d8", "d3d8"),
        wrong=("Bg5", "Qxe4", "Bc3", "Re1", "Qd7+", "f3", "Nf3", "Qd5", "Kb1", "Qe3", "Bb4"),
        count=1,
    ),
    "mate in two": Case(
        make=plain(questions.find_move, mate=2),
        fen=SMOTHERED,
        right=("Qg8+", "queen g8 check"),
        part=("Nf7+",),
        wrong=("Qb7", "Qe6", "Qf7", "Qd5", "h3", "g3", "Nf5", "Qc4", "Qa4", "Qxb8", "Ng8"),
        count=1,
    ),
    "material": Case(
        make=plain(questions.find_move, at_least=5, within=1),
        fen="4k3/8/8/3r4/8/2N5/5PPP/3QK3 w - - 0 1",
        right=("Qxd5", "Nxd5", "queen takes d5", "knight takes d5", "c3d5"),
        wrong=("Qd4", "Ke2", "Qa4+", "Qe2+", "Qd2", "h3", "Ne4", "Nb5", "Qb1", "Qa1", "g4"),
    ),
    "a line": Case(
        make=plain(questions.find_line, mate=3),
        fen=VIENNA.before("9. Qd8+").fen,
        right=(
            "Qd8+ Kxd8 Bg5+ Kc7 Bd8#", "Qd8+ Kxd8 Bg5+ Ke8 Rd8#", "Qd8, Bg5, Bd8",
            "queen d8 check, bishop g5, bishop d8 mate",
        ),
        part=(
            "Qd8+", "Qd8+ Kxd8", "Qd8+ Kxd8 Bg5+", "Qd8+ Kxd8 Ba5+", "Qd8, Bg5, Rd8",
            "Qd8+ Kxd8 Bg5+ Kc7 Bf4", "Qd8, Bc3", "Qd8+ Kxd8 Bb4+", "Qd8, Bh6", "Qd8, Kb1",
        ),
        wrong=("Bg5", "Qxe4", "Bc3", "Re1", "Qd7+ Nxd7", "f3", "Nf3", "Qd5", "Kb1", "Qe3"),
    ),
    "checks": Case(
        make=plain(questions.checks),
        fen=BEFORE_RXD7,
        right=("Qxf7+, Bxd7+", "Bxd7 Qxf7", "bishop takes d7 and queen takes f7", "b3f7, b5d7"),
        part=(
            "Bxd7+", "Qxf7", "Bxd7, Rxd7", "Qxf7, Bxf6", "Bxd7, Qxf7, Rxd7", "Qxf7 h3",
            "Bxd7+ and Kb1", "Qxf7+, g4", "Bxd7, Bxf6, Rxd7", "Qxf7+, Qb4",
        ),
        wrong=("none", "Rxd7", "Bxf6", "Kb1", "Qb4, h3", "g4", "Rd6", "Bh4", "f3", "Be3, Qa4"),
        count=2,
    ),
    "one check": Case(
        make=plain(questions.checks),
        fen="6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1",
        right=("Ra8#", "rook a8", "Ra8"),
        part=("Ra8, Ra7",),
        wrong=("none", "no checks", "Ra7", "Kd2", "Rb1", "Ra2", "Ra3, Ra4", "Ke2", "Rc1", "Rd1"),
        count=1,
    ),
    "captures": Case(
        make=plain(questions.captures),
        fen=BEFORE_RXD7,
        right=("Qxf7+, Bxd7+, Rxd7, Bxf6", "Bxf6 Rxd7 Bxd7 Qxf7"),
        part=(
            "Bxd7+", "Qxf7", "Rxd7", "Bxf6", "Bxd7 Rxd7", "Bxd7, Rxd7, Bxf6", "Qxf7, h3",
            "Bxf6, Kb1", "Rxd7, Qb4, g4", "Bxd7 Rxd7 Bxf6 Qxf7 h3",
        ),
        wrong=("none", "Kb1", "Qb4", "h3", "g4", "Rd6", "f3", "Be3", "Qa4", "Rd2"),
        count=4,
    ),
    "no capture": Case(
        make=plain(questions.captures),
        fen=chess.STARTING_FEN,
        right=("none", "None.", "there are no captures", "nothing", "no", "0"),
        wrong=("e4", "Nf3", "Nc3", "d4", "a3", "h4", "e4, d4", "Nh3", "g3", "c4"),
        count=0,
    ),
    "legal moves": Case(
        make=plain(questions.legal_moves),
        fen=OPERA.before("16... Nxb8").fen,
        right=("Nxb8", "knight takes b8"),
        part=("Nxb8, Kd8",),
        wrong=("none", "Kd8", "Ke7", "Qd7", "Qc8", "Qe7", "a6", "Bb4", "Ke7, Kd8", "f6"),
        count=1,
    ),
    "five legal moves": Case(
        make=plain(questions.legal_moves),
        fen=OPERA.after("11. Bxb5+").fen,
        right=("Nbd7, Nfd7, Qd7, Kd8, Nc6", "Kd8 Qd7 Nfd7 Nbd7 Nc6"),
        part=("Kd8", "Qd7", "Nbd7", "Nfd7", "Kd8 Qd7", "Nbd7, Nfd7", "Kd8, Qd7, Nbd7", "Kd8, Nc6",
              "Qd7 and Qc5", "Kd8, Kf8, Qd7"),
        wrong=("none", "Na6", "Qc5", "a6", "O-O", "Qb4, Kf8", "h6", "g6", "Kf8", "Rg8"),
        count=5,
    ),
    "a mate and a pawn": Case(
        make=plain(questions.threatened),
        fen=OPERA.after("7. Qb3").fen,
        right=("Bxf7+", "bishop takes f7", "White wants to play Bxf7+"),
        part=("Qxb7", "f7", "the pawn on f7", "mate", "checkmate", "mate in two"),
        wrong=("nothing", "b7", "Nc3", "Qb5+", "Qe3", "h3", "Bg5", "Qd3", "Qxb6", "Kf1"),
        count=1,
    ),
    "a threat": Case(
        make=plain(questions.threatened),
        fen="6k1/1p3ppp/8/3r4/8/2N5/5PPP/6K1 b - - 0 1",
        right=("Nxd5", "knight takes d5", "White threatens Nxd5", "c3d5"),
        part=("d5", "the rook", "rook on d5", "Rd5", "the rook on d5"),
        wrong=("Nb5", "nothing", "mate", "Ne4", "h3", "g4", "f3", "Na4", "Nb1", "b7", "Kf1"),
        count=1,
    ),
    "two threats": Case(
        make=plain(questions.threatened),
        fen="6k1/5ppp/8/8/8/8/r4PPP/1R2Q1K1 b - - 0 1",
        right=("Rb8#", "Rb8", "Qe8#", "queen e8"),
        part=("mate", "checkmate", "mate in one"),
        wrong=("Rb7", "h3", "nothing", "Qe2", "Qd1", "a2", "g3", "Rb2", "Qc3", "Kf1"),
        count=2,
    ),
    "ahead": Case(
        make=plain(questions.ahead),
        fen="4k3/pp6/8/8/8/2b5/PP6/R3K3 w - - 0 1",
        right=(
            "White is the exchange ahead", "White, by 2 points", "White by two points", "White +2",
            "white 2", "White is a rook for a bishop up", "Black is 2 points behind",
            "White, by the exchange",
        ),
        part=(
            "White", "White is ahead", "White by a pawn", "White, by a rook", "white +1",
            "White, 5 points", "White by three points", "Black is a piece down", "white is better",
            "White by a queen",
        ),
        wrong=(
            "Black", "even", "level", "Black by two points", "Black is the exchange ahead",
            "White is 2 points behind", "nobody", "black +2", "equal", "Black by a pawn",
        ),
    ),
    "level": Case(
        make=plain(questions.ahead),
        fen=chess.STARTING_FEN,
        right=("even", "level", "nobody", "Nobody is ahead", "equal", "material is even"),
        wrong=(
            "White", "Black", "White by a pawn", "Black, 2 points", "white +1", "Black is better",
            "White is a piece up", "Black by a rook", "White by the exchange", "black 3",
        ),
    ),
    "pinned": Case(
        make=plain(questions.pinned),
        fen=BEFORE_RXD7,
        right=("Nd7", "d7", "the knight on d7", "knight d7", "d7 and f6", "♞d7"),
        part=("d7, e7", "d7 and b5", "Nd7 Rd8", "d7, e8", "d7, f8", "d7, g7", "d7, a7", "d7, h8",
              "d7, c1", "d7, d1"),
        wrong=("none", "e7", "f6", "the rook on d8", "e8", "b5", "d1", "e7 and d8", "f7", "a7",
               "Bd7"),
        count=1,
    ),
    "two pinned": Case(
        make=plain(questions.pinned),
        fen="3rk3/8/4n3/8/8/8/3R4/3KR3 w - - 0 1",
        right=("d2, e6", "Rd2 and Ne6", "the knight on e6, the rook on d2"),
        part=("d2", "e6", "the knight"),
        wrong=("none", "d8", "e8", "d1", "e1", "Rd8", "Re1", "the kings on d1 and e8", "d8, e1",
               "e5"),
        count=2,
    ),
    "hanging": Case(
        make=plain(questions.hanging),
        fen="6k1/5ppp/8/3n4/8/6b1/5PPP/3R2K1 w - - 0 1",
        right=("Nd5, Bg3", "the knight and the bishop", "d5 g3", "d5 and g3"),
        part=("d5", "Nd5", "the bishop", "d5, g7", "g3 f7", "the knight on d5 and the king on g8",
              "d5, h7", "Bg3, Rd1", "d5, f2", "g3, g1"),
        wrong=("none", "f7", "g7", "h7", "g8", "d1", "f7 and h7", "the rook", "g2", "e5"),
        count=2,
    ),
    "one hanging": Case(
        make=plain(questions.hanging),
        fen="6k1/5ppp/8/3n4/8/8/5PPP/3R2K1 w - - 0 1",
        right=("d5", "the knight", "Nd5"),
        wrong=("none", "f7", "g7", "h7", "g8", "d1", "f7, h7", "Rd1", "g2", "Bd5"),
        count=1,
    ),
    "overloaded": Case(
        make=plain(questions.overloaded),
        fen=OVERLOADED,
        right=("Rd8", "d8", "the rook on d8"),
        part=("d8, d4", "d8 h7", "d8, g7", "d8, a7", "d8, b7", "d8, h8", "d8 and e1", "d8, b4",
              "Rd8, Qd4", "d8 c8"),
        wrong=("none", "d4", "h7", "g7", "a7", "b7", "h8", "e1", "b4", "d4, h7"),
        count=1,
    ),
    "why: it is mate": Case(
        make=at(questions.why_not_take, "d1"),
        fen=LEGAL.after("5. Nxe5").fen,
        right=("Bxf7+", "Bxf7", "bishop takes f7"),
        part=("mate", "it is mate", "because of checkmate", "White mates", "checkmate",
              "Black is mated"),
        wrong=("Nxd1", "Kxd1", "Nxf7", "it is defended", "pinned", "Bb5+", "Nd5", "h3", "O-O",
               "Nd7", "Bxg6"),
        count=1,
    ),
    "why: it is defended": Case(
        make=at(questions.why_not_take, "d5"),
        fen="3r2k1/5ppp/8/3p4/8/8/3R1PPP/6K1 w - - 0 1",
        right=("Rxd5", "rook takes d5", "d8d5", "the rook takes back"),
        part=("it is defended", "protected", "because it is guarded", "the rook defends it"),
        wrong=("mate", "pinned", "Rd6", "Kf8", "h6", "g6", "Rd7", "Rc8", "Re8", "f6"),
    ),
    "why: it is pinned": Case(
        make=lambda fen, turned: questions.why_not_take(fen, turned("d5"), by=turned("c3")),
        fen="4k3/8/8/3r4/1b6/2N5/8/4K3 w - - 0 1",
        right=("pinned", "the knight is pinned", "It is pinned by the bishop", "a pin"),
        wrong=("it is defended", "mate", "because it is protected", "checkmate", "guarded",
               "it can be taken back and is defended", "White is mated", "it mates", "illegal",
               "Black retakes"),
    ),
    "attackers and defenders": Case(
        make=at(questions.count, "d7"),
        fen=BEFORE_RXD7,
        right=("2-4", "two attackers, four defenders", "4 defenders, 2 attackers", "2 : 4",
               "attacked 2 times, defended 4 times", "2 against 4", "two and four"),
        part=("2-3", "2-2", "3-4", "1-4", "two attackers", "four defenders", "2-5", "0-4", "2-1",
              "2 attackers, 3 defenders"),
        wrong=("4-2", "1-1", "3-3", "0-0", "3-5", "1-2", "5-1", "one attacker, one defender",
               "three attackers", "two defenders"),
    ),
    "castling now": Case(
        make=plain(questions.castling),
        fen="r3k2r/8/8/8/2b5/8/8/R3K2R w KQkq - 0 1",
        right=("queenside", "O-O-O", "long", "yes, queenside", "0-0-0", "queenside but not kingside",
               "only on the queenside"),
        part=("yes", "both", "either side", "it can", "kingside and queenside", "Yes.", "O-O and O-O-O",
              "on both sides", "it may", "short or long"),
        wrong=("no", "kingside", "O-O", "never", "short", "it cannot", "neither", "not any more",
               "0-0", "kingside, but not queenside"),
    ),
    "castling no more": Case(
        make=plain(questions.castling, ever=True),
        fen="r3k2r/8/8/8/8/8/8/R4K1R b kq - 0 1",
        right=("both", "both sides", "O-O and O-O-O", "kingside and queenside"),
        part=("yes", "kingside", "queenside", "O-O", "O-O-O", "long", "short", "yes, long",
              "kingside but not queenside", "0-0"),
        wrong=("no", "never", "neither", "it cannot", "not any more", "none", "No.", "nowhere",
               "it can't", "cannot"),
    ),
    "a tactic": Case(
        make=at(questions.name_tactic, "Qb8+"),
        fen=BEFORE_QB8,
        right=("deflection", "sacrifice", "Deflections", "a sacrifice", "it is a deflection"),
        part=("decoy", "overloaded piece", "removing the defender", "fork", "double attack",
              "attraction", "Overload", "overloading", "the defender removed", "a decoy",
              "removal of the defender"),
        wrong=("pin", "skewer", "back-rank mate", "smothered mate", "zugzwang", "windmill",
               "discovered check", "desperado", "x-ray", "clearance", "trapped piece"),
    ),
    "one tactic": Case(
        make=at(questions.name_tactic, "Nc7+"),
        fen="r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1",
        right=("fork", "a fork", "double attack", "Forks"),
        wrong=("pin", "skewer", "back-rank mate", "smothered mate", "zugzwang", "windmill",
               "discovered check", "desperado", "x-ray", "clearance"),
        count=1,
    ),
    "true": Case(
        make=lambda fen, turned: questions.true_or_false(claims.mates, fen, within=2),
        fen=BEFORE_QB8,
        right=("true", "True.", "yes", "y", "right", "correct"),
        wrong=("false", "no", "n", "wrong", "not true", "No.", "FALSE", "nope", "it is not", "f"),
    ),
    "false": Case(
        make=lambda fen, turned: questions.true_or_false(claims.mates, fen, within=1),
        fen=BEFORE_QB8,
        right=("false", "no", "n", "wrong", "not true"),
        wrong=("true", "True.", "yes", "y", "right", "correct", "T", "yep", "it is", "YES"),
    ),
    "what for": Case(
        make=at(questions.purpose, "Bg5"),
        fen=OPERA.before("9. Bg5").fen,
        right=("it attacks the knight on f6", "attacks f6", "pins the knight", "develops the bishop", "develops",
               "it pins f6 to the queen", "to pin the knight on f6", "attacking Nf6"),
        part=("attacks", "it pins something", "defends the knight on f6", "opens f6",
              "takes the knight on f6", "it attacks what?", "pins", "opens the a1 rook", "protects f6",
              "saves the knight on f6"),
        wrong=("check", "castles", "defends the queen", "attacks the rook on a8", "mates",
               "takes the pawn on e5", "pins the rook on h8", "promotes", "attacks b7",
               "threatens mate", "defends e4"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("turned", some([False, True]))
@pytest.mark.parametrize("name", CASES)
def test_answers_are_graded_as_a_teacher_would(name, turned):
    case = CASES[name]
    turn = mirrored if turned else str
    question = case.make(mirrored_fen(case.fen) if turned else case.fen, turn)
    if case.count is not None:
        assert len(question.right) == case.count
    expected = dict.fromkeys(case.right, "right")
    expected |= dict.fromkeys(case.part, "part")
    expected |= dict.fromkeys(case.wrong, "wrong")
    results = {given: questions.answer(question, turn(given)) for given in expected}
    assert {given: one.result for given, one in results.items()} == expected
    for given, one in results.items():
        assert one.sentence.endswith((".", "?")), given
        assert (one.credit == 1) == (one.result == "right"), given
        assert (0 < one.credit < 1) == (one.result == "part"), given
        assert one.picture.img(), given


def test_every_kind_is_tried():
    asked = {CASES[name].make(CASES[name].fen, str).kind for name in CASES}
    assert asked == set(questions.names())


IN_PARTS = set(questions.names()) - {"true or false"}


def test_every_kind_with_credit_in_parts_has_ten_half_right_answers():
    halves = Counter()
    for case in CASES.values():
        halves[case.make(case.fen, str).kind] += len(case.part)
    assert {kind: halves[kind] for kind in IN_PARTS if halves[kind] < 10} == {}


def test_every_case_has_ten_wrong_answers():
    assert {name for name, case in CASES.items() if len(case.wrong) < 10} == set()
