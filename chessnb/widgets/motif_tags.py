"""The tactics of a move beside its board: choose one to see its evidence and play its line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import anywidget
import chess
import traitlets

from chessnb import motifs
from chessnb.board.naming import listed
from chessnb.board.position import Position
from chessnb.diagrams import diagram
from chessnb.findings import escaped, sealed, typeset
from chessnb.findings.record_fields import place_of
from chessnb.mistakes import checked
from chessnb.motifs import Tag
from chessnb.motifs.evidence import Tags
from chessnb.motifs.move_tags import case_of
from chessnb.notation import MoveLike, write_last_move, write_line
from chessnb.notation.letter_choice import piece_letters
from chessnb.proof import Gain, Mate
from chessnb.widgets.display import come_alive
from chessnb.widgets.esm import bundle, style


class MotifTags(anywidget.AnyWidget):
    """The tactics of a move or of a position, beside a board.

    Parameters
    ----------
    position : chess.Board, Moment or str
        A ``Moment``: the move that led there, in its line.  With `move`, the
        position before it.
    move : str or chess.Move, optional
        The move, where `position` is not a ``Moment``.
    geometric : bool
        Also show patterns that win nothing that is proved.
    turned : bool
        Show the board from Black's side.
    letters : str
        With which letters moves are written, as for :class:`~chessnb.LiveBoard`.
    words : mapping of str to str, optional
        Translations; the keys are those of ``frontend/words.js`` and
        ``frontend/tagwords.js``.

    Raises
    ------
    NotationError
        If the move is not legal.
    LessonError
        If there is no move to look at.

    Notes
    -----
    Costs what :func:`chessnb.motifs.tag` costs.  The saved form shows every
    tag with its own diagram.

    Examples
    --------
    >>> MotifTags("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")
    MotifTags: fork (2 points (rook for knight))
    """

    _esm = bundle("tagging.js")
    _css = style("theme.css")

    table = traitlets.Dict(help="The tags with their lines; set by Python only.").tag(sync=True)
    turned = traitlets.Bool(False, help="Whether Black's side is below.").tag(sync=True)
    words = traitlets.Dict(help="Translated words.").tag(sync=True)
    piece_letters = traitlets.Unicode("PNBRQK", help="How moves name the pieces.").tag(sync=True)

    @checked
    def __init__(
        self,
        position: Position,
        move: MoveLike | None = None,
        *,
        geometric: bool = False,
        turned: bool = False,
        letters: str = "english",
        words: Mapping[str, str] | None = None,
    ) -> None:
        case = case_of(position, move)
        self.tags: tuple[Tag, ...] = motifs.tag(position, move, geometric=geometric)
        self._before, self._move = case.before, case.move
        super().__init__(
            table=tags_data(self.tags, before=case.before, move=case.move),
            turned=turned,
            words=dict(words or {}),
            piece_letters=piece_letters(letters),
        )

    def __repr__(self) -> str:
        return f"MotifTags: {self.in_words}"

    @property
    def in_words(self) -> str:
        """The tags and what they win, in one line."""
        if not self.tags:
            return f"no tactic in {write_line(self._before, (self._move,))}"
        return "; ".join(f"{tag.motif} ({tag.gain or tag.how_known})" for tag in self.tags)

    def _still(self) -> str:
        """Return the tags as they are without scripts: each with its own diagram."""
        if not self.tags:
            after = self._before.copy(stack=False)
            after.push(self._move)
            picture = diagram(after, last_move=self._move)
            return f"{picture.img()}<p>{escaped(self.in_words[0].upper() + self.in_words[1:])}.</p>"
        return "".join(
            f"{tag.picture.img(size=280)}<p><b>{escaped(tag.motif)}.</b> "
            f"{' '.join(map(escaped, tag.paragraphs))}</p>"
            for tag in self.tags
        )

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        plain = str(Tags(self.tags, place=place_of(self._before, self._move)))
        bundle = {"text/plain": plain, "text/html": sealed(plain, typeset(self._still()))}
        return come_alive(bundle, self), {}


def tags_data(tags: Sequence[Tag], *, before: chess.Board, move: chess.Move) -> dict[str, Any]:
    """Return what a page is given of tags, ready for JSON."""
    return {
        "fen": before.fen(),
        "after": write_last_move(before),
        "move": move.uci(),
        "numbered": write_line(before, (move,)),
        "names": listed(tag.motif for tag in tags),
        "tags": [_tag(tag) for tag in tags],
    }


def _tag(tag: Tag) -> dict[str, Any]:
    line = tag.steps or (chess.Move.from_uci(tag.move),)
    return {
        "motif": tag.motif,
        "sentence": tag.sentence,
        "gain": tag.gain or "",
        "kind": _kind(tag),
        "at": _ply_shown(tag),
        "line": [move.uci() for move in line],
        "written": write_line(chess.Board(tag.before), line) if tag.before else "",
        "marks": [{"role": m.role, "square": m.square, "to": m.to} for m in tag.marks],
    }


def _kind(tag: Tag) -> str:
    """Return what a tag is proved to bring: ``"mate"``, ``"gain"``, ``"draw"``, or nothing."""
    if tag.proof is None:
        return ""
    match tag.proof.goal:
        case Mate():
            return "mate"
        case Gain():
            return "gain"
    return "draw"


def _ply_shown(tag: Tag) -> int:
    """Return how many moves of its line lead to the position that a tag's marks belong to."""
    board = chess.Board(tag.before or tag.fen)
    for ply, move in enumerate(tag.steps):
        if board.fen() == tag.fen:
            return ply
        board.push(move)
    return len(tag.steps)
