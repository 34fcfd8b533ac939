"""The front end's modules, run by Node: their own tests, and comparisons with Python.

Node is needed for these tests, and its absence is a failure: what the browser
believes about chess must not go untested.
"""

import json
import random
import shutil
import subprocess
from pathlib import Path
from typing import Any

import chess
import pytest
from boards import random_boards

from chessnb.diagrams import Diagram, Mark
from chessnb.diagrams.marks import ROLES, STROKES
from chessnb.notation import LETTERS, read_move, write_line, write_move
from chessnb.widgets.esm import bundle

FOLDER = Path(__file__).parent / "frontend"


def node(*arguments: str, given: str = "") -> str:
    """Run Node and return what it printed; fail with its own words."""
    program = shutil.which("node")
    assert program, "Node (20.10 or later) is needed to test the front end; install it first"
    # ES modules in folders without a package.json (newer Nodes see it by themselves), and a JSON
    # file, of which Node 20 warns.
    flags = ["--experimental-detect-module", "--no-warnings"]
    run = subprocess.run(
        [program, *flags, *arguments], input=given, capture_output=True, text=True, timeout=120
    )
    assert run.returncode == 0, run.stdout[-4000:] + run.stderr[-4000:]
    return run.stdout


def answers(questions: list[dict[str, Any]]) -> list[Any]:
    return list(json.loads(node(str(FOLDER / "answers.js"), given=json.dumps(questions))))


def test_the_front_ends_own_tests_pass() -> None:
    report = node("--test", "--test-reporter=tap", *map(str, sorted(FOLDER.glob("*.test.js"))))
    assert "# fail 0" in report
    assert "# skipped 0" in report
    assert "# todo 0" in report
    passed = next(line for line in report.splitlines() if line.startswith("# pass "))
    assert int(passed.split()[2]) > 40


@pytest.mark.thorough
def test_legal_moves_san_and_positions_are_python_chess_s() -> None:
    boards = [*random_boards(400, seed=11), *map(chess.Board, SPECIAL)]
    for board, found in zip(boards, answers([_moves(board) for board in boards]), strict=True):
        assert found == {move.uci(): _san_and_fen(board, move) for move in board.legal_moves}


def _moves(board: chess.Board) -> dict[str, Any]:
    return {"ask": "moves", "fen": board.fen()}


def _san_and_fen(board: chess.Board, move: chess.Move) -> list[str]:
    after = board.copy()
    after.push(move)
    return [board.san(move), after.fen()]


SPECIAL = [
    # En passant that would open the rank, the diagonal and the file to one's own king;
    # castling rights lost by a capture; SAN that needs file, rank, and both.
    "8/8/8/8/k2Pp2Q/8/8/4K3 b - d3 0 1",
    "8/8/1b6/2pP4/3K4/8/8/4k3 w - c6 0 1",
    "4r3/8/8/3pP3/8/8/8/4K1k1 w - d6 0 1",
    "r3k2r/8/8/3B4/3b4/8/8/R3K2R w KQkq - 0 1",
    "8/8/8/2Q1Q3/8/2Q5/K6k/8 w - - 0 1",
    "4k3/8/8/1N3N2/8/1N3N2/8/4K3 w - - 0 1",
    "1n1n3k/2P5/8/8/8/8/2p5/1N1N3K w - - 0 1",
]


@pytest.mark.thorough
def test_typed_moves_are_read_as_python_reads_them() -> None:
    boards = list(random_boards(120, seed=12))
    texts = [_ways_to_write(board) for board in boards]
    questions = [
        {"ask": "read", "fen": board.fen(), "texts": list(ways)}
        for board, ways in zip(boards, texts, strict=True)
    ]
    for board, ways, found in zip(boards, texts, answers(questions), strict=True):
        for (text, move), moves in zip(ways.items(), found, strict=True):
            assert moves == [move.uci()], (text, board.fen())
            assert read_move(board, text) == move, (text, board.fen())


def _ways_to_write(board: chess.Board) -> dict[str, chess.Move]:
    ways = {}
    for move in board.legal_moves:
        san = board.san(move)
        marked = san.rstrip("+#") + "!?"
        for text in (san, san.replace("O", "0"), marked, board.lan(move), move.uci()):
            ways[text] = move
    return ways


@pytest.mark.thorough
def test_whatever_is_typed_the_browser_never_plays_a_move_that_python_reads_otherwise() -> None:
    chance = random.Random(13)
    boards = list(random_boards(60, seed=14))
    texts = ["".join(chance.choices("KQRBNabcdefgh12345678xO0-=q ", k=4)) for _ in range(400)]
    texts += ["bxc4", "bc4", "Bc4", "bd5", "b5", "kg1", "0-0", "o-o-o", "rd1", "nxe5", "e8", "d8q"]
    questions = [{"ask": "read", "fen": board.fen(), "texts": texts} for board in boards]
    read = 0
    for board, found in zip(boards, answers(questions), strict=True):
        for text, moves in zip(texts, found, strict=True):
            if len(moves) == 1:
                read += 1
                assert read_move(board, text).uci() == moves[0], (text, board.fen())
    assert read > 50


