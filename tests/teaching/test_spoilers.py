"""Which texts give a hidden move away; and that none of them is in page, state or saved cell.

That none is in a student edition is tested with the edition.
"""

import json

import chess
import pytest

from chessnb import Lesson
from chessnb.teaching.spoilers import names_a_move
from chessnb.widgets import BranchExplorer

HIDDEN = frozenset({"Nf3", "Bxf7", "Qh5", "e4", "exd5", "O-O", "Rad1", "e8=Q"})


@pytest.mark.parametrize(
    "text",
    [
        "Then Nf3+!",
        "2... Nf3",
        "Ng1-f3 is natural",
        "♘f3 attacks the pawn",
        "Sf3 sagt piece auf Deutsch",
        "in long form g1f3",
        "Bf7+ wins",
        "the bishop takes f7",
        "knight to f3 comes next",
        "The Knight will be strong on f3",
        "f3 beckons: take it with the knight",
        "f3 is for the knight, so go there with the knight",
        "the rook should go to d1",
        "the queen, at last, lands on h5",
        "now 1. e4",
        "Black should fear e4!",
        "White plays e4",
        "the pawn goes to e4",
        "e takes d5",
        "exd5 opens the file",
        "ed5 opens the file",
        "e2-e4",
        "the pawn queens on e8",
        "e8=Q",
        "White castles now",
        "time for O-O",
        "castling short is best",
    ],
)
def test_a_hidden_move_is_known_in_signs_and_in_words(text: str) -> None:
    assert names_a_move(text, HIDDEN)


@pytest.mark.parametrize(
    "text",
    [
        "A quiet move.",
        "The fight is about e4.",
        "White has castled.",
        "The knight on c6 is pinned.",
        "The knight was attacked. On f3 nothing stands yet.",
        "Nf6 was played before.",
        "the rook goes to a1",
        "page 34, line 12",
        "",
    ],
)
def test_what_names_no_hidden_move_is_not_held_back(text: str) -> None:
    assert not names_a_move(text, HIDDEN)


def test_a_piece_that_stands_on_a_square_is_no_move_there() -> None:
    board = chess.Board("4k3/8/8/8/8/5N2/8/4K3 w - - 0 1")
    assert not names_a_move("The knight on f3 is well placed.", HIDDEN, board=board)
    assert names_a_move("The knight on f3 is well placed.", HIDDEN, board=chess.Board())
    assert names_a_move("The other knight goes to f3 too.", HIDDEN, board=board)


COMMENTS = [
    "What does the knight on b1 want? To land on c3.",
    "Think of the bishop: b5 is where it hurts.",
    "White plays d4 soon.",
    "Sc3 heißt das Thema.",
    "Castling long is in the air.",
]
GAME = f"""\
1. e4 {{{COMMENTS[0]}}} e5 {{{COMMENTS[1]} Quiet words.}} 2. Nf3 {{{COMMENTS[2]}}} Nc6
({{{COMMENTS[3]}}} 2... d6 {{{COMMENTS[4]}}}) {{Seen.}} 3. Bb5 d6 4. Nc3 Bd7 5. d4 Qe7 6. d5 O-O-O *
"""


@pytest.mark.parametrize("reveal", ["so far", "ask"])
def test_nothing_that_hints_at_a_hidden_move_is_in_page_state_or_saved_cell(reveal) -> None:
    lesson = Lesson.from_text(GAME, title="Hints")
    explorer = BranchExplorer(lesson, at="2... Nc6", reveal=reveal)
    bundle, _ = explorer._repr_mimebundle_()
    written = json.dumps([explorer.get_state(["tree", "at", "words"]), bundle])
    assert "Seen." in written
    for hint in ("land on", "bishop: b5", "plays d4", "Sc3", "Castling", "Quiet words"):
        assert hint not in written


def test_each_comment_comes_when_the_last_move_that_it_names_is_shown() -> None:
    lesson = Lesson.from_text(GAME, title="Hints")
    explorer = BranchExplorer(lesson, at="2... Nc6", reveal="ask")
    shown = explorer._shown
    came: dict[str, str] = {}
    node = lesson.after("2... Nc6").node
    while node.variations:
        shown.show_next(node)
        node = node.variations[0]
        for row in shown.data()["nodes"]:
            if row[5]:
                came.setdefault(row[5], row[2] and node.san())
    last = {text: move for text, move in came.items() if text != "Seen."}
    assert last[COMMENTS[0]] == "Nc3"
    assert last[f"{COMMENTS[1]} Quiet words."] == "Bb5"
    assert last[COMMENTS[2]] == "d4"
    assert set(last.values()) == {"Bb5", "Nc3", "d4", "O-O-O"}
