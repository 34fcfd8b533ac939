"""The reply table: every legal reply to a move, what it does, and the line that shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import chess

from chessnb.board.naming import to_move
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.board.squares import Square, read_square
from chessnb.diagrams import Diagram, diagram
from chessnb.findings import Finding, Record, content, escaped, gathered
from chessnb.findings.record_fields import place_of
from chessnb.lessons import Moment
from chessnb.mistakes import checked
from chessnb.notation import write_last_move, write_line, write_move
from chessnb.proof import Measure, TooWild
from chessnb.search.budget import Searching, finish
from chessnb.verdicts.depth import USUAL, Depth
from chessnb.verdicts.judge import Measures, judging_all
from chessnb.verdicts.move_verdict import Verdict

CAUTION = (
    "What is said to win or lose is proved. What is left to be taken may be meant so. "
    "Where nothing wrong was found, nobody has proved that the reply is good."
)
"""What a reader of a table must know."""


@dataclass(frozen=True, kw_only=True)
class Replies:
    """Replies that are answered alike, or one that stands alone.

    Attributes
    ----------
    verdicts : tuple of Verdict
        One or more, the best first.
    text : str
        What the row says: the reply, or ``"28 replies that do not stop Qh7#"``.
    """

    verdicts: tuple[Verdict, ...]
    text: str

    @property
    def first(self) -> Verdict:
        """The reply that stands for the row."""
        return self.verdicts[0]

    @property
    def words(self) -> str:
        """What becomes of it, as it is said to a student."""
        return self.first.words


@dataclass(frozen=True, kw_only=True)
class ReplyTable(Finding):
    """Every legal reply in a position, with its verdict.

    Attributes
    ----------
    fen : str
        The position, the side that replies to move.
    verdicts : tuple of Verdict
        One for each legal move, best first for the side that replies.
    played : chess.Move or None
        The reply that was played, where the lesson goes on.
    last_move : chess.Move or None
        The move that is replied to.
    after : str
        The same with its number (``"14. Nd5"``); empty if it is not known.
    depth : Depth
        How far was looked.
    taking : str
        The square where something may be taken, if only that was looked at; else empty.
    """

    fen: str
    verdicts: tuple[Verdict, ...]
    played: chess.Move | None = None
    last_move: chess.Move | None = None
    after: str = ""
    depth: Depth = USUAL
    taking: str = ""

    @property
    def board(self) -> chess.Board:
        """The position; a board of the caller's own."""
        return chess.Board(self.fen)

    @property
    def longest_resistance(self) -> Verdict | None:
        """The reply that holds out longest or costs least; None unless every reply is bad."""
        if self.taking or not all(verdict.is_bad for verdict in self.verdicts):
            return None
        return self.verdicts[0] if self.verdicts else None

    @property
    def rows(self) -> tuple[Replies, ...]:
        """The table's rows: replies that fail to the same answer make one."""
        groups: dict[str, list[Verdict]] = {}
        for verdict in self.verdicts:
            groups.setdefault(self._alike(verdict), []).append(verdict)
        return tuple(
            Replies(verdicts=tuple(group), text=self._row_text(alike, group))
            for alike, group in groups.items()
        )

    def _alike(self, verdict: Verdict) -> str:
        """Return what groups a reply with others: the same answer, mating at once or taking."""
        alone = verdict.move in (self.played, self._longest_move)
        if not alone and verdict.kind == "nothing":
            return "nothing"
        if alone or not verdict.is_bad or len(verdict.line) < 2:
            return verdict.move.uci()
        after = self.board
        after.push(verdict.line[0])
        answer = write_move(after, verdict.line[1])
        if verdict.kind == "mated":
            return f"mated {verdict.moves} {answer}"
        return f"loses {verdict.points} {verdict.pieces} {answer}"

    def _row_text(self, alike: str, group: Sequence[Verdict]) -> str:
        """Return what a row is called: its reply, or how many there are and what answers them."""
        first = group[0]
        if len(group) == 1:
            return write_line(first.board, (first.move,))
        answer = alike.split()[-1]
        if first.kind == "nothing":
            others = "" if len(group) == len(self.verdicts) else "other "
            return f"{len(group)} {others}replies"
        if len(group) == 2:
            one, other = (verdict.san for verdict in group)
            return f"{one} or {other}, answered by {answer}"
        if first.kind == "mated":
            return f"{len(group)} replies that do not stop {answer}"
        return f"{len(group)} replies that {answer} answers"

    @property
    def _longest_move(self) -> chess.Move | None:
        longest = self.longest_resistance
        return None if longest is None else longest.move

    @property
    def record(self) -> Record:
        """How many replies there are, and which of them come to what."""
        groups: dict[str, list[str]] = {}
        for verdict in self.verdicts:
            groups.setdefault(_field(verdict), []).append(verdict.san)
        return Record(
            place=place_of(self.board),
            kind="replies",
            fields=(
                *([f"taking {self.taking}"] if self.taking else []),
                str(len(self.verdicts)),
                *(f"{kind}: {' '.join(sorted(sans))}" for kind, sans in groups.items()),
            ),
            status=_status(self.verdicts),
        )

    @property
    def words(self) -> str:
        """How many replies there are and what becomes of them, each kind once."""
        side, count = SIDES[self.board.turn], self._count
        if not self.verdicts:
            return self._nothing
        kinds: dict[str, int] = {}
        for verdict in self.verdicts:
            kinds[verdict.words] = kinds.get(verdict.words, 0) + 1
        what = "; ".join(f"{number} {words}" for words, number in kinds.items())
        return f"{side} has {count}: {what}"

    @property
    def picture(self) -> Diagram:
        """The position, with the move that is replied to."""
        return diagram(self.board, last_move=self.last_move, caption=self.caption)

    @property
    def caption(self) -> str:
        """Which position it is: after which move, and who replies."""
        return f"{self._after}{to_move(self.board)}"

    @property
    def _after(self) -> str:
        return f"After {self.after}. " if self.after else ""

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """A sentence for each row."""
        return tuple(f"{row.text}: {row.words}. {row.first.written}" for row in self.rows)

    @property
    def card(self) -> str:
        """The picture, a sentence over the table, the table, and what a reader must know."""
        if not self.verdicts:
            return content(self._after + self.summary, picture=self.picture)
        over = content(self.caption, self.summary, picture=self.picture)
        return f"{over}{self._table_html()}<p>{CAUTION}</p>"

    def _table_html(self) -> str:
        rows = "".join(self._row_html(row) for row in self.rows)
        head = "".join(
            f"<th style='text-align:left'>{name}</th>" for name in ("reply", "verdict", "line")
        )
        return f"<table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"

    @property
    def summary(self) -> str:
        """One sentence over the table."""
        side, count = SIDES[self.board.turn], self._count
        if not self.verdicts:
            return f"{self.words}." if self.taking else f"{self.words}: there is no reply."
        bad = sum(verdict.is_bad for verdict in self.verdicts)
        if bad == len(self.verdicts) == 1:
            return f"{side} has {count}, and it fails."
        if bad == len(self.verdicts):
            return f"{side} has {count}, and every one fails."
        if self.taking and not bad:
            it = "it" if len(self.verdicts) == 1 else "them"
            return f"{side} has {count}; nothing is proved against {it}."
        return f"{side} has {count}; {bad} of them proved to fail."

    @property
    def _count(self) -> str:
        """How many replies there are, in words."""
        number = len(self.verdicts)
        if not self.taking:
            return _replies(number)
        return f"{number} {'way' if number == 1 else 'ways'} to take on {self.taking}"

    @property
    def _nothing(self) -> str:
        """What is said where there is no reply to tell of."""
        if not self.taking or not any(self.board.legal_moves):
            return to_move(self.board).removesuffix(".")
        return f"{SIDES[self.board.turn]} cannot take on {self.taking}"

    def _row_html(self, row: Replies) -> str:
        first = row.first
        notes = []
        if self.played in [verdict.move for verdict in row.verdicts]:
            notes.append("played")
        if first.move == self._longest_move and len(self.verdicts) > 1:
            notes.append("the longest resistance")
        note = f" <i>({', '.join(notes)})</i>" if notes else ""
        name = escaped(row.text) + note
        if len(row.verdicts) > 1:
            inner = "".join(f"<li>{escaped(verdict.written)}</li>" for verdict in row.verdicts)
            name = f"<details><summary>{name}</summary><ul>{inner}</ul></details>"
        cells = (name, escaped(row.words), escaped(_rest(first)))
        return (
            "<tr>" + "".join(f"<td style='text-align:left'>{cell}</td>" for cell in cells) + "</tr>"
        )