@pytest.mark.thorough
@pytest.mark.parametrize("language", LETTERS)
def test_moves_are_typed_and_shown_in_every_language_as_python_does(language: str) -> None:
    boards = list(random_boards(12, seed=17))
    letters = LETTERS[language]
    texts = [_ways_to_write_in(board, language) for board in boards]
    questions = [
        {"ask": "read", "fen": board.fen(), "texts": list(ways), "letters": letters}
        for board, ways in zip(boards, texts, strict=True)
    ]
    for board, ways, found in zip(boards, texts, answers(questions), strict=True):
        for (text, move), moves in zip(ways.items(), found, strict=True):
            assert moves == [move.uci()], (text, board.fen())
            assert read_move(board, text, language=language) == move, (text, board.fen())
    questions = [{"ask": "numbered", "fen": board.fen(), "letters": letters} for board in boards]
    for board, shown in zip(boards, answers(questions), strict=True):
        for move in board.legal_moves:
            assert shown[move.uci()] == write_line(board, [move], language=language)


def _ways_to_write_in(board: chess.Board, language: str) -> dict[str, chess.Move]:
    return {
        write_move(board, move, form=form, language=language): move
        for move in board.legal_moves
        for form in ("san", "long", "figurine", "uci")
    }


@pytest.mark.thorough
@pytest.mark.parametrize("language", ["german", "french", "romanian", "polish", "hungarian"])
def test_a_language_s_letters_are_never_read_as_another_s(language: str) -> None:
    """Dame, Dutch dame, Romanian nebun: the same letter is another piece elsewhere."""
    chance = random.Random(18)
    letters = LETTERS[language]
    alphabet = f"KQRBN{letters}{letters.lower()}abcdefgh12345678x="
    texts = ["".join(chance.choices(alphabet, k=count)) for count in (3, 4) for _ in range(300)]
    texts += [letter + square for letter in "KQRBNkqrbn" + letters for square in ("d5", "c3", "f6")]
    boards = list(random_boards(30, seed=19))
    questions = [
        {"ask": "read", "fen": board.fen(), "texts": texts, "letters": letters} for board in boards
    ]
    read = 0
    for board, found in zip(boards, answers(questions), strict=True):
        for text, moves in zip(texts, found, strict=True):
            if len(moves) == 1:
                read += 1
                assert read_move(board, text, language=language).uci() == moves[0], text
    assert read > 20


@pytest.mark.parametrize("theme", ["auto", "light", "dark", "print"])
def test_the_live_board_draws_the_still_diagram_byte_for_byte(theme: Any) -> None:
    chance = random.Random(15)
    diagrams = [_diagram(board, chance) for board in random_boards(60, seed=16)]
    questions = [
        {
            "ask": "svg",
            "fen": diagram.fen,
            "theme": theme,
            "turned": diagram.turned,
            "size": 360,
            "title": diagram.caption or "Chess diagram",
            "words": diagram.words,
            "lastMove": diagram.last_move,
            "marks": [{"role": m.role, "square": m.square, "to": m.to} for m in diagram.marks],
        }
        for diagram in diagrams
    ]
    for diagram, drawn in zip(diagrams, answers(questions), strict=True):
        assert drawn == diagram.svg(theme=theme)


def _diagram(board: chess.Board, chance: random.Random) -> Diagram:
    marks = []
    for role in chance.sample(ROLES, k=3):
        square, to = chance.sample(chess.SQUARE_NAMES, 2)
        marks.append(Mark(role=role, square=square, to=to if role in STROKES else None))
    return Diagram(
        fen=board.fen(),
        turned=chance.random() < 0.5,
        last_move=board.peek().uci() if board.move_stack else None,
        marks=tuple(marks),
        caption=chance.choice(["", "Fig. <1> & \"2\" 'x'\x00"]),
    )


def test_the_bundle_is_one_module_that_a_browser_can_load() -> None:
    script = (
        "let text = ''; for await (const chunk of process.stdin) text += chunk;"
        "const url = `data:text/javascript;base64,${Buffer.from(text).toString('base64')}`;"
        "const { default: make } = await import(url); const widget = await make();"
        "process.stdout.write(Object.keys(widget).sort().join());"
    )
    names = node("--input-type=module", "-e", script, given=bundle("board.js"))
    assert names == "initialize,render"
