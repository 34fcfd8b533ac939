"""Games written down as one says them: read with their notes, and every mistake told at once."""

import random

import chess
import pytest
from thoroughness import scaled, some

from chessnb.errors import GameFileError
from chessnb.lessons.meant_moves import read_any
from chessnb.lessons.move_files import is_move_file, read_move_file, read_moves
from chessnb.notation.spoken.speech import spoken

GAMES = {
    "italian": "e4 e5 Nf3 Nc6 Bc4 Bc5 c3 Nf6 d4 exd4 cxd4 Bb4+ Nc3 Nxe4 O-O Bxc3 d5 Bf6 Re1 Ne7 "
    "Rxe4 d6 Bg5 Bxg5 Nxg5 h6 Qe2 hxg5 Re1 Be6 dxe6 f6 Re3 c6 Rh3 Rxh3 gxh3 g6 Qf3 Qa5 Rd1 Kf8",
    "spanish": "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4 Nbd7 Nbd2 "
    "Bb7 Bc2 Re8 Nf1 Bf8 Ng3 g6 a4 c5 d5 c4 Bg5 h6 Be3 Nc5 Qd2 h5 Bg5 Be7",
    "slav": "d4 d5 c4 c6 Nf3 Nf6 Nc3 dxc4 a4 Bf5 e3 e6 Bxc4 Bb4 O-O Nbd7 Qe2 Bg6 e4 O-O Bd3 Bh5 "
    "e5 Nd5 Nxd5 cxd5 Qe3 Bg6 Ng5 Re8 f4 Bxd3 Qxd3 f5 Be3 Nf8 Kh1 Rc8 g4 Qd7",
    "sicilian": "e4 c5 Nf3 d6 d4 cxd4 Nxd4 Nf6 Nc3 a6 Be3 e5 Nb3 Be6 f3 Be7 Qd2 O-O O-O-O Nbd7 g4 "
    "b5 g5 b4 Ne2 Ne8 f4 a5 f5 a4 Nbd4 exd4 Nxd4 b3 Kb1 bxc2+ Nxc2 Bb3 axb3 axb3",
    "king's indian": "d4 Nf6 c4 g6 Nc3 Bg7 e4 d6 Nf3 O-O Be2 e5 O-O Nc6 d5 Ne7 Ne1 Nd7 Be3 f5 f3 "
    "f4 Bf2 g5 a4 Ng6 Nd3 Nf6 c5 h5 h3 Bd7 c6 bxc6 dxc6 Be8 Nd5 Rf7 Nxf6+ Qxf6",
}  # fmt: skip
NOTES = ("", " - develops", " – hits the centre; good", " {a fine square}", "")


def written(name, style):
    """Write a game with a move a line: the lines, and for each its board and move."""
    board, lines, moves = chess.Board(), [], []
    for ply, san in enumerate(GAMES[name].split()):
        move = board.parse_san(san)
        number = f"{board.fullmove_number}{'.' if board.turn else '...'} "
        said = san if (ply + style) % 3 == 0 else spoken(board, move)
        lines.append((number if (ply + style) % 4 == 0 else "") + said + NOTES[ply % 5])
        moves.append((board.copy(), move))
        board.push(move)
    return lines, moves


def spoilt(rng, board, move, *, hard):
    """Return a text for a move that nobody can read, or that is not legal; a hard one misleads."""
    said, san = spoken(board, move), board.san(move)
    goal = chess.square_name(move.to_square)
    ways = [
        said.replace(goal, f"{goal[0]}9"),
        said.replace(goal, f"i{goal[1]}"),
        said.replace(said.split()[0], said.split()[0][:2] + "x" + said.split()[0][2:], 1),
        said.replace(goal, goal[0]),
        f"{said} banana",
        f"{said.split()[0]} {goal[1]}{goal[0]}",
    ]
    if hard:
        ways += [f"queen {goal}", f"rook takes {goal}"]
        ways.append(san.replace(goal, f"{goal[0]}{9 - int(goal[1])}"))
    rng.shuffle(ways)
    return next(way for way in ways if way != said and not read_any(board, way)[0])


@pytest.mark.parametrize("name", GAMES)
def test_a_game_is_read_with_its_notes(name):
    for style in range(3):
        lines, moves = written(name, style)
        game, doubts = read_moves("\n".join(lines))
        assert doubts == ()
        assert list(game.mainline_moves()) == [move for _, move in moves]
        assert sum(bool(node.comment) for node in game.mainline()) == 3 * len(moves) // 5


