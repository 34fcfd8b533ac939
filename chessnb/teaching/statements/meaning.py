"""Of whom and what a part of a sentence speaks: sides, moves, pieces, and the position."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import chess

from chessnb.lessons import Moment
from chessnb.teaching.statements.language import Language, Pattern
from chessnb.teaching.statements.mentions import PieceNamed, Slotted
from chessnb.teaching.statements.places import Named, after, board_of
from chessnb.teaching.statements.statement import Ground, Statement

WORDS = {
    "K": "king",
    "Q": "queen",
    "R": "rook",
    "B": "bishop",
    "N": "knight",
    "P": "pawn",
    "m": "piece",
    "x": "exchange",
    "*": "material",
}
"""What is won or lost, by its letter."""

_NO_SUBJECT = re.compile(r"(?:to|by|against|of|on|for|with|from|and|the) $")


class Unclear(Exception):  # noqa: N818 (never seen by a teacher)
    """What is meant is not clear; nothing is read."""


@dataclass(frozen=True, kw_only=True)
class Actor:
    """Who does something, and with which move."""

    side: chess.Color
    at: Ground
    named: Named | None = None
    played: bool = False


@dataclass(kw_only=True)
class Meaning:
    """A match of a pattern in its sentence, and what its parts mean."""

    said: str
    slots: Slotted
    match: re.Match[str]
    pattern: Pattern
    moment: Moment
    language: Language
    side_before: chess.Color | None
    piece_before: PieceNamed | None

    # -- what stands in the groups ------------------------------------------------

    @cached_property
    def groups(self) -> dict[str, str]:
        """What the groups hold, without those that are empty."""
        found: dict[str, str] = {}
        for name, text in self.match.groupdict().items():
            if text:
                found.setdefault(name.partition("_")[0], text)
        return found

    def meant(self, group: str) -> Any:
        """Return what stands in a group's slot; None if the group is empty or not there."""
        slot = self._slot(group)
        return None if slot is None else self.slots.meant[int(slot[1:])]

    def sort(self, group: str) -> str:
        """Return the letter of a group's slot; empty if there is none."""
        return (self._slot(group) or "")[:1]

    def has(self, group: str) -> bool:
        """Tell whether a group is there and holds something."""
        return group in self.groups

    def _slot(self, group: str) -> str | None:
        return self.groups.get(group)

    def text(self, group: str) -> str:
        """Return the text of a group, its words put back."""
        return self.slots.unslotted(self.groups.get(group, "")).strip()

    def word(self, group: str) -> str:
        """Return the text of a group as the rest of the package calls it."""
        text = self.text(group).lower().strip(" ,")
        return self.language.meanings.get(text, text)

    def in_english(self, text: str) -> str:
        """Return pieces in a text by their English names, articles left out."""
        found = []
        for slot in re.findall(r"⟦[A-Z](\d+)⟧", text):
            meant = self.slots.meant[int(slot)]
            if isinstance(meant, PieceNamed):
                found.append(WORDS[meant.letter])
            else:
                found.append(self.slots.words[int(slot)])
        return " ".join(found)

    @property
    def negated(self) -> bool:
        """Whether it is denied."""
        return self.has("not") or bool(self.pattern.fixed.get("negated"))

    def number(self, *groups: str) -> int | None:
        """Return the number of the first group that holds one."""
        for group in groups:
            if isinstance(found := self.meant(group), int) and not isinstance(found, bool):
                return found
        fixed = self.pattern.fixed.get("number")
        return fixed if isinstance(fixed, int) and "N" in groups else None

    # -- the position -------------------------------------------------------------

    @cached_property
    def played(self) -> Named | None:
        """The move that the text is a comment on."""
        back, move = self.moment.back, self.moment.move
        return None if back is None or move is None else Named(at=back, move=move, line=())

    @cached_property
    def led(self) -> Named | None:
        """The last move that the sentence names before this part, or in "after …" behind it."""
        form = self.slots.form
        tail = re.match(
            rf"[ ,]*(?:{self.language.given})(?P<moves>(?: (?:⟦M\d+⟧|and|then|,))+)",
            form[self.match.end() :],
        )
        if tail and (slots := re.findall(r"⟦M(\d+)⟧", tail["moves"])):
            return self._named(int(slots[-1]))
        before = self.slots.slots("M", end=self.match.start())
        return self._named(before[-1][0]) if before else None

    def _named(self, slot: int) -> Named | None:
        found = self.slots.meant[slot]
        return found if isinstance(found, Named) else None

    @cached_property
    def led_is_given(self) -> bool:
        """Whether the sentence leads to the position after that move: "if 25. Qxa4, …"."""
        led = self.led
        if led is None:
            return False
        moves = self.slots.slots("M", end=self.match.start())
        form = self.slots.form
        if not moves or self.slots.meant[moves[-1][0]] is not led:
            return True  # it stands behind
        first = moves[0][1]
        if re.search(rf"(?:{self.language.given})\s*(?:⟦S\d+⟧ (?:\w+ )?)?$", form[:first]):
            return True
        return len(led.line) > 1

    @cached_property
    def ground(self) -> Ground:
        """The position that this part speaks of, where it names no move itself."""
        if re.search(self.language.before, self.slots.form):
            if self.moment.back is None:
                raise Unclear
            return self.moment.back
        led = self.led
        if led is None or self.is_played(led):
            return self.moment
        if led.passed:
            raise Unclear
        if self.led_is_given:
            return led.after
        raise Unclear

    @property
    def board(self) -> chess.Board:
        """A board of that position."""
        return board_of(self.ground)

    def is_played(self, named: Named | None) -> bool:
        """Tell whether a move is the one that the text is a comment on."""
        played = self.played
        return (
            played is not None
            and named is not None
            and named.at == played.at
            and named.move == played.move
        )

    # -- who does it ---------------------------------------------------------------

    def side(self, group: str = "S") -> chess.Color | None:
        """Return the side of a group; for a pronoun the side that was named last, if any was."""
        if self.sort(group) != "S":
            return None
        found = self.meant(group)
        if isinstance(found, bool):
            return found
        named = [
            self.slots.meant[slot] for slot, _ in self.slots.slots("S", end=self.match.start())
        ]
        sides = {side for side in named if isinstance(side, bool)}
        if len(sides) == 1:
            return sides.pop()
        return None if sides else self.side_before

    @cached_property
    def actor(self) -> Actor:
        """Who does it, and with which move."""
        named = self.meant("M") if self.sort("M") == "M" else None
        if named is None and self.sort("any") == "M":
            named = self.meant("any")
        side = self.side("S") if self.has("S") else self.side("any")
        if isinstance(named, Named):
            if named.passed or side not in (None, named.mover):
                raise Unclear
            return self.with_move(named)
        if self.sort("any") == "P":
            return self._by_piece(self.meant("any"))
        if self.has("S") or self.sort("any") == "S":
            return self.of_side(side)
        return self.of_it()

    def with_move(self, named: Named) -> Actor:
        """Return the side that makes a move as the actor."""
        return Actor(side=named.mover, at=named.at, named=named, played=self.is_played(named))

    def of_side(self, side: chess.Color | None) -> Actor:
        """Return a side as the actor: by the move that leads here, where that is its own."""
        led = self.led or self.played
        if side is None:
            if led is None:
                raise Unclear
            return self.with_move(led)
        if led is not None and led.mover == side and not led.passed:
            return self.with_move(led)
        return Actor(side=side, at=self.ground)

    def of_it(self) -> Actor:
        """Return the move that the sentence is about as the actor."""
        led = self.led
        if led is None:
            led = self.played
        elif led.passed:
            raise Unclear
        if led is None:
            return Actor(side=self.board.turn, at=self.ground)
        return self.with_move(led)

    def _by_piece(self, piece: PieceNamed) -> Actor:
        """Return the move of a piece that has just moved, else its side."""
        led = self.led or self.played
        if led is not None and not led.passed and moves_it(piece, led):
            return self.with_move(led)
        if led is not None and led.mover != self.board.turn and not piece.where:
            raise Unclear
        sides = {board_of(self.ground).color_at(square) for square in self.squares(piece)}
        if len(sides) != 1:
            raise Unclear
        return Actor(side=bool(sides.pop()), at=self.ground)

    # -- which piece ----------------------------------------------------------------

    def squares(
        self,
        piece: PieceNamed,
        *,
        side: chess.Color | None = None,
        board: chess.Board | None = None,
    ) -> list[chess.Square]:
        """Return where a piece that is named may stand."""
        board = self.board if board is None else board
        side = piece.side if piece.side is not None else side
        kinds = _kinds(piece)
        return [
            square
            for square in chess.scan_forward(board.occupied)
            if board.piece_type_at(square) in kinds
            and side in (None, board.color_at(square))
            and chess.square_name(square).startswith(piece.where)
        ]

    def one_of(
        self,
        piece: PieceNamed,
        *,
        side: chess.Color | None = None,
        board: chess.Board | None = None,
    ) -> tuple[str, ...]:
        """Return the names of the pieces that may be meant; the one that has just moved, if it is.

        Raises
        ------
        Unclear
            If there is none.
        """
        board = self.board if board is None else board
        found = self.squares(piece, side=side, board=board)
        if len(found) > 1 and board.move_stack and board.peek().to_square in found:
            found = [board.peek().to_square]
        if not found:
            raise Unclear
        return names_of(board, found)

    def subject_piece(self) -> PieceNamed | None:
        """Return the piece that "it" means: the subject before, here or in the sentence before."""
        form = self.slots.form
        for slot, at in reversed(self.slots.slots("P", end=self.match.start())):
            meant = self.slots.meant[slot]
            if isinstance(meant, PieceNamed) and not _NO_SUBJECT.search(form[:at]):
                return meant
        return self.piece_before

    # -- the statement ----------------------------------------------------------------

    def made(self, *, at: Ground, **parts: Any) -> Statement:
        """Return the statement with its parts."""
        line: tuple[chess.Move, ...] = ()
        if not isinstance(at, Moment):
            line = tuple(at.move_stack)[len(self.moment.board.move_stack) :]
        return replace(
            Statement(
                kind=self.pattern.kind, sentence=self.said, at=at, negated=self.negated, line=line
            ),
            **parts,
        )

    def by(self, actor: Actor, **parts: Any) -> Statement:
        """Return the statement about what somebody does."""
        move = actor.named.move if actor.named else None
        return self.made(at=actor.at, side=actor.side, move=move, played=actor.played, **parts)


