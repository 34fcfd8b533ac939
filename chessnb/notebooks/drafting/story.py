"""The story of a game as Markdown: moves, comments, sidelines, nothing but text.

All that comes from the file is escaped: whatever it holds, it is shown and
never obeyed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import chess
import chess.pgn

from chessnb.board.naming import number
from chessnb.lessons.comments import line_name, readable
from chessnb.notation.movetext import GLYPHS
from chessnb.notebooks import escape
from chessnb.teaching.thread.choosing import place_in_game


def glyphs(node: chess.pgn.GameNode) -> str:
    """Return a move's glyphs as they are printed: ``"!?"``, ``" ±"``; unknown ones are left out."""
    signs = [GLYPHS[nag] for nag in sorted(node.nags) if nag in GLYPHS]
    return "".join(sign if set(sign) <= set("!?") else f" {sign}" for sign in signs)


class Story:
    """Tells nodes of a game one after another, as paragraphs of Markdown.

    The thread of the game, sentences by the number of their move, stands
    between the moves where the annotator says nothing.
    """

    def __init__(self, thread: Mapping[int, Sequence[str]] | None = None) -> None:
        self._thread = thread or {}
        self.paragraphs: list[str] = []
        self.count = 0
        self._moves: list[str] = []

    def tell(
        self, node: chess.pgn.ChildNode, *, comment: bool = True, sidelines: bool = True
    ) -> None:
        """Tell one move of the main line, its comment, and the sidelines that replace it.

        What a page tells of the move is left out here.
        """
        board = node.parent.board()
        self.count += 1
        if board.turn or not self._moves:
            self._moves.append(number(board))
        self._moves.append(f"{node.san()}{glyphs(node)}")
        said = readable(node.comment) if comment else ""
        others = node.parent.variations[1:] if sidelines and node.is_main_variation() else []
        if said or others:
            self.pause()
        if said:
            self.paragraphs.append(escape(said))
        elif told := self._thread.get(place_in_game(node), ()):
            self.pause()
            self.paragraphs.append(escape(" ".join(told)))
        for sideline in others:
            self.paragraphs.extend(_sideline(sideline, depth=1))

    def pause(self) -> None:
        """End the run of moves: what comes next begins with a number."""
        if self._moves:
            self.paragraphs.append(f"**{' '.join(self._moves)}**")
            self._moves = []

    @property
    def is_bare(self) -> bool:
        """Whether nothing but moves has been told so far."""
        return not self.paragraphs

    def text(self) -> str:
        """Return what has been told, as Markdown."""
        self.pause()
        return "\n\n".join(self.paragraphs)


def _sideline(start: chess.pgn.ChildNode, *, depth: int) -> Iterator[str]:
    """Tell a sideline, indented under the move that it replaces."""
    inner: list[str] = []
    words = [_opening_words(start)]
    node: chess.pgn.ChildNode | None = start
    board = start.parent.board()
    numbered = True
    while node is not None:
        if board.turn or numbered:
            words.append(number(board))
        words.append(f"{node.san()}{glyphs(node)}")
        numbered = False
        if comment := readable(node.comment):
            words.append(f"— {escape(comment)} —" if node.variations else f"— {escape(comment)}")
            numbered = True
        for variation in node.parent.variations[1:] if node.is_main_variation() else []:
            inner.extend(_sideline(variation, depth=depth + 1))
        board.push(node.move)
        node = node.next()
    yield f"{'> ' * depth}{' '.join(filter(None, words))}"
    yield from inner


def _opening_words(start: chess.pgn.ChildNode) -> str:
    name = line_name(start)
    if name is not None:
        return f"*{escape(name)}:*"
    said = readable(start.starting_comment)
    return escape(said) if said else "*Instead:*"
