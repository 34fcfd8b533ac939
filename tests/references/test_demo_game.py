"""The lesson's game is invented, so nothing vouches for it: here everything it claims is checked.

Rules and forced mates: python-chess alone, with a small AND/OR search that
shares no code with the package. Judgements: a plain UCI engine (Debian's
``stockfish``), one thread, a fixed number of nodes, a cleared table for each
position.
"""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import chess
import chess.engine
import chess.pgn
import pytest
from thoroughness import some

FILE = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
NODES = 400_000

VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9}
"""Common practice, no source."""


@pytest.fixture(scope="module")
def game() -> chess.pgn.Game:
    with FILE.open(encoding="utf-8") as stream:
        game = chess.pgn.read_game(stream)
        assert game is not None
        assert chess.pgn.read_game(stream) is None, "one game, no more"
    return game


def nodes(game: chess.pgn.Game) -> Iterator[chess.pgn.ChildNode]:
    """Yield every move of the game and of its sidelines."""
    waiting = list(game.variations)
    while waiting:
        node = waiting.pop()
        waiting.extend(node.variations)
        yield node


def after(game: chess.pgn.Game, path: str) -> chess.Board:
    """Return the position after the main line up to a move, then the moves given.

    ``"20w Nf3+"``: the main line up to White's 20th, then ``Nf3+``.
    """
    stop, *tail = path.split()
    plies = 2 * int(stop[:-1]) - (stop[-1] == "w")
    board = game.board()
    for move in list(game.mainline_moves())[:plies]:
        board.push(move)
    for san in tail:
        board.push_san(san)
    return board


def balance(board: chess.Board) -> int:
    """Return White's points less Black's."""
    points = 0
    for kind, value in VALUES.items():
        points += value * len(board.pieces(kind, chess.WHITE))
        points -= value * len(board.pieces(kind, chess.BLACK))
    return points


# -- the file ---------------------------------------------------------------


def test_the_file_is_plain_text_in_lines_of_at_most_79_characters():
    # PGN standard, 4.3: lines of 80 or more characters are discouraged.
    raw = FILE.read_bytes()
    assert raw.isascii()
    assert b"\r" not in raw
    assert raw.endswith(b"0-1\n")
    assert max(map(len, raw.decode("ascii").splitlines())) <= 79


def test_it_reads_without_an_error_and_has_what_a_lesson_needs(game):
    assert game.errors == []
    moves = list(nodes(game))
    assert 25 <= len(list(game.mainline_moves())) / 2 <= 40
    assert sum(bool(node.comment) for node in game.mainline()) >= 12
    sidelines = [node for node in moves if not node.is_main_variation()]
    assert len(sidelines) >= 2
    assert all(node.starting_comment.endswith(":") for node in sidelines)
    assert any(not node.parent.is_mainline() for node in sidelines), "one sideline in a sideline"
    assert not any("[%" in node.comment + node.starting_comment for node in moves)


def test_the_seven_tags_come_first_and_the_rest_in_alphabetical_order(game):
    # PGN standard, 8.1: the Seven Tag Roster, then the others in ASCII order.
    roster = ["Event", "Site", "Date", "Round", "White", "Black", "Result"]
    lines = FILE.read_text("ascii").split("\n\n")[0].splitlines()
    written = [line[1:].split(" ")[0] for line in lines]
    assert written[:7] == roster
    assert written[7:] == sorted(written[7:])
    assert set(written) == set(game.headers)
    assert game.headers["Event"] == "Lantern Street Club Championship"
    assert game.headers["Annotator"] == "Quaile, Hesper"
    assert game.headers["PlyCount"] == str(len(list(game.mainline_moves())))


def test_the_result_is_what_stands_on_the_board(game):
    board = game.end().board()
    assert board.is_checkmate()
    assert board.result() == game.headers["Result"] == "0-1"


def test_every_move_is_written_as_the_standard_writes_it(game):
    # PGN standard, 8.2.3: so that the text and the board agree on "+" and "#".
    text = " ".join(FILE.read_text("ascii").split("\n\n")[1].split())
    for node in nodes(game):
        assert node.san() in text.replace(")", " ").split(" "), node.san()


# -- what follows from the rules alone ----------------------------------------


def legal(board: chess.Board) -> set[str]:
    """Return every legal move as it is written."""
    return {board.san(move) for move in board.legal_moves}


def mates_in_one(board: chess.Board) -> set[str]:
    """Return the moves that mate at once."""
    return {san for san in legal(board) if san.endswith("#")}


@pytest.mark.parametrize(
    ("path", "side", "square", "pinned"),
    [
        ("3b", chess.BLACK, chess.C6, True),  # "the knight on c6 is pinned to the king"
        ("4b", chess.BLACK, chess.C6, False),
        ("9w", chess.BLACK, chess.E7, True),  # "the bishop on e7 is pinned to its king"
        ("9b", chess.BLACK, chess.E7, False),  # "the knight shuts the file"
        ("9w Na5 Bg5 f6 Nxd4 fxg5 Ne6", chess.BLACK, chess.D7, True),
    ],
)
def test_what_is_called_pinned_is_pinned(game, path, side, square, pinned):
    assert after(game, path).is_pinned(side, square) is pinned


