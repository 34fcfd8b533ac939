"""The same position with its colours changed, or seen in a mirror, has the same tactics."""

import chess
import pytest
from boards import random_boards
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from chessnb import motifs
from chessnb.notation import read_line
from motifs.gold import LABELS
from motifs.scoring import UNPROVED, tagged


def described(tags, flip):
    """Return what tags say, with every square changed."""
    return sorted(
        (
            tag.motif,
            tag.side,
            flip(tag.actor),
            tuple(sorted(map(flip, tag.targets))),
            tag.sound,
            tag.gain,
        )
        for tag in tags
    )


def same(name):
    return name


def over_colours(name):
    return chess.square_name(chess.square_mirror(chess.parse_square(name)))


def left_to_right(name):
    return chess.square_name(chess.parse_square(name) ^ 7)


def changed_by(board, flip):
    """Return the position changed, with its last moves changed as well."""
    start = board.root()
    over = flip is over_colours
    changed = start.mirror() if over else start.transform(chess.flip_horizontal)
    for move in board.move_stack:
        changed.push(moved_by(move, flip))
    return changed


def moved_by(move, flip):
    squares = [
        chess.parse_square(flip(chess.square_name(square)))
        for square in (move.from_square, move.to_square)
    ]
    return chess.Move(*squares, promotion=move.promotion)


def _swapped(described_tags, flip):
    if flip is left_to_right:
        return described_tags
    return sorted((motif, not side, *rest) for motif, side, *rest in described_tags)


def check_case(board, line, flip):
    there = motifs.tag(board, line=line, geometric=True, within=3, budget=20_000)
    changed = changed_by(board, flip)
    moves = tuple(moved_by(move, flip) for move in line)
    here = motifs.tag(changed, line=moves, geometric=True, within=3, budget=20_000)
    told = _swapped(described(there, flip), flip)
    assert [one[:5] for one in told] == [one[:5] for one in described(here, same)]


@pytest.mark.thorough
@pytest.mark.parametrize("flip", [over_colours, left_to_right])
def test_labelled_positions(flip):
    for label in LABELS[::3]:
        board = chess.Board(label.fen)
        if flip is left_to_right and board.castling_rights:
            continue
        names = {tag.motif for tag in tagged(label)}
        line = read_line(board, label.line)
        moves = tuple(moved_by(move, flip) for move in line)
        changed = {tag.motif for tag in motifs.tag(changed_by(board, flip), line=moves)}
        assert names == changed, label


@settings(max_examples=15, deadline=None, phases=[Phase.explicit, Phase.generate])
@given(seed=st.integers(min_value=0, max_value=10_000), pick=st.integers(min_value=0))
def test_random_positions_with_colours_changed(seed, pick):
    board = next(random_boards(1, seed=seed, longest=60)).copy(stack=False)
    moves = sorted(board.legal_moves, key=chess.Move.uci)
    if moves:
        check_case(board, (moves[pick % len(moves)],), over_colours)


@pytest.mark.thorough
def test_static_patterns_with_colours_changed():
    for board in random_boards(6, seed=11, longest=70):
        board = board.copy(stack=False)
        there = described(motifs.tags(board, geometric=True), over_colours)
        here = described(motifs.tags(board.mirror(), geometric=True), same)
        assert _swapped(there, over_colours) == here


@pytest.mark.thorough
@pytest.mark.parametrize("flip", [over_colours, left_to_right])
def test_examples_of_all_motifs(flip):
    for motif in motifs.MOTIFS:
        for example in motif.examples:
            board = example.board
            if flip is left_to_right and board.castling_rights:
                continue
            line = read_line(board, example.moves)
            moves = tuple(moved_by(move, flip) for move in line)
            geometric = motif.name in UNPROVED
            found = motifs.tag(changed_by(board, flip), line=moves, geometric=geometric)
            changed = {tag.motif for tag in found}
            assert (motif.name in changed) == example.shows, (motif.name, example)