def _field(verdict: Verdict) -> str:
    """Return what a reply comes to, as a record has it."""
    match verdict.kind:
        case "mates" | "mated":
            return f"{verdict.kind} {verdict.moves}"
        case "wins" | "loses" | "offers":
            return f"{verdict.kind} {verdict.points} points"
        case "nothing":
            return "nothing found"
        case "not settled":
            return "not proved"
    return verdict.kind


def _status(verdicts: Sequence[Verdict]) -> str:
    """Return how a table is known: as its weakest verdict is."""
    kinds = {verdict.kind for verdict in verdicts}
    if "not settled" in kinds:
        return "not proved"
    if "nothing" in kinds:
        return "searched"
    return "proved" if kinds else "rules"


def _rest(verdict: Verdict) -> str:
    return verdict.written if len(verdict.line) > 1 else ""


def _replies(number: int) -> str:
    return "1 legal reply" if number == 1 else f"{number} legal replies"


@gathered
@checked
def reply_table(
    position: Position,
    *,
    taking: Square | None = None,
    mate: int = 3,
    within: int = 3,
    budget: int = 400_000,
) -> ReplyTable:
    """Go through every legal reply and say what it does.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position after the move that is replied to.
    taking : chess.Square or str, optional
        Look only at the replies that take on this square: why may it not be taken?
    mate : int
        Mates within so many moves are found, for either side.
    within : int
        Material won or lost within so many moves.
    budget : int
        Positions for each question about each reply.

    Returns
    -------
    ReplyTable
        Verdicts from the point of view of the side that replies.

    Raises
    ------
    PositionError
        If the position cannot be played on.

    Notes
    -----
    Costs half a second to two seconds for a middlegame position, compiled.
    Every reply is looked at for a while; those that are open then share twice
    the budget of one question.  A larger `budget` settles more of them.

    Examples
    --------
    >>> print(reply_table("R5k1/1p3ppp/8/8/8/8/8/4K3 b - - 0 1"))
    1... | replies | 0 | rules
    >>> print(reply_table("7k/8/8/8/8/8/6r1/7K w - - 0 1"))
    1. | replies | 1 | draw: Kxg2 | proved
    >>> print(reply_table("3r2k1/5ppp/8/8/8/8/5PPP/3Q2K1 b - - 0 1", taking="d1"))
    1... | replies | taking d1 | 1 | checkmate: Rxd1# | proved
    """
    depth = Depth(mate=mate, within=within, budget=budget)
    square = None if taking is None else read_square(taking)
    return finish(making_reply_table(position, depth=depth, taking=square))


def _measures(board: chess.Board) -> Measures | None:
    """Measure losses from what is on the board, where that is more than can be kept."""
    try:
        return Measures(loss=Measure.hold(board), gain=Measure.gain(board))
    except TooWild:
        return None


def making_reply_table(
    position: Position, *, depth: Depth = USUAL, taking: chess.Square | None = None
) -> Searching[ReplyTable]:
    """Return the search that :func:`reply_table` runs."""
    board = read_position(position)
    verdicts = yield from judging_all(board, depth=depth, measures=_measures(board), taking=taking)
    played = None
    if isinstance(position, Moment) and position.next is not None:
        played = position.next.move
    return ReplyTable(
        fen=board.fen(),
        verdicts=verdicts,
        played=played,
        last_move=board.peek() if board.move_stack else None,
        after=write_last_move(board),
        depth=depth,
        taking="" if taking is None else chess.square_name(taking),
    )
