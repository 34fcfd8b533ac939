"""The games are games, and the points are about them: read again by python-chess, mates proved."""

import chess.pgn
import pytest

from chessnb import claims, motifs
from reading.points import KINDS, KNOWN, all_points, game_path, positions, quiet_paths

POINTS = all_points()
ALL = [
    pytest.param(point, id=f"{game} {n}") for game in POINTS for n, point in enumerate(POINTS[game])
]
MATED = {"1-0": chess.BLACK, "0-1": chess.WHITE}


def is_short(point):
    """Whether the move itself begins the mate, and the search can prove it."""
    begins = point.kind in ("mate", "sacrifice", "quiet_key") and "threat" not in point.motifs
    return begins and point.mate <= 7 and (not point.line or point.line[0] == point.move)


def headers(path):
    with path.open(encoding="utf-8") as handle:
        return chess.pgn.read_headers(handle)


def test_there_are_fifteen_games_of_eight_points_or_more():
    names = sorted(path.stem for path in game_path("any").parent.glob("*.pgn"))
    assert names == sorted(POINTS)
    assert len(names) == 15
    assert min(map(len, POINTS.values())) >= 8


def test_there_are_twenty_quiet_games():
    assert [path.stem for path in quiet_paths()] == [f"{n:02}" for n in range(1, 21)]


@pytest.mark.parametrize(
    "path", [*map(game_path, POINTS), *quiet_paths()], ids=lambda path: path.stem
)
def test_a_game_replays_to_its_result(path):
    *_, end = positions(path)
    tags = headers(path)
    if end.is_checkmate():
        assert MATED[tags["Result"]] == end.turn
    elif end.is_game_over():
        assert tags["Result"] == "1/2-1/2"
    by_engine = tags["Event"] == "Engine against itself"
    assert ("Source" in tags) is not by_engine
    assert ("positions a move" in tags["White"]) is by_engine


@pytest.mark.parametrize("point", ALL)
def test_a_point_is_about_its_move(point):
    boards = positions(game_path(point.game))
    assert 1 <= point.first <= point.last < len(boards)
    board = boards[point.first - 1]
    assert board.san(boards[point.first].peek()) == point.move
    assert point.kind in KINDS
    assert point.known in KNOWN
    assert point.what.endswith(".")
    assert set(point.motifs) <= set(motifs.names())


@pytest.mark.parametrize("point", ALL)
def test_the_moves_of_a_point_can_be_played(point):
    board = positions(game_path(point.game))[point.first - 1]
    if point.better:
        assert board.san(board.parse_san(point.better)) == point.better != point.move
    for san in point.line:
        assert board.san(board.parse_san(san)) == san  # a mate that is no mate has another SAN
        board.push_san(san)


@pytest.mark.parametrize("point", ALL)
def test_the_pieces_of_a_point_stand_there(point):
    boards = positions(game_path(point.game))[point.first - 1 : point.last + 1]
    for piece in point.pieces:
        square = chess.parse_square(piece[1:])
        assert any(
            (found := board.piece_at(square)) and found.symbol().upper() == piece[0]
            for board in boards
        ), piece
    assert all(square in chess.SQUARE_NAMES for square in point.squares)


MATES = [one for one in ALL if one.values[0].mate]


@pytest.mark.parametrize("point", [one for one in MATES if one.values[0].line])
def test_a_line_mates_in_as_many_moves_as_are_told(point):
    assert point.line[-1].endswith("#")
    waits = "threat" in point.motifs  # the move itself is not part of what it threatens
    assert (len(point.line) + 1) // 2 == point.mate + waits


def test_a_mate_of_the_game_is_told_no_longer_than_it_took():
    played = [point for points in POINTS.values() for point in points if point.kind == "mate"]
    assert len(played) >= 10
    for point in played:
        boards = positions(game_path(point.game))
        left = (len(boards) - 1 - point.first) // 2 + 1
        if boards[-1].is_checkmate() and not point.line:
            assert point.mate <= left, point.place
            assert (point.mate == 1) == (left == 1), point.place


@pytest.mark.parametrize("point", [one for one in MATES if is_short(one.values[0])])
def test_a_short_mate_is_proved(point):
    board = positions(game_path(point.game))[point.first - 1]
    assert claims.mates(board, within=point.mate, move=point.move)


@pytest.mark.parametrize("point", [one for one in MATES if one.values[0].kind == "mistake"])
def test_a_mistake_allows_the_mate_that_is_told(point):
    board = positions(game_path(point.game))[point.first]
    assert claims.mates(board, within=point.mate)
