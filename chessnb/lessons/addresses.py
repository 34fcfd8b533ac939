"""Addresses: how a teacher says which position of a game is meant.

``"14. Nd5"``, ``"14... exd5"``, ``"White's 14th"``, ``"6. h3 Bh5 7. g4"``
(a path into a sideline by its moves), ``"start"``, ``"end"``.  The main line
is looked at first; what is found there is what is meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import chess
import chess.pgn

from chessnb.board.naming import number, ordinal
from chessnb.board.sides import SIDES
from chessnb.errors import AddressError, GameFileError, NotationError, as_given
from chessnb.notation.line_reader import LineLike, read_line
from chessnb.notation.move_reader import bare_move, is_move, read_move
from chessnb.notation.move_writer import write_line, write_move
from chessnb.notation.movetext import Token, tokens

_OWNED = re.compile(
    r"^(?P<side>white|black)(?:['’]s)?\s+(?P<number>\d+)(?:st|nd|rd|th)?(?:\s+move)?$"
)
_OWNED_BACK = re.compile(
    r"^(?:the\s+)?(?P<number>\d+)(?:st|nd|rd|th)?\s+move\s+(?:of|by)\s+(?P<side>white|black)$"
)


def is_address(text: str) -> bool:
    """Tell whether a text has the form of an address, so that it cannot be a name.

    Examples
    --------
    >>> is_address("14. Nd5"), is_address("White's 9th"), is_address("The greedy line")
    (True, True, False)
    """
    bare = " ".join(text.split()).lower()
    if bare in ("start", "the start", "end", "the end"):
        return True
    if _OWNED.match(bare) or _OWNED_BACK.match(bare):
        return True
    try:
        said = [token.text for token in tokens(text) if token.kind == "move"]
    except GameFileError:
        return False
    return bool(said) and all(is_move(move) for move in said)


def walk(game: chess.pgn.Game) -> Iterator[chess.pgn.ChildNode]:
    """Yield every node with a move: the main line first, then the rest in reading order."""
    main = list(game.mainline())
    yield from main
    for node in (game, *main):
        for variation in node.variations[1:]:
            yield from _subtree(variation)


def _subtree(node: chess.pgn.ChildNode) -> Iterator[chess.pgn.ChildNode]:
    pending = [node]
    while pending:
        node = pending.pop()
        yield node
        pending.extend(reversed(node.variations))


def address_of(node: chess.pgn.GameNode) -> str:
    """Return the address of a node: its move, or its path from the main line on.

    The start of a game is ``"start"``.
    """
    if not isinstance(node, chess.pgn.ChildNode):
        return "start"
    path = [node]
    while not path[0].is_mainline():
        parent = path[0].parent
        if not isinstance(parent, chess.pgn.ChildNode) or parent.is_mainline():
            break
        path.insert(0, parent)
    return write_line(path[0].parent.board(), [step.move for step in path])


def find_node(game: chess.pgn.Game, address: str) -> chess.pgn.GameNode:
    """Find the node that an address names.

    Raises
    ------
    AddressError
        If there is none, or several outside the main line; with the nearest.
    """
    text = " ".join(address.split())
    if text.lower() in ("start", "the start"):
        return game
    if text.lower() in ("end", "the end"):
        return game.end()
    if owned := _OWNED.match(text.lower()) or _OWNED_BACK.match(text.lower()):
        return _by_number(game, address, owned["side"] == "white", int(owned["number"]))
    said = _moves_said(address, text)
    first_number, black, moves = _first_number(address, said)
    found = [
        end
        for node in walk(game)
        if _numbered(node, first_number, black) and (end := _follow(node, moves)) is not None
    ]
    return _only(game, address, found, first_number, black, moves)


def follow_from(node: chess.pgn.GameNode, line: LineLike) -> chess.pgn.ChildNode:
    """Follow moves that the tree has, from a node on.

    Raises
    ------
    AddressError
        At the first move that the tree does not have; with those that it has.
    """
    said = line if isinstance(line, str) else as_given(line)
    try:
        moves = read_line(node.board(), line)
    except (NotationError, GameFileError) as error:
        raise AddressError(error.reason, address=said, nearest=_next(node)) from None
    if not moves:
        raise AddressError(_NAME_A_MOVE, address=said)
    for move in moves:
        if not node.has_variation(move):
            raise AddressError(
                f"{write_move(node.board(), move)} does not follow {address_of(node)} in this"
                " lesson.",
                address=said,
                nearest=_next(node),
            )
        node = node.variation(move)
    assert isinstance(node, chess.pgn.ChildNode)
    return node


def _next(node: chess.pgn.GameNode) -> list[str]:
    return [address_of(child) for child in node.variations]


_NAME_A_MOVE = 'name a move, such as "14. Nd5" or "14... exd5", or say "White\'s 14th"'


def _moves_said(address: str, text: str) -> list[Token]:
    try:
        said = [token for token in tokens(text) if token.kind in ("number", "move")]
    except GameFileError as error:
        raise AddressError(error.reason, address=address) from None
    moves = [token.text for token in said if token.kind == "move"]
    if not moves:
        raise AddressError(_NAME_A_MOVE, address=address)
    if not all(is_move(text) for text in moves):
        raise AddressError(
            "the lesson has no position and no sideline of that name, and it is no move.",
            address=address,
        )
    return said


def _first_number(address: str, said: Sequence[Token]) -> tuple[int | None, bool | None, list[str]]:
    """Return the move number (if said), whether it is Black's, and the moves."""
    moves = [token.text for token in said if token.kind == "move"]
    if said[0].kind != "number":
        return None, None, moves
    match = re.match(r"\d+", said[0].text)
    assert match is not None
    dots = said[0].text.count(".") + 3 * said[0].text.count("…")
    first, black = int(match.group()), dots >= 2
    _check_numbers(address, said, 2 * first + black)
    return first, black, moves


