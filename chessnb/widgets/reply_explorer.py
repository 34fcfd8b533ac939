"""The reply table, live: each reply's line plays on the board, and the class rules replies out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import anywidget
import traitlets

from chessnb.board.position import Position
from chessnb.lessons import Moment
from chessnb.mistakes import check_options, checked
from chessnb.notation.letter_choice import piece_letters
from chessnb.teaching.revealed_tree import key_of
from chessnb.verdicts.move_verdict import Verdict
from chessnb.verdicts.replies import Replies, ReplyTable, reply_table
from chessnb.widgets.display import come_alive
from chessnb.widgets.esm import bundle, style

_OPTIONS = ("mate", "within", "budget", "verdicts", "turned", "letters", "words")


class ReplyExplorer(anywidget.AnyWidget):
    """Every legal reply in a position, to choose, to play through, and to rule out.

    Parameters
    ----------
    position : chess.Board, Moment, str or ReplyTable
        The position after the move that is replied to, or a table made of it.
    verdicts : bool
        Show at once what becomes of each reply; else when the class asks.
    turned : bool
        Show the board from Black's side.
    letters : str
        With which letters moves are written, as for :class:`~chessnb.LiveBoard`.
    words : mapping of str to str, optional
        Translations; the keys are those of ``frontend/words.js`` and
        ``frontend/replywords.js``.
    **looked
        How far to look: ``mate``, ``within``, ``budget``, as for
        :func:`chessnb.reply_table`.

    Raises
    ------
    PositionError
        If the position cannot be played on.

    Notes
    -----
    Costs what the reply table costs.  What was ruled out is kept by the
    browser for a position of a lesson.

    Examples
    --------
    >>> ReplyExplorer("6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1", mate=1, within=1)
    ReplyExplorer('6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1')
    """

    _esm = bundle("replying.js")
    _css = style("theme.css")

    table = traitlets.Dict(help="The rows and their lines; set by Python only.").tag(sync=True)
    verdicts = traitlets.Bool(True, help="Whether verdicts are shown at once.").tag(sync=True)
    turned = traitlets.Bool(False, help="Whether Black's side is below.").tag(sync=True)
    words = traitlets.Dict(help="Translated words.").tag(sync=True)
    piece_letters = traitlets.Unicode("PNBRQK", help="How moves name the pieces.").tag(sync=True)

    @checked
    def __init__(
        self,
        position: Position | ReplyTable,
        *,
        verdicts: bool = True,
        turned: bool = False,
        letters: str = "english",
        words: Mapping[str, str] | None = None,
        **looked: int,
    ) -> None:
        check_options("ReplyExplorer", looked, _OPTIONS)
        if isinstance(position, ReplyTable):
            self.reply_table = position
        else:
            self.reply_table = reply_table(position, **looked)
        key = key_of(position.lesson) if isinstance(position, Moment) else ""
        super().__init__(
            table=table_data(self.reply_table, key=key),
            verdicts=verdicts,
            turned=turned,
            words=dict(words or {}),
            piece_letters=piece_letters(letters),
        )

    def __repr__(self) -> str:
        return f"ReplyExplorer({self.reply_table.fen!r})"

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        """Show the table as it is without scripts, and the live one over it."""
        return come_alive(self.reply_table._repr_mimebundle_(), self), {}


def table_data(table: ReplyTable, *, key: str = "") -> dict[str, Any]:
    """Return what a page is given of a reply table, ready for JSON."""
    return {
        "key": key,
        "fen": table.fen,
        "last": table.last_move.uci() if table.last_move else "",
        "after": table.after,
        "summary": table.summary,
        "rows": [_row(table, row) for row in table.rows],
    }


def _row(table: ReplyTable, row: Replies) -> dict[str, Any]:
    first = row.first
    return {
        "text": row.text,
        "words": row.words,
        "played": any(verdict.move == table.played for verdict in row.verdicts),
        "longest": first is table.longest_resistance and len(table.verdicts) > 1,
        "replies": [_reply(verdict) for verdict in row.verdicts],
    }


def _reply(verdict: Verdict) -> dict[str, Any]:
    return {
        "san": verdict.san,
        "words": verdict.words,
        "bad": verdict.is_bad,
        "line": [move.uci() for move in verdict.line],
        "written": verdict.written,
    }