def test_the_rook_on_e1_is_loose_from_the_19th_move_on_and_the_other_bishop_move_defends_it(game):
    assert after(game, "17b").attackers(chess.WHITE, chess.E1) == {chess.D1}
    assert chess.D1 in after(game, "17b").attackers(chess.WHITE, chess.F3)
    assert not after(game, "19w").attackers(chess.WHITE, chess.E1)
    assert after(game, "18b Bd2").attackers(chess.WHITE, chess.E1) == {chess.D2}
    assert after(game, "19b Rce3").attackers(chess.WHITE, chess.E1) == {chess.E3}


def test_whites_20th_is_a_fork_and_blacks_20th_opens_both_lines(game):
    assert {chess.F5, chess.E8} <= set(after(game, "20w").attacks(chess.D6))
    before, opened = after(game, "20w"), after(game, "20b")
    assert chess.E1 not in before.attacks(chess.E8)
    assert chess.E1 in opened.attacks(chess.E8)
    assert chess.C3 not in before.attacks(chess.F6)
    assert chess.C3 in opened.attacks(chess.F6)
    assert opened.is_check()


@pytest.mark.parametrize(
    ("path", "moves"),
    [
        ("20b", {"gxf3", "Kf1", "Kh1", "Rxf3"}),
        ("21b", {"Kg2"}),
        ("22b", {"Bg5", "Kh3"}),
        ("23b", {"Kh3"}),
    ],
)
def test_white_has_these_moves_and_no_other(game, path, moves):
    assert legal(after(game, path)) == moves


@pytest.mark.parametrize("refusal", ["Kf1", "Kh1", "Rxf3"])
def test_each_refusal_of_the_knight_is_mated_at_once(game, refusal):
    assert "Rxe1#" in mates_in_one(after(game, f"20b {refusal}"))


def test_after_the_quiet_24th_every_reply_is_mated_on_the_next_move(game):
    board = after(game, "24b")
    assert not board.is_check()
    replies = legal(board)
    assert len(replies) == 24
    assert [reply for reply in replies if not mates_in_one(after(game, f"24b {reply}"))] == []


def test_the_last_try_stops_the_check_on_h5_and_the_bishop_defends_h4_at_the_end(game):
    assert "Nh4" in legal(after(game, "25w Qh5+"))
    assert game.end().board().attackers(chess.BLACK, chess.H4) == {chess.F6}


@pytest.mark.parametrize("check", ["Qh5+", "Qh4+"])
def test_a_queen_check_on_the_24th_would_let_the_king_back_to_g2(game, check):
    assert "Kg2" in legal(after(game, f"24w {check}"))


@pytest.mark.parametrize(
    ("path", "points"),
    [
        ("11b", 0),  # "material is level"
        ("9w Na5 Bg5 Bxb5 Bxe7 Qxe7 Rxe7+ Kxe7 Qxd4", 9 - 5 - 3),  # queen for rook and bishop
        ("17w Bf6 Nxd6 Nf3+ Qxf3 Qxf3 gxf3 Bxc3 Rc1 Bb4 Nxb7", 0),  # "the count is even"
        ("20w Ng4 Rf1 Qe5 Rg3 Qxd6 Rxg4", 1),  # "an extra pawn"
    ],
)
def test_the_count_of_material_is_as_told(game, path, points):
    assert balance(after(game, path)) == points


def test_the_decoyed_king_is_forked_with_the_loose_knight_whatever_it_does(game):
    board = after(game, "9w Na5 Bg5 f6 Nxd4 fxg5 Ne6 Bxb5 Nxd8 Kxd8")
    assert not board.attackers(chess.BLACK, chess.A5)
    lured = after(game, "9w Na5 Bg5 f6 Nxd4 fxg5 Ne6 Bxb5 Nxd8 Kxd8 Rxe7 Kxe7 Qe1+")
    assert lured.is_check()
    for move in lured.legal_moves:
        lured.push(move)
        assert chess.Move(chess.E1, chess.A5) in lured.legal_moves
        lured.pop()


# -- forced mates, proved ------------------------------------------------------


def told_moves(game: chess.pgn.Game) -> dict[str, list[chess.Move]]:
    """Return the moves that the file shows in each position, by EPD."""
    told: dict[str, list[chess.Move]] = {}
    for node in nodes(game):
        told.setdefault(node.parent.board().epd(), []).append(node.move)
    return told