def _check_numbers(address: str, said: Sequence[Token], plies: int) -> None:
    """Refuse an address whose later numbers do not count on from its first."""
    for token in said:
        if token.kind == "move":
            plies += 1
            continue
        numbered = re.match(r"\d+", token.text)
        if numbered is not None and int(numbered.group()) != plies // 2:
            raise AddressError(
                f"the numbers do not follow each other: {token.text.strip()} stands where "
                f"move {plies // 2} is due.",
                address=address,
            )


def _numbered(node: chess.pgn.ChildNode, wanted: int | None, black: bool | None) -> bool:
    if wanted is None:
        return True
    # After Black's move it is White's turn, and `chess.WHITE` is True.
    return move_number(node) == wanted and node.turn() == black


def move_number(node: chess.pgn.ChildNode) -> int:
    """Return the number of the node's move, as the game counts."""
    return (node.ply() + 1) // 2


def _follow(node: chess.pgn.ChildNode, moves: Sequence[str]) -> chess.pgn.ChildNode | None:
    """Walk moves that exist in the tree, the first being the node's own."""
    if not _is_move(node, moves[0]):
        return None
    for text in moves[1:]:
        following = [child for child in node.variations if _is_move(child, text)]
        if not following:
            return None
        node = following[0]
    return node


def _is_move(node: chess.pgn.ChildNode, text: str) -> bool:
    if bare_move(node.san()) == bare_move(text):
        return True
    # Another notation is read only where it can mean this move: reading is dear.
    goal = chess.square_name(node.move.to_square)
    if goal not in text and text[:1] not in "O0o":
        return False
    try:
        return read_move(node.parent.board(), text) == node.move
    except NotationError:
        return False


def _by_number(game: chess.pgn.Game, address: str, white: bool, wanted: int) -> chess.pgn.ChildNode:
    for node in game.mainline():
        if move_number(node) == wanted and node.turn() != white:
            return node
    last = game.end()
    ends = f"the main line ends with {address_of(last)}" if last.parent else "it has no moves yet"
    raise AddressError(
        f"{SIDES[white]} makes no {ordinal(wanted)} move: {ends}.",
        address=address,
        nearest=[address_of(last)] if last.parent else [],
    )


def _only(
    game: chess.pgn.Game,
    address: str,
    found: list[chess.pgn.ChildNode],
    wanted: int | None,
    black: bool | None,
    moves: Sequence[str],
) -> chess.pgn.ChildNode:
    if main := [node for node in found if node.is_mainline()]:
        if len(main) > 1:
            raise AddressError(
                "this is played more than once: say the move number.",
                address=address,
                nearest=[address_of(node) for node in main],
            )
        return main[0]
    # What leaves the main line beats what stands deeper in a sideline.
    found = [node for node in found if _leaves_main_line(node, len(moves))] or found
    if len(found) == 1:
        return found[0]
    if found:
        raise AddressError(
            "several sidelines have it: say the moves that lead there.",
            address=address,
            nearest=[address_of(node) for node in found],
        )
    if len(moves) > 1 and (last := _followed_furthest(game, wanted, black, moves)) is not None:
        raise AddressError(
            f"the lesson has {address_of(last)}, but not what should follow.",
            address=address,
            nearest=[address_of(child) for child in last.variations] or [address_of(last)],
        )
    raise AddressError(
        _what_is_there(game, wanted, black, moves[0]),
        address=address,
        nearest=nearest(game, wanted, moves[-1]),
    )


def _followed_furthest(
    game: chess.pgn.Game, wanted: int | None, black: bool | None, moves: Sequence[str]
) -> chess.pgn.ChildNode | None:
    """Return the last node of the longest beginning of a path that the lesson has."""
    for length in range(len(moves) - 1, 0, -1):
        for node in walk(game):
            if _numbered(node, wanted, black):
                last = _follow(node, moves[:length])
                if last is not None:
                    return last
    return None


def _leaves_main_line(node: chess.pgn.ChildNode, steps: int) -> bool:
    """Tell whether the first of the steps that led to a node left the main line."""
    first: chess.pgn.GameNode = node
    for _ in range(steps - 1):
        first = first.parent or first
    return first.parent is not None and first.parent.is_mainline()


def _what_is_there(game: chess.pgn.Game, wanted: int | None, black: bool | None, text: str) -> str:
    """Say what the lesson has instead of the move that was looked for."""
    if wanted is None:
        return f"no move {text} is played in this lesson."
    for node in game.mainline():
        if _numbered(node, wanted, black):
            board = node.parent.board()
            there = f"{SIDES[board.turn]}'s {ordinal(wanted)} move is {number(board)} {node.san()}"
            return f"{there}{_not_even_legal(board, text)}."
    last = game.end()
    return f"the main line ends with {address_of(last)}." if last.parent else "there are no moves."


def _not_even_legal(board: chess.Board, text: str) -> str:
    try:
        read_move(board, text)
    except NotationError as error:
        return f", and {text} is not legal there ({error.reason})"
    return ""


def nearest(game: chess.pgn.Game, wanted: int | None, text: str, *, most: int = 4) -> list[str]:
    """List real addresses that come closest: the same move elsewhere, then the same number."""
    scored = []
    for order, node in enumerate(walk(game)):
        distance = 0 if wanted is None else abs(move_number(node) - wanted)
        same = bare_move(node.san()) == bare_move(text)
        same_square = chess.square_name(node.move.to_square) in text
        if same or (distance <= 1 and (same_square or wanted is not None)):
            scored.append((not same, distance, not same_square, order, address_of(node)))
    return [entry[-1] for entry in sorted(scored)[:most]]