def _kinds(piece: PieceNamed) -> tuple[chess.PieceType, ...]:
    """Return the kinds that a name may mean: a "piece" on a square is any."""
    if piece.letter == "m":
        return tuple(chess.PIECE_TYPES) if piece.where else (chess.KNIGHT, chess.BISHOP)
    if piece.letter in "PNBRQK":
        return (chess.PIECE_SYMBOLS.index(piece.letter.lower()),)
    return ()


def moves_it(piece: PieceNamed, named: Named) -> bool:
    """Tell whether a move is one of a piece that is named."""
    board = board_of(named.at)
    moved = board.piece_at(named.move.from_square)
    squares = [chess.square_name(one) for one in (named.move.to_square, named.move.from_square)]
    return (
        moved is not None
        and (moved.symbol().upper() == piece.letter or piece.letter == "m")
        and piece.side in (None, moved.color)
        and any(square.startswith(piece.where) for square in squares)
    )


def names_of(board: chess.Board, squares: Iterable[chess.Square]) -> tuple[str, ...]:
    """Return pieces by letter and square: ``Nc6``."""
    return tuple(
        f"{piece.symbol().upper()}{chess.square_name(square)}"
        for square in squares
        if (piece := board.piece_at(square)) is not None
    )


__all__ = ["WORDS", "Actor", "Meaning", "Unclear", "after", "moves_it", "names_of"]
