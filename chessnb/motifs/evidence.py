"""A motif tag: a named tactic on a move or in a position, with what shows it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import chess

from chessnb.board.naming import counted, the_piece
from chessnb.board.points import balance
from chessnb.board.turns import moved
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.findings import Finding, Record, content, sealed, typeset
from chessnb.findings.proof_lines import what_went
from chessnb.findings.record import NOWHERE
from chessnb.findings.record_fields import piece_on, place_of, side_word
from chessnb.notation import write_line
from chessnb.proof import Gain, Mate, Proof, Stalemate


@dataclass(frozen=True, kw_only=True)
class Tag(Finding):
    """A tactic, where it is, and what it wins.

    Attributes
    ----------
    motif : str
        Its name, the trade's.
    fen : str
        The position that shows it: after the move, or the position itself.
    side : chess.Color
        The side that uses it.
    ply : int
        Which move of the line: 1 for the move that was asked about, 0 for a
        static pattern.
    actor : str
        The square of the piece that acts.
    targets : tuple of str
        The squares of what it aims at.
    squares : tuple of str
        The squares or lines that carry it: between, behind, cleared, lured to.
    sentence : str
        What happens, as a teacher says it, without the full stop.
    marks : tuple of Mark
        How it is drawn.
    move : str
        UCI of the move that was asked about; empty for a static pattern.
    shown : tuple of chess.Move
        The line that shows it, from the position before the move.
    before : str
        FEN of the position before the move; empty for a static pattern.
    proof : Proof or None
        What it wins, replayed by the checker; None: the pattern is on the
        board and wins nothing that was proved ("geometric").
    as_played : bool
        Whether nothing is proved of it, but the line that followed completes it.
    fact : bool
        Whether it is a pawn or square fact, and no tactic.
    unproved : str
        What is said of it where nothing is proved to be won.
    """

    motif: str
    fen: str
    side: chess.Color
    ply: int = 1
    actor: str
    targets: tuple[str, ...] = ()
    squares: tuple[str, ...] = ()
    sentence: str
    marks: tuple[Mark, ...] = ()
    move: str = ""
    shown: tuple[chess.Move, ...] = ()
    before: str = ""
    proof: Proof | None = None
    as_played: bool = False
    fact: bool = False
    unproved: str = "The pattern is on the board; nothing is proved to be won by it."

    @property
    def sound(self) -> bool:
        """Whether it is proved to win something."""
        return self.proof is not None

    @property
    def gain(self) -> str | None:
        """What it wins by force, in words; None for a geometric tag."""
        if self.proof is None:
            return None
        goal = self.proof.goal
        if isinstance(goal, Mate) or _is_mate(self.proof):
            return f"mate in {self.proof.moves}"
        return self._material(goal) if isinstance(goal, Gain) else goal.words

    def _material(self, goal: Gain) -> str:
        """Say what is won: the pieces are those of the line that is shown."""
        assert self.proof is not None
        points, before = counted(goal.points, "point"), self.proof.board
        after = moved(before, self.steps)
        if after.is_checkmate():
            return f"mate, or at least {points}"
        won = balance(after, self.side) - balance(before, self.side)
        if won == goal.points and _promotes(before, self.steps, not self.side):
            return points  # what became of the other side's pawn is no piece that was given
        if won == goal.points:
            return f"{points} ({what_went(before, self.steps, self.side)})"
        if won == goal.points + goal.baseline - balance(before, self.side):
            return self._counted_before(goal) or f"{points} beyond what could be taken at once"
        return f"at least {points}"

    def _counted_before(self, goal: Gain) -> str:
        """Say what is won with the captures just before the move, if it is counted from there."""
        start = chess.Board(goal.measure.fen)
        made = tuple(chess.Move.from_uci(text) for text in goal.measure.moves)
        line = (*made, *self.steps)
        won = balance(moved(start, line), self.side) - balance(start, self.side)
        if not made or won != goal.points or _promotes(start, line, not self.side):
            return ""
        pieces = what_went(start, line, self.side)
        return f"{counted(goal.points, 'point')} ({pieces}, counting {write_line(start, made)})"

    @property
    def record(self) -> Record:
        """The motif, what acts on what, and what is proved to be won.

        Where it shows only in the line that follows, the pieces are left out:
        another line may show it as well.
        """
        board = chess.Board(self.before or self.fen)
        return Record(
            place=place_of(board, chess.Move.from_uci(self.move) if self.move else None),
            kind="pattern" if self.fact else "tactic",
            fields=tuple(self._fields()),
            status="rules" if self.proof is None else "proved",
        )

    def _fields(self) -> Iterator[str]:
        yield self.motif
        if not self.move:
            yield side_word(self.side)
        if self.ply <= 1:
            there = chess.Board(self.fen)
            actor = piece_on(there, chess.parse_square(self.actor))
            targets = [piece_on(there, chess.parse_square(square)) for square in self.targets]
            if self.actor not in self.targets:
                yield f"by {actor}"
            if targets:
                yield f"on {' '.join(targets)}"
        if self.proof is not None:
            yield _won(self.proof)

    @property
    def words(self) -> str:
        """The motif, its sentence, and what it wins."""
        if self.fact:
            return f"{self.motif}: {self.sentence}"
        return f"{self.motif}: {self.sentence} ({self.gain or self.how_known})"

    @property
    def how_known(self) -> str:
        """How it is known where nothing is proved to be won, in a word or two."""
        return "as played" if self.as_played else "geometric"

    @property
    def picture(self) -> Diagram:
        """The position, with the tactic drawn on it."""
        return diagram(self.fen, marks=self.marks, last_move=self._last_move)

    @property
    def _last_move(self) -> chess.Move | None:
        """The move of the line that led to the position shown."""
        board = chess.Board(self.before or self.fen)
        for move in self.shown:
            board.push(move)
            if board.fen() == self.fen:
                return move
        return None

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """The sentence, what it wins, and the line."""
        told = [f"{self.sentence}."]
        if self.fact:
            return tuple(told)
        if self.proof is not None:
            told.append(f"{self._wins}: {write_line(self.proof.board, self.steps)}.")
        elif self.as_played:
            line = write_line(chess.Board(self.before), self.shown)
            told.append(f"As it was played: {line}.")
        else:
            told.append(self.unproved)
        return tuple(told)

    @property
    def _wins(self) -> str:
        """What it wins, as the beginning of a sentence."""
        assert self.proof is not None
        goal, gain = self.proof.goal, str(self.gain)
        if isinstance(goal, Mate) or _is_mate(self.proof):
            return f"It mates in {self.proof.moves}" if self.proof.moves > 1 else "It mates"
        if not isinstance(goal, Gain):
            return f"It forces {gain}"
        if gain.startswith("mate"):
            return f"It leads to mate, or wins{gain.removeprefix('mate, or')}"
        return f"It wins {gain}"

    @property
    def steps(self) -> tuple[chess.Move, ...]:
        """The moves that show it, from the position before the move."""
        if self.shown or self.proof is None:
            return self.shown
        return self.proof.main_line


def _promotes(board: chess.Board, line: Sequence[chess.Move], side: chess.Color) -> bool:
    """Tell whether a side promotes in a line."""
    own = line[::2] if board.turn == side else line[1::2]
    return any(move.promotion for move in own)


def _is_mate(proof: Proof) -> bool:
    """Tell whether a proof of material leaves even the best defence nothing but mate."""
    return isinstance(proof.goal, Gain) and proof.mates


def _won(proof: Proof) -> str:
    """Return what is proved to be won, as a record has it."""
    if _is_mate(proof):
        return f"mate {proof.moves}"
    match proof.goal:
        case Mate():
            return f"mate {proof.moves}"
        case Gain(points=points):
            return f"{points} points"
        case Stalemate():
            return f"stalemate {proof.moves}"
    return "perpetual"


class Tags(tuple[Tag, ...]):
    """Tags, as a cell shows them: a record and a picture for each.

    Attributes
    ----------
    place : str
        Where they were looked for, as a record has it.
    """

    place: str

    def __new__(cls, tags: Iterable[Tag] = (), *, place: str = NOWHERE) -> Tags:
        """Make one of any tags, or of none."""
        made = super().__new__(cls, tags)
        made.place = place
        return made

    def named(self, motif: str) -> Tags:
        """Return those of one motif."""
        return Tags((tag for tag in self if tag.motif == motif), place=self.place)

    @property
    def records(self) -> tuple[Record, ...]:
        """A record for each tag; or one that says that there is none."""
        none = Record(place=self.place, kind="tactic", fields=("none",), status="searched")
        return tuple(tag.record for tag in self) or (none,)

    @property
    def card(self) -> str:
        """What the card shows, as HTML: that of each tag, or that there is none."""
        return "".join(tag.card for tag in self) or content("No tactic.")

    def __str__(self) -> str:
        return "\n".join(map(str, self.records))

    def _repr_html_(self) -> str:
        return sealed(str(self), typeset(self.card))

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": str(self), "text/html": self._repr_html_()}

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        # IPython prints every tuple in its own way, whatever the bundle says.
        printer.text(str(self))


# -- for the modules that find tactics -----------------------------------------


def ring(square: chess.Square) -> Mark:
    """Mark the piece that acts."""
    return Mark(role="actor", square=chess.square_name(square))


def ticks(square: chess.Square) -> Mark:
    """Mark a target."""
    return Mark(role="target", square=chess.square_name(square))


def force(start: chess.Square, end: chess.Square) -> Mark:
    """Mark a line of force."""
    return Mark(role="force", square=chess.square_name(start), to=chess.square_name(end))


def dashes(start: chess.Square, end: chess.Square) -> Mark:
    """Mark a line that is pinned, blocked, or seen through."""
    return Mark(role="blocked", square=chess.square_name(start), to=chess.square_name(end))


def dots(square: chess.Square) -> Mark:
    """Mark a square that was cleared, or that a piece was lured to."""
    return Mark(role="lure", square=chess.square_name(square))


def the(board: chess.Board, square: chess.Square) -> str:
    """Name the piece on a square: ``"the knight on c6"``."""
    return the_piece(board, square)


def The(board: chess.Board, square: chess.Square) -> str:  # noqa: N802 (a capital begins a sentence)
    """Name the piece on a square at the beginning of a sentence."""
    words = the_piece(board, square)
    return words[0].upper() + words[1:]


def static_tag(
    motif: str,
    board: chess.Board,
    *,
    side: chess.Color,
    actor: chess.Square,
    targets: Sequence[chess.Square] = (),
    squares: Sequence[chess.Square] = (),
    sentence: str,
    marks: Sequence[Mark] = (),
) -> Tag:
    """Make a tag of a pattern on the board; what it wins is asked later."""
    return Tag(
        motif=motif,
        fen=board.fen(),
        side=side,
        ply=0,
        actor=chess.square_name(actor),
        targets=tuple(chess.square_name(square) for square in targets),
        squares=tuple(chess.square_name(square) for square in squares),
        sentence=sentence,
        marks=tuple(marks),
    )
