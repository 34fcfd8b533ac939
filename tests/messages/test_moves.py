"""What is said of wrong moves and bad positions: word for word, and true.

The frozen files hold the words; ``truth`` checks by other means that every
reason holds.  After a message was made better on purpose, write the files
again with ``PYTHONPATH=tests python -m messages.frozen``.
"""

import random
from collections import Counter

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.errors import IllegalMove, NotationError
from chessnb.notation import read_move
from messages import frozen
from messages.truth import CLAUSES, check_reason

MOVES = frozen.read("moves.txt")
POSITIONS = frozen.read("positions.txt")


def name(entry):
    return f"{entry.heading}: {entry.written}"


@pytest.mark.parametrize("entry", MOVES, ids=name)
def test_the_answer_to_a_wrong_move_is_frozen(entry):
    assert frozen.answer_to_move(entry.margin, entry.written) == entry.answer


@pytest.mark.parametrize("entry", POSITIONS, ids=name)
def test_the_answer_to_a_bad_position_is_frozen(entry):
    assert frozen.answer_to_position(entry.margin, entry.written) == entry.answer


@pytest.mark.parametrize(
    "entry", [entry for entry in MOVES if entry.answer.startswith("IllegalMove")], ids=name
)
def test_the_frozen_reason_is_true(entry):
    _, _, reason = entry.answer.partition(": ")
    check_reason(frozen.position_of(entry.margin), entry.written, reason)


def test_every_clause_has_an_example_in_the_file():
    told = set()
    for entry in MOVES:
        kind, _, reason = entry.answer.partition(": ")
        if kind == "IllegalMove":
            told.update(check_reason(frozen.position_of(entry.margin), entry.written, reason))
    assert told == {check.__name__ for _, check in CLAUSES}


def test_a_false_reason_is_noticed():
    """The reasons of other entries, told of a position where they do not hold, are refused."""
    chance, refused = random.Random(3), 0
    illegal = [entry for entry in MOVES if entry.answer.startswith("IllegalMove")]
    for entry in illegal:
        other = chance.choice([one for one in illegal if one.answer != entry.answer])
        try:
            check_reason(
                frozen.position_of(entry.margin), entry.written, other.answer.partition(": ")[2]
            )
        except (AssertionError, AttributeError, IndexError, TypeError, ValueError):
            refused += 1
    assert refused > 0.95 * len(illegal)


def random_text(board, chance):
    """Return what a player might write, legal or not."""
    if chance.random() < 0.4:  # the two squares, from an own piece
        own = list(chess.scan_forward(board.occupied_co[board.turn]))
        return chess.Move(chance.choice(own), chance.choice(chess.SQUARES)).uci()
    if chance.random() < 0.1:
        return chance.choice(("O-O", "O-O-O"))
    if chance.random() < 0.1:
        return chance.choice("RBN") + "".join(chance.choices(chess.SQUARE_NAMES, k=2))
    # Without b, which may stand for a bishop.
    start = chance.choice(("", "", "acdefgh", "12345678"))
    takes = chance.choice(("", "", "x"))
    becomes = f"={chance.choice('QRBNK')}" if chance.random() < 0.05 else ""
    piece = chance.choice(("", "", "K", "Q", "R", "B", "N"))
    return (
        piece + chance.choice(start or [""]) + takes + chance.choice(chess.SQUARE_NAMES) + becomes
    )


def unsafe(board):
    """List moves that would be legal, were it not for the king."""
    moves = board.generate_pseudo_legal_moves()
    return [move.uci() for move in moves if not board.is_legal(move)]


COMMON = {
    "game_over", "empty", "none_there", "another_piece", "no_such_piece", "other_sides_move",
    "already", "wrong_promotion", "no_pawn", "nothing_to_take",
    "say_the_file", "in_the_way", "own_piece", "off_its_way", "other_shade", "off_a_pawns_way",
    "takes_straight_on", "left_its_first_square", "takes_its_own", "no_pawn_can", "pinned",
    "check_stays", "king_into_attack", "right_lost", "castling_prevented", "legal_moves",
}  # fmt: skip


@pytest.mark.thorough
def test_every_reason_for_random_wrong_moves_is_true():
    chance, told = random.Random(8), Counter()
    for board in random_boards(scaled(400, least=150), seed=21):
        for text in [*(random_text(board, chance) for _ in range(15)), *unsafe(board)]:
            try:
                read_move(board, text)
            except IllegalMove as error:
                try:
                    told.update(check_reason(board, text, error.reason))
                except AssertionError as wrong:
                    raise AssertionError(f"{text} in {board.fen()}: {error.reason}") from wrong
            except NotationError:
                continue
    assert COMMON - {name for name, count in told.items() if count > 1} == set(), told
