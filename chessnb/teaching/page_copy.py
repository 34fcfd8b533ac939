"""A page as plain values: what stands on it, for paper and for other places without a kernel.

A run that wants copies sets the environment variable :data:`COPIES`; each page
then carries its copy beside what it shows, as an output of the type
:data:`MIME`.  No other run makes one, so a saved lesson holds none.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

import chess
import chess.pgn

from chessnb.lessons.addresses import walk
from chessnb.teaching.paragraphs import Paragraph
from chessnb.teaching.spread import Spread, glyphs_of

COPIES = "CHESSNB_COPY_PAGES"
"""The environment variable under which pages carry copies."""

RECORDINGS = "CHESSNB_RECORD_PAGES"
"""The environment variable under which copies also hold what their live pages would say."""

MIME = "application/vnd.chessnb.page+json"
"""The type of the output that is a copy."""

_SEEN_AHEAD = ("claim", "tactic", "replies")


@dataclass(frozen=True, kw_only=True)
class Told:
    """A paragraph of a page, without what it shows on the board.

    Attributes
    ----------
    kind, head, text, known, card : str
        As of a :class:`~chessnb.teaching.paragraphs.Paragraph`.
    items : tuple of Told
        Its lines.
    """

    kind: str
    head: str
    text: str
    known: str
    card: str
    items: tuple[Told, ...] = ()


@dataclass(frozen=True, kw_only=True)
class PageCopy:
    """A page as values.

    Attributes
    ----------
    title : str
        The lesson's.
    minutes : int or None
        How long the lesson takes, if it says so.
    fen : str
        The position.
    last_move : str
        The move that led there, in UCI; empty if there was none.
    turned : bool
        Whether the board is seen from Black's side.
    caption, recalled, question : str
        As of the page's position and :class:`~chessnb.teaching.spread.Spread`.
    answer : str
        Where the class is asked for the lesson's move: that move with its
        number, and if it is a mistake, that it is not to be found; else empty.
    game : str
        The name of the position that the lesson added and that it belongs to;
        empty in the lesson's game.
    ply : int
        How many moves of either side were made before.
    ahead : int
        How many moves have to be seen ahead to find what the page proves.
    told : tuple of Told
        All that is told.
    notes : tuple of str
        What a reader must know of it.
    moves, names : tuple of str
        What a text that gives nothing away must not name: the lesson's moves
        in SAN, and its sidelines.
    players : tuple of str
        Who plays, as far as the game says so.
    recording : mapping or None
        What the live page is told and answers, where that was wanted.
    """

    title: str
    minutes: int | None
    fen: str
    last_move: str
    turned: bool
    caption: str
    recalled: str
    question: str
    answer: str
    game: str
    ply: int
    ahead: int
    told: tuple[Told, ...]
    notes: tuple[str, ...]
    moves: tuple[str, ...]
    names: tuple[str, ...]
    players: tuple[str, ...] = ()
    recording: Mapping[str, Any] | None = None

    @property
    def asks(self) -> bool:
        """Whether the class is asked something."""
        return bool(self.question)

    @property
    def words(self) -> int:
        """How many words are told."""
        return sum(map(_words_of, self.told))


def wanted() -> bool:
    """Tell whether this run wants copies."""
    return bool(os.environ.get(COPIES))


def page_copy(spread: Spread, *, turned: bool = False) -> PageCopy:
    """Return a page as values.

    Parameters
    ----------
    spread : Spread
        What stands on the page.
    turned : bool
        Whether its board is seen from Black's side.
    """
    moment = spread.moment
    lesson: Any = moment.lesson
    following = moment.next
    answer = ""
    if spread.seeks_move and following is not None:
        answer = f"{following.numbered}{glyphs_of(following.node)}"
        if spread.is_mistake:
            answer = f"not {answer}, which was played"
    if spread.asked is not None:
        answer = spread.asked.solution
    return PageCopy(
        title=lesson.title,
        minutes=lesson.minutes,
        fen=moment.fen,
        last_move=moment.move.uci() if moment.move else "",
        turned=turned,
        caption=moment.caption,
        recalled=spread.recalled,
        question=spread.question,
        answer=answer,
        game=lesson.name_of(moment.node.game()) or "",
        ply=moment.node.ply(),
        ahead=max([_ahead(one) for one in spread.told if one.kind in _SEEN_AHEAD], default=0),
        told=tuple(map(_told, spread.told)),
        notes=spread.notes,
        moves=tuple(sorted(_moves(lesson))),
        names=tuple(lesson.lines()),
        players=tuple(filter(None, (lesson.player(side) for side in chess.COLORS))),
    )


def copy_data(copy: PageCopy) -> dict[str, Any]:
    """Return a copy ready for JSON."""
    return asdict(copy)


def copy_from(data: Mapping[str, Any]) -> PageCopy:
    """Return the copy that :func:`copy_data` has written."""
    lists = {name: tuple(data[name]) for name in ("notes", "moves", "names", "players")}
    return PageCopy(**{**data, **lists, "told": _read(data["told"])})


def _read(rows: Sequence[Mapping[str, Any]]) -> tuple[Told, ...]:
    return tuple(Told(**{**row, "items": _read(row["items"])}) for row in rows)


def _told(paragraph: Paragraph) -> Told:
    return Told(
        kind=paragraph.kind,
        head=paragraph.head,
        text=paragraph.text,
        known=paragraph.known,
        card=paragraph.card,
        items=tuple(map(_told, paragraph.items)),
    )


def _ahead(paragraph: Paragraph) -> int:
    """Return how many moves of one side the longest line of a paragraph takes."""
    plies = [len(paragraph.play.moves)] if paragraph.play else []
    return (max(plies, default=0) + 1) // 2


def _moves(lesson: Any) -> set[str]:
    return {
        node.san()
        for tree in lesson.trees()
        for node in walk(tree)
        if isinstance(node, chess.pgn.ChildNode) and node.move
    }


def _words_of(told: Told) -> int:
    own = len(told.head.split()) + len(told.text.split())
    return own + sum(map(_words_of, told.items))
