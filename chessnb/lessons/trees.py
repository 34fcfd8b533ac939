"""What a lesson holds: the trees of a game and of positions, and what is said of them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import chess
import chess.pgn

from chessnb.board.sides import SIDES, Side, read_side
from chessnb.lessons.about import About, check, title_of
from chessnb.lessons.comments import spoken_name
from chessnb.lessons.game_files import unescape_tag
from chessnb.mistakes import checked


class Trees:
    """A game's tree and the trees of positions, with title, level, goals and length.

    Parameters
    ----------
    game, title, level, goals, minutes
        As for :class:`chessnb.Lesson`, which adds addresses, sidelines and saving.

    Attributes
    ----------
    positions : dict of str to chess.pgn.Game
        The trees of positions, by their names.
    path : Path or None
        The file that it was read from.
    """

    @checked
    def __init__(
        self,
        game: chess.pgn.Game | None = None,
        *,
        title: str | None = None,
        level: str | None = None,
        goals: Sequence[str] | None = None,
        minutes: int | None = None,
    ) -> None:
        self.game = game
        self.positions: dict[str, chess.pgn.Game] = {}
        self.path: Path | None = None
        self._number = 1  # of its game in the file
        check(goals=goals, minutes=minutes)
        said = About.of({} if game is None else game.headers)
        self.title = title or said.title or title_of(game)
        self.level = level or said.level
        self.goals = said.goals if goals is None else tuple(goals)
        self.minutes = said.minutes if minutes is None else minutes

    @property
    def _about(self) -> About:
        return About(
            title=self.title if self.title != title_of(self.game) else "",
            level=self.level,
            goals=self.goals,
            minutes=self.minutes,
        )

    def trees(self) -> list[chess.pgn.Game]:
        """Return all trees: the game's, if there is one, then those of the positions."""
        return [*([self.game] if self.game is not None else []), *self.positions.values()]

    def name_of(self, game: chess.pgn.Game) -> str | None:
        """Return the name of the position whose tree this is; ``None`` for the game's."""
        return next((name for name, tree in self.positions.items() if tree is game), None)

    def header(self, name: str) -> str:
        """Return a header of the game as plain text; empty if unknown (``?``) or missing."""
        if self.game is None:
            return ""
        value = unescape_tag(self.game.headers.get(name, "")).strip()
        return "" if set(value) <= set("?.") else value

    @property
    def players(self) -> str:
        """The players, ``"Quill – Marsh"``; empty if the game names none."""
        names = [spoken_name(self.header(name)) for name in SIDES.values()]
        return " – ".join(name or "?" for name in names) if any(names) else ""

    @checked
    def player(self, side: Side) -> str:
        """Return a player's name as people say it: ``"Ada Quill"`` for ``"Quill, Ada"``."""
        return spoken_name(self.header(SIDES[read_side(side)]))
