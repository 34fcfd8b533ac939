"""A proof as a reader meets it: what was won, lettered lines, variations of a game."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import chess
import chess.pgn

from chessnb.board.naming import NUMBERS, listed
from chessnb.board.points import POINTS
from chessnb.notation import write_line, write_move
from chessnb.proof.certificate import Proof

_DEAREST_FIRST = sorted(POINTS, key=lambda kind: (-POINTS[kind], -kind))


def what_went(board: chess.Board, line: Iterable[chess.Move], side: chess.Color) -> str:
    """Name what a side won in a line, and for what, from the pieces that really went.

    Pieces of one kind that both sides lost are left out; a bishop cancels a knight.

    Parameters
    ----------
    board : chess.Board
        The position before the line.
    line : iterable of chess.Move
        Legal moves.
    side : chess.Color
        Whose gain it is.

    Returns
    -------
    str
        ``"a rook"``, ``"rook for bishop"``, ``"queen for two rooks"``,
        ``"a pawn and a new queen"``; empty if the side won nothing.

    Examples
    --------
    >>> line = [chess.Move.from_uci(text) for text in ("e5e8", "d8e8")]
    >>> what_went(chess.Board("3rr1k1/8/8/4Q3/8/8/8/6K1 w - - 0 1"), line, chess.BLACK)
    'queen for rook'
    """
    won, given, promoted = _taken(board, line, side)
    _cancel(won, given)
    gains = list(_pieces(won))
    if not given and promoted:
        gains += [f"a new {chess.piece_name(kind)}" for kind in promoted]
        promoted = []
    if not gains:
        return ""
    if not given:
        return listed(gains)
    words = f"{listed(_bare(won))} for {listed(_bare(given))}"
    extra = [f"a new {chess.piece_name(kind)}" for kind in promoted]
    return listed([words, *extra])


def _taken(
    board: chess.Board, line: Iterable[chess.Move], side: chess.Color
) -> tuple[Counter[int], Counter[int], list[int]]:
    """Return what a side took, what it lost, and what its pawns became and still are."""
    board = board.copy(stack=False)
    taken: dict[chess.Color, Counter[int]] = {side: Counter(), not side: Counter()}
    promoted: dict[chess.Square, int] = {}
    for move in line:
        if board.is_capture(move):
            if move.to_square in promoted and board.turn != side:
                taken[board.turn][chess.PAWN] += 1
                del promoted[move.to_square]
            else:
                taken[board.turn][board.piece_type_at(move.to_square) or chess.PAWN] += 1
        if move.from_square in promoted and board.turn == side:
            promoted[move.to_square] = promoted.pop(move.from_square)
        if move.promotion and board.turn == side:
            promoted[move.to_square] = move.promotion
        board.push(move)
    return taken[side], taken[not side], sorted(promoted.values(), reverse=True)


def _cancel(won: Counter[int], given: Counter[int]) -> None:
    pairs = [(kind, kind) for kind in POINTS]
    pairs += [(chess.BISHOP, chess.KNIGHT), (chess.KNIGHT, chess.BISHOP)]
    for ours, theirs in pairs:
        both = min(won[ours], given[theirs])
        won[ours] -= both
        given[theirs] -= both
    for counts in (won, given):
        for kind in list(counts):
            if not counts[kind]:
                del counts[kind]


def _pieces(counts: Counter[int]) -> Iterator[str]:
    for kind in _DEAREST_FIRST:
        if counts[kind]:
            name = chess.piece_name(kind)
            yield f"a {name}" if counts[kind] == 1 else f"{NUMBERS[counts[kind]]} {name}s"


def _bare(counts: Counter[int]) -> Iterator[str]:
    for kind in _DEAREST_FIRST:
        if counts[kind]:
            name = chess.piece_name(kind)
            yield name if counts[kind] == 1 else f"{NUMBERS[counts[kind]]} {name}s"


@dataclass(frozen=True, kw_only=True)
class LetteredLine:
    """One of the lines of a proof: replies that are answered alike, and how.

    Attributes
    ----------
    letter : str
        ``"a"``, ``"b"``, … ``"z"``, ``"aa"``.
    replies : tuple of chess.Move
        The defender's replies that this line covers, one or more.
    line : tuple of chess.Move
        The first of the replies, the answer, and the longest resistance.
    text : str
        The line as it is printed, or the words for a group.
    """

    letter: str
    replies: tuple[chess.Move, ...]
    line: tuple[chess.Move, ...]
    text: str

    def __str__(self) -> str:
        return f"{self.letter}) {self.text}"


def lettered(proof: Proof) -> tuple[LetteredLine, ...]:
    """Return the lines of a proof, one for each reply, longest first; like answers are grouped.

    Replies after which the same move mates at once make one line: ``"28
    replies that do not stop Qh7#"``.
    """
    board = proof.board
    first = [proof.key] if proof.key else []
    for move in first:
        board.push(move)
    groups: dict[str, list[tuple[chess.Move, ...]]] = {}
    for reply, _ in proof.nodes[0].replies:
        move = chess.Move.from_uci(reply)
        line = (move, *proof.line_from((*first, move)))
        groups.setdefault(_answer_alike(board, line), []).append(line)
    ordered = sorted(groups.items(), key=lambda group: (len(group[1]) > 1, -len(group[1][0])))
    return tuple(
        LetteredLine(
            letter=letter(number),
            replies=tuple(line[0] for line in lines),
            line=lines[0],
            text=_text(board, alike, lines),
        )
        for number, (alike, lines) in enumerate(ordered)
    )


def _answer_alike(board: chess.Board, line: Sequence[chess.Move]) -> str:
    """Return what groups a line with others: the mate that follows at once, else the line."""
    if len(line) == 2:
        after = board.copy(stack=False)
        after.push(line[0])
        return write_move(after, line[1])
    return write_line(board, line)


def _text(board: chess.Board, alike: str, lines: Sequence[Sequence[chess.Move]]) -> str:
    if len(lines) == 1:
        return write_line(board, lines[0])
    if len(lines) <= 3:
        replies = listed((write_line(board, line[:1]) for line in lines), joint="or")
        return f"{replies}, answered by {alike}"
    return f"{len(lines)} replies that do not stop {alike}"


def letter(number: int) -> str:
    """Return the letter of a line: 0 is ``"a"``, 25 ``"z"``, 26 ``"aa"``.

    Examples
    --------
    >>> letter(0), letter(25), letter(26), letter(701)
    ('a', 'z', 'aa', 'zz')
    """
    letters = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("a") + rest) + letters
    return letters


def add_variations(node: chess.pgn.GameNode, proof: Proof, *, most: int = 200) -> int:
    """Write a proof into a game as variations of a node that shows its position.

    Parameters
    ----------
    node : chess.pgn.GameNode
        The node after which the proof begins.
    proof : Proof
        The proof; its longest resistance comes first.
    most : int
        So many moves are added at most; the longest lines are kept whole.

    Returns
    -------
    int
        How many moves were added.
    """
    added = 0
    for line in _all_lines(proof):
        at = node
        for move in line:
            if at.has_variation(move):
                at = at.variation(move)
            elif added < most:
                at = at.add_variation(move)
                added += 1
            else:
                return added
    return added


def _all_lines(proof: Proof) -> Iterator[tuple[chess.Move, ...]]:
    """Yield the main line, then for every reply in the proof the line that answers it."""
    yield proof.main_line
    waiting: list[tuple[int, tuple[chess.Move, ...]]] = [(0, ())]
    seen = {0}
    while waiting:
        index, moves = waiting.pop(0)
        node = proof.nodes[index]
        if node.move:
            moves = (*moves, chess.Move.from_uci(node.move))
        for reply, child in () if node.stands else node.replies:
            after = (*moves, chess.Move.from_uci(reply))
            yield (*after, *proof.line_from(after))
            if child not in seen:
                seen.add(child)
                waiting.append((child, after))
