"""Lessons: a game tree or positions on a theme, with addresses and sidelines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from os import PathLike
from pathlib import Path
from typing import Any, Self

import chess
import chess.pgn

from chessnb.board.naming import listed
from chessnb.board.position import Position, read_position
from chessnb.errors import AddressError, LessonError, as_given
from chessnb.findings import Finding, Record, forgiven
from chessnb.findings.record import quoted
from chessnb.lessons.about import About, holds, holds_in_words, set_tag
from chessnb.lessons.addresses import find_node, is_address, walk
from chessnb.lessons.comments import line_name, name_line, valid_name
from chessnb.lessons.game_files import RawGame, build_game, find_game, open_game_file, raw_games
from chessnb.lessons.game_writer import (
    POSITION_TAG,
    SOURCE_TAG,
    Exporter,
    Saved,
    check_alone,
    check_own,
    source_of,
    write_games,
)
from chessnb.lessons.moment import Moment
from chessnb.lessons.sidelines import check_position_name, grow, safe_note, sideline_of
from chessnb.lessons.trees import Trees
from chessnb.mistakes import Forgiving, checked
from chessnb.notation import LineLike, read_line


class Lesson(Trees, Forgiving, Finding):
    """A game, or several positions on a theme, prepared for a class.

    Parameters
    ----------
    game : chess.pgn.Game or None
        The game, which the lesson changes when sidelines are added; ``None``
        for a lesson of positions.
    title : str or None
        What the lesson is called; by default, what the game says of itself.
    level : str
        For whom it is, in the teacher's words (``"club"``).
    goals : sequence of str
        What the class should take home.
    minutes : int or None
        How long it is planned to take.

    Examples
    --------
    >>> lesson = Lesson.from_text("1. e4 e5 2. Nf3 (2. f4 {bold}) 2... Nc6", title="First moves")
    >>> lesson
    Lesson 'First moves': 2 moves, 1 sideline, 1 comment
    >>> lesson.after("2. f4").comment
    'bold'
    """

    # -- reading and saving -----------------------------------------------

    @classmethod
    @checked
    def read(
        cls,
        path: str | PathLike[str],
        *,
        game: int | None = None,
        where: Mapping[str, str] | None = None,
        **about: Any,
    ) -> Self:
        """Read a lesson from a PGN file, without loading the file's other games.

        Parameters
        ----------
        path : str or path
            The file.
        game : int or None
            Which game of the file, counted from 1; the first by default.
        where : mapping or None
            Or the first game whose headers contain these texts, whatever
            their case: ``{"White": "quill", "Round": "4"}``.
        **about
            ``title``, ``level``, ``goals``, ``minutes``, as for a `Lesson`.

        Raises
        ------
        GameFileError
            If the file or the game cannot be used, with the reason and line.

        Notes
        -----
        Positions that :meth:`save` wrote behind the game are read with it.
        Time grows with the place of the game in the file, memory does not.
        """
        with open_game_file(path) as handle:
            lesson = cls._from_raw(raw_games(handle, path=str(path)), str(path), game, where, about)
        lesson.path = Path(path).resolve()
        return lesson

    @classmethod
    @checked
    def from_text(
        cls,
        text: str,
        *,
        game: int | None = None,
        where: Mapping[str, str] | None = None,
        **about: Any,
    ) -> Self:
        """Read a lesson from PGN text, or from moves as they are typed; else as :meth:`read`."""
        lines = text.lstrip("\ufeff").splitlines(keepends=True)
        return cls._from_raw(raw_games(lines, path="the text"), "the text", game, where, about)

    @classmethod
    def _from_raw(
        cls,
        games: Iterator[RawGame],
        path: str,
        number: int | None,
        where: Mapping[str, str] | None,
        about: Mapping[str, Any],
    ) -> Self:
        raw = find_game(games, path=path, number=number, where=where)
        if raw.tag(POSITION_TAG):
            said = About.of(dict(raw.tags))
            lesson = cls(None, **{**vars(said), **about})
            lesson._keep_position(raw)
        else:
            lesson = cls(build_game(raw), **about)
        lesson._number = raw.number
        for following in games:
            if not following.tag(POSITION_TAG):
                break
            lesson._keep_position(following)
        return lesson

    def _keep_position(self, raw: RawGame) -> None:
        self.positions[raw.tag(POSITION_TAG)] = build_game(raw)

    @property
    def pgn(self) -> str:
        """The lesson as PGN: the game, then each position as a game of its own.

        Comments, glyphs, variations, unknown tags and comment commands are
        kept; what the lesson knows beside them stands in supplementary tags.
        """
        texts = []
        for game in self.trees():
            self._label_game(game)
            texts.append(str(game.accept(Exporter(columns=80))))
        return "\n\n".join(texts) + "\n"

    def _label_game(self, game: chess.pgn.Game) -> None:
        self._about.write(game.headers)
        set_tag(game.headers, POSITION_TAG, self.name_of(game) or "")

    @checked
    def save(self, path: str | PathLike[str], *, overwrite: bool = False) -> Saved:
        """Save the lesson as a PGN file, whole or not at all.

        Parameters
        ----------
        path : str or path
            The file.  What this lesson has saved before may be saved again.
        overwrite : bool
            Write over a file that this lesson did not write, such as the one
            that it was read from.

        Returns
        -------
        Saved
            What was written, in one line.

        Raises
        ------
        GameFileError
            If the file cannot be written; what was there is then unchanged.
        LessonError
            If the file is not this lesson's own (without `overwrite`), or
            holds other games, which would be lost.
        """
        target = Path(path).resolve()  # a link stays a link
        check_alone(target, shown=str(path))
        if not overwrite:
            check_own(target, self._source, read_from=self.path, shown=str(path))
        for game in self.trees()[:1]:
            set_tag(game.headers, SOURCE_TAG, self._source)
        write_games(target, self.pgn, shown=str(path))
        return Saved(path=str(path), holds=self._holds)

    @property
    def _source(self) -> str:
        return source_of(self.path, number=self._number, title=self.title)

    # -- positions ----------------------------------------------------------

    @property
    def start(self) -> Moment:
        """The first position of the game."""
        return self._moment(self._the_game())

    @property
    def end(self) -> Moment:
        """The last position of the main line."""
        return self._moment(self._the_game().end())

    @forgiven
    @checked
    def at(self, address: Moment | str) -> Moment:
        """Return the position at an address.

        Parameters
        ----------
        address : str
            A move (``"14. Nd5"``, ``"White's 14th"``), a path into a sideline
            (``"6. h3 Bh5 7. g4"``), ``"start"`` or ``"end"``, the name of a
            sideline (its first move) or of a position (``"diagram 3"``), or
            both: ``"diagram 3: 1. Qh7+"``.  A position of the lesson stands for
            itself.

        Raises
        ------
        AddressError
            If the lesson has no such position; the message lists the nearest.
        LessonError
            If a position is another lesson's.
        """
        if isinstance(address, Moment):
            if address.lesson is not self:
                raise LessonError(f"{address.label} belongs to another lesson")
            return address
        if not isinstance(address, str):
            raise AddressError(
                'an address is a text, such as "14. Nd5" or "White\'s 14th"',
                address=as_given(address),
            )
        if self.game is not None and is_address(address):
            return self._moment(find_node(self.game, address))
        name, _, rest = address.partition(":")
        if (game := self.positions.get(name.strip())) is not None:
            return self._moment(find_node(game, rest) if rest.strip() else game)
        if lines := self._lines_named(address.strip()):
            if len(lines) > 1:
                raise AddressError(
                    "several sidelines have this name.",
                    address=address,
                    nearest=[line.address for line in lines],
                )
            return lines[0]
        if self.game is None:
            raise AddressError(
                "this lesson has no game, only positions.",
                address=address,
                nearest=list(self.positions),
            )
        try:
            return self._moment(find_node(self.game, address))
        except AddressError as error:
            if error.nearest:
                raise
            names = [*self.lines(), *self.positions]
            raise AddressError(error.reason, address=address, nearest=names) from None

    @forgiven
    @checked
    def after(self, address: Moment | str) -> Moment:
        """Return the position after a move; see :meth:`at` for what an address may be."""
        return self.at(address)

    @forgiven
    @checked
    def before(self, address: Moment | str) -> Moment:
        """Return the position before a move, where the class must find it."""
        moment = self.at(address)
        if moment.back is None:
            raise AddressError("nothing comes before a start.", address=moment.address)
        return moment.back

    def moments(self) -> Iterator[Moment]:
        """Yield every position of the game after a move: main line first, then the sidelines."""
        for node in walk(self._the_game()):
            yield self._moment(node)

    def _moment(self, node: chess.pgn.GameNode) -> Moment:
        return Moment(lesson=self, node=node)

    def _the_game(self) -> chess.pgn.Game:
        if self.game is None:
            held = listed(repr(name) for name in self.positions) or "nothing yet"
            raise LessonError(f"this lesson has no game; it holds {held}")
        return self.game

    # -- sidelines --------------------------------------------------------

    def lines(self) -> dict[str, Moment]:
        """Return the named sidelines, each by the position after its first move."""
        named: dict[str, Moment] = {}
        for name, moment in self._named():
            named.setdefault(name, moment)
        return named

    def _lines_named(self, wanted: str) -> list[Moment]:
        return [moment for name, moment in self._named() if name == wanted]

    def _named(self) -> Iterator[tuple[str, Moment]]:
        for tree in self.trees():
            for node in walk(tree):
                if (name := line_name(node)) is not None:
                    yield name, self._moment(node)

    @forgiven
    @checked
    def add_line(
        self, at: Moment | str, line: LineLike, *, name: str | None = None, note: str | None = None
    ) -> Moment:
        """Add a sideline that begins with a move played at a position.

        Moves that the lesson already has there are followed, not doubled; at
        the end of a line the moves make it longer.

        Parameters
        ----------
        at : Moment or str
            The position where the sideline's first move is played, or its address.
        line : str or sequence of moves
            The moves, as :func:`chessnb.notation.read_line` takes them.
        name : str or None
            What the sideline is called, so that :meth:`at` finds it.
        note : str or None
            A comment behind its last move.

        Returns
        -------
        Moment
            The position after the last move.

        Raises
        ------
        NotationError
            If a move cannot be read; nothing is added then.
        LessonError
            If the position is another lesson's, the name is taken or cannot be
            saved, or a name is given to what is no sideline.
        """
        at = self.at(at)
        if isinstance(line, str) and ("{" in line or ";" in line):
            raise LessonError("give the moves alone; what you say about them goes into note=…")
        played = read_line(at, line)
        if not played:
            raise LessonError("a sideline needs at least one move")
        if name is not None:
            self._check_name(at, played[0], name)
        first, last = grow(at.node, played)
        if name is not None:
            name_line(first, name)
        if note is not None:
            last.comment = f"{last.comment} {safe_note(note)}".strip()
        return self._moment(last)

    def _check_name(self, at: Moment, move: chess.Move, name: str) -> None:
        if not valid_name(name):
            raise LessonError(
                f"{name!r} cannot name a sideline: one line of at most 60 letters, "
                "without colons, braces and brackets"
            )
        taken = self.lines().get(name)
        if taken is not None and (taken.node.parent is not at.node or taken.move != move):
            raise LessonError(f"{name!r} is already the sideline that begins with {taken.address}")
        if not at.node.variations or at.node.variations[0].move == move:
            raise LessonError(f"{name!r} would name the main line here, which is no sideline")

    @checked
    def remove_line(self, at: Moment | str) -> None:
        """Take a sideline out of the lesson, with all that branches from it.

        Parameters
        ----------
        at : Moment or str
            Its name, its address, or any position in it; all of the sideline
            that contains the position goes.

        Raises
        ------
        LessonError
            If the position lies on the main line, or is another lesson's.
        """
        moment = self.at(at)
        first = sideline_of(moment.node)
        if first is None:
            raise LessonError(f"{moment.label} lies on the main line, which cannot be removed")
        first.parent.remove_variation(first)

    @forgiven
    @checked
    def add_position(
        self, position: Position, *, name: str | None = None, note: str | None = None
    ) -> Moment:
        """Add a position on the lesson's theme.

        Parameters
        ----------
        position : chess.Board, Moment or str
            The position, such as a FEN.
        name : str or None
            What it is called; ``"diagram 1"`` and so on by default.
        note : str or None
            A comment on it.

        Returns
        -------
        Moment
            Its position; lines are added to it like to any other.

        Raises
        ------
        PositionError
            If it is not a position.
        LessonError
            If the name is taken.
        """
        board = read_position(position)
        name = name or f"diagram {len(self.positions) + 1}"
        if name in self.positions:
            raise LessonError(f"the lesson already has a position called {name!r}")
        check_position_name(name)
        game = chess.pgn.Game()
        game.setup(board.copy(stack=False))
        game.comment = safe_note(note or "")
        self.positions[name] = game
        return self._moment(game)

    # -- how it shows itself ----------------------------------------------

    @property
    def _holds(self) -> tuple[str, ...]:
        return tuple(holds(self.game, self.positions))

    @property
    def record(self) -> Record:
        """The finding: title, and how much the lesson holds."""
        return Record(place=quoted(self.title), kind="lesson", fields=self._holds, status="given")

    @property
    def words(self) -> str:
        """Title, and how much the lesson holds."""
        return f"Lesson {self.title!r}: {holds_in_words(self._holds)}"

    @property
    def paragraphs(self) -> Sequence[str]:
        """Title, players and goals, for readers."""
        first = (
            self.title
            if not self.players or self.players == self.title
            else (f"{self.title} ({self.players})")
        )
        held = holds_in_words(self._holds)
        return tuple(filter(None, (f"{first}: {held}.", self._about.for_whom)))

    def __repr__(self) -> str:
        return self.words