@pytest.mark.parametrize("hard", [False, True])
@pytest.mark.parametrize("style", range(scaled(3)))
@pytest.mark.parametrize("name", some(GAMES))
def test_ten_planted_mistakes_are_all_told_with_what_may_have_been_meant(name, style, hard):
    rng = random.Random(f"{name} {style}")
    lines, moves = written(name, style)
    planted = sorted(rng.sample(range(1, len(lines) - 1, 3), 10))
    for ply in planted:
        board, move = moves[ply]
        lines[ply] = spoilt(rng, board, move, hard=hard) + NOTES[ply % 5]
    _, doubts = read_moves("\n".join(lines))
    told = {doubt.line - 1: doubt for doubt in doubts}
    # One mistake of three moves each: with misleading ones a later one may be legal by an earlier.
    assert len(set(planted) - set(told)) <= (2 if hard else 0), "\n".join(map(str, doubts))
    assert len(doubts) <= (20 if hard else 14)
    assert all(doubt.reason and doubt.near for doubt in doubts)
    hinted = [
        ply
        for ply in set(planted) & set(told)
        if moves[ply][0].san(moves[ply][1]) in told[ply].near
    ]
    assert len(hinted) >= (6 if hard else 8)


OPEN = "1. e4 e5\nknight f3 - hits e5\nknight c6\nbishop b5\n"


@pytest.mark.parametrize(
    ("behind", "told"),
    [
        ("a6 5. O-O", [("5. O-O", "4. O-O")]),
        ("4. castles", [("4. castles", "")]),
        ("a6\nbishop takes c7\nd takes c6", [("bishop takes c7", "Bxc6")]),
        ("banana", [("banana", "")]),
        ("a6 bishop a5", [("bishop a5", "Ba4")]),
    ],
)
def test_wrong_numbers_missing_moves_and_half_of_a_pair_are_told(behind, told):
    _, doubts = read_moves(OPEN + behind)
    assert [doubt.text for doubt in doubts] == [text for text, _ in told]
    assert all(meant in (*doubt.near, "") for doubt, (_, meant) in zip(doubts, told, strict=True))


def test_headers_notes_comments_and_results_have_their_place():
    text = (
        "# from the club evening\nWeiß: Karl\nBlack: Ida\n- an old favourite\n"
        "1. e4 (best by test) e5 2. Sf3 {hits e5} Springer c6\nThis is what everybody has played "
        "for two hundred years now.\nLäufer c4, Läufer c5 ; quiet\n1/2-1/2\n"
    )
    game, doubts = read_moves(text)
    assert doubts == ()
    assert game.headers["White"] == "Karl"
    assert (game.headers["Black"], game.headers["Result"]) == ("Ida", "1/2-1/2")
    assert game.comment == "an old favourite"
    notes = {node.san(): node.comment for node in game.mainline()}
    assert notes == {
        "e4": "best by test", "e5": "", "Nf3": "hits e5", "Bc4": "", "Bc5": "quiet",
        "Nc6": "This is what everybody has played for two hundred years now.",
    }  # fmt: skip


def test_german_words_are_moves():
    said = "e4\ne5\nSpringer nach f3\nSpringer auf c6\nLäufer b5\na6\nLäufer schlägt c6\nd schlägt c6\nkurze Rochade"
    game, doubts = read_moves(said)
    assert doubts == ()
    assert [node.san() for node in game.mainline()][-3:] == ["Bxc6", "dxc6", "O-O"]


def test_a_file_is_refused_with_all_its_places_at_once(tmp_path):
    path = tmp_path / "moves.txt"
    path.write_text(OPEN + "knigth f6\nrook e9\n", encoding="utf-8")
    assert is_move_file(path)
    with pytest.raises(GameFileError, match="2 places cannot be read") as caught:
        read_move_file(path)
    assert "line 5, “knigth f6”" in str(caught.value)
    assert "line 6, “rook e9”" in str(caught.value)
    path.write_text("# nothing yet\n", encoding="utf-8")
    with pytest.raises(GameFileError, match="no move"):
        read_move_file(path)


def test_a_game_file_of_another_name_is_none_of_these(tmp_path):
    path = tmp_path / "game.txt"
    path.write_text('[Event "?"]\n\n1. e4 *\n')
    assert not is_move_file(path)
    assert not is_move_file(tmp_path / "game.pgn")