def mates(board: chess.Board, moves: int, told: dict[str, list[chess.Move]]) -> bool:
    """Prove that the side to move mates in at most so many of its moves.

    The attacker tries the file's own moves, then every check, and on the last
    two moves everything; the defender tries every legal move. So a yes is a
    proof; a no only means that this search found none.
    """
    everything = list(board.legal_moves)
    tries = [*told.get(board.epd(), []), *filter(board.gives_check, everything)]
    for move in dict.fromkeys(tries + (everything if moves == 2 else [])):
        board.push(move)
        done = board.is_checkmate() or (moves > 1 and falls(board, moves - 1, told))
        board.pop()
        if done:
            return True
    return False


def falls(board: chess.Board, moves: int, told: dict[str, list[chess.Move]]) -> bool:
    """Prove that the side to move, not stalemated, is mated after every reply."""
    replies = list(board.legal_moves)
    for reply in replies:
        board.push(reply)
        mated = mates(board, moves, told)
        board.pop()
        if not mated:
            return False
    return bool(replies)


@pytest.mark.parametrize(
    ("path", "moves"),
    some(
        [
            ("24w", 2),
            ("22b Kh3", 3),
            ("22w", 4),
            ("20w", 6),  # "it is mate in six"
        ]
    ),
)
def test_the_mate_is_forced(game, path, moves):
    board = after(game, path)
    before = board.fen()
    assert mates(board, moves, told_moves(game))
    assert board.fen() == before


def test_the_search_says_no_where_the_file_claims_nothing(game):
    # The same search must not call everything a mate.
    assert not mates(after(game, "19b"), 3, told_moves(game))
    assert not mates(after(game, "24w"), 1, told_moves(game))
    assert not falls(after(game, "20w Ng4"), 2, told_moves(game))


# -- judgements, by an engine ----------------------------------------------------

Score = Callable[[str], chess.engine.Score]


@pytest.fixture(scope="module")
def score(game: chess.pgn.Game) -> Iterator[Score]:
    """Give the engine's score of a position, from White's point of view."""
    path = shutil.which("stockfish", path="/usr/games") or shutil.which("stockfish")
    if path is None:
        pytest.fail("These checks need a UCI engine: install Debian's package 'stockfish'.")
    with chess.engine.SimpleEngine.popen_uci(path) as engine:
        engine.configure({"Threads": 1, "Hash": 64})

        def of(where: str) -> chess.engine.Score:
            engine.configure({"Clear Hash": None})
            board = after(game, where)
            info = engine.analyse(board, chess.engine.Limit(nodes=NODES), game=where)
            return info["score"].white()

        yield of


@pytest.mark.parametrize(
    ("path", "low", "high"),
    some([
        ("7b Nxd4", 0, 100),  # "at least as good"
        ("8w", -60, 60),
        ("9b", -60, 60),  # "by far the best square"
        ("9w Nb8", 100, 400),
        ("9w Na5", 150, 500),
        ("9w Nb4", 200, 600),
        ("9w Na5 Bg5 f6 Nxd4 fxg5 Ne6", 250, 700),
        ("9w Na5 Bg5 f6 Nxd4 fxg5 Ne6 Bxb5 Nxd8 Kxd8 Rxe7", 250, 700),
        ("9w Na5 Bg5 Bxb5 Bxe7 Qxe7 Rxe7+ Kxe7 Qxd4", 250, 900),
        ("11b", -60, 60),  # "in balance"
        ("17w Bf6 Nxd6 Nf3+ Qxf3", 0, 150),
        ("18w", -20, 80),  # "natural and sound"
        ("19b", -20, 90),
        ("19b Rce3", -20, 90),  # "the game stays balanced"
        ("20w Ng4 Rf1", 20, 150),  # "the wrong square"
        ("20w Ng4 Rf1 Qe5 Rg3 Qxd6 Rxg4", 20, 150),
        ("20w Ng4 Be3", -900, -150),  # 21. Rf1 is "the only good reply"
        ("22b Bg5 Bxg5", -1500, -300),  # "also wins, but slowly"
    ]),
)  # fmt: skip
def test_the_engine_agrees_with_the_judgement(score, path, low, high):
    found = score(path).score()
    assert found is not None, f"{path}: a mate, where a judgement was written"
    assert low <= found <= high


@pytest.mark.parametrize(
    ("path", "moves"),
    [
        ("20w", 6),
        ("20w Nd3", 5),  # "just as good"
        ("19b a3 Nf3+", 5),  # the threat: "would already force mate"
        ("22b", 3),
        ("24b", 1),
    ],
)
def test_the_engine_sees_the_mate_at_least_as_soon(score, path, moves):
    mate = score(path).mate()
    assert mate is not None
    assert -moves <= mate < 0


@pytest.mark.thorough
def test_no_move_but_the_rooks_step_aside_answers_the_wrong_jump(game, score):
    board = after(game, "20w Ng4")
    others = [board.san(move) for move in board.legal_moves if board.san(move) != "Rf1"]
    assert len(others) > 20
    assert [san for san in others if score(f"20w Ng4 {san}").score(mate_score=10_000) > -150] == []
