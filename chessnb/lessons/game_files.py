"""Reading games from PGN files, one at a time, however big the file is.

A file is cut into *raw games* (headers and movetext, nothing parsed) while
it streams by; only the game that is wanted is built.  The form is the PGN
standard's import format.  Text is UTF-8 or UTF-16 by its byte order mark,
else UTF-8 with ISO 8859-1 (the standard's own) for bytes that are none.
"""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from io import StringIO
from os import PathLike
from pathlib import Path
from typing import TextIO

import chess
import chess.pgn

from chessnb.board.naming import listed, number
from chessnb.board.position import read_position
from chessnb.board.position_faults import what_is_wrong
from chessnb.errors import GameFileError, PositionError
from chessnb.lessons.held_files import held_text
from chessnb.mistakes import nearest
from chessnb.notation.movetext import RESULTS, Builder, tokens

_TAG = re.compile(r'^\s*\[\s*(?P<name>[A-Za-z0-9][A-Za-z0-9_+#=:-]*)\s+"(?P<value>.*)"\s*\]\s*$')
_STRICT_TAG = re.compile(
    r'\[\s*(?P<name>[A-Za-z0-9][A-Za-z0-9_+#=:-]*)\s+"(?P<value>(?:[^"\\]|\\.)*)"\s*\]'
)
_TAG_OPENING = re.compile(r"^\s*\[\s*(?P<name>[A-Za-z0-9][A-Za-z0-9_+#=:-]*)")
_MARKS = re.compile(r"[{}();]|(?<![^\s)}])(?:1-0|0-1|1/2-1/2|½-½|\*)(?=[\s({;]|$)")
_FEW = 3
"""So many game files of a folder are named where another is not found."""

_STANDARD_VARIANTS = ("", "standard", "chess", "normal", "from position")

codecs.register_error(
    "chessnb-iso-8859-1",
    lambda error: (
        (error.object[error.start : error.end].decode("latin-1"), error.end)
        if isinstance(error, UnicodeDecodeError)
        else ("", 0)
    ),
)


@dataclass(frozen=True, kw_only=True)
class RawGame:
    """A game cut out of a file, not yet parsed.

    Attributes
    ----------
    number : int
        Its place in the file, counted from 1.
    line : int
        The line where it begins, counted from 1.
    tags : tuple of (str, str)
        Its headers, values as they stand between the quotes.
    movetext : str
        All that follows the headers.
    movetext_line : int
        The line where the movetext begins.
    path : str
        The file's name, for messages.
    """

    number: int
    line: int
    tags: tuple[tuple[str, str], ...]
    movetext: str
    movetext_line: int
    path: str

    def tag(self, name: str) -> str:
        """Return a header's value, or an empty string."""
        return unescape_tag(dict(self.tags).get(name, ""))


def unescape_tag(value: str) -> str:
    """Undo the escapes of a PGN tag value (standard, section 7)."""
    return re.sub(r"\\([\\\"])", r"\1", value)


def escape_tag(value: str) -> str:
    """Write a text as a PGN tag value; line breaks become spaces."""
    return re.sub(r"([\\\"])", r"\\\1", " ".join(value.split()))


def open_game_file(path: str | PathLike[str]) -> TextIO:
    """Open a PGN file as text.

    Raises
    ------
    GameFileError
        If it is missing, a folder, unreadable, or not a text file.
    """
    name = str(path)
    if (held := held_text(path)) is not None:
        return StringIO(held)
    try:
        with Path(path).open("rb") as handle:
            head = handle.read(65536)
        if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            return Path(path).open(encoding="utf-16", errors="replace")
        if b"\0" in head:
            raise GameFileError("this is not a text file, so it is no game file (PGN)", path=name)
        return Path(path).open(encoding="utf-8-sig", errors="chessnb-iso-8859-1")
    except FileNotFoundError:
        raise GameFileError(f"there is no such file{_instead(Path(path))}", path=name) from None
    except IsADirectoryError:
        raise GameFileError("this is a folder; name the game file in it", path=name) from None
    except OSError as error:
        raise GameFileError(f"it cannot be read ({error.strerror})", path=name) from None


def _instead(path: Path) -> str:
    """Return what to do about a game file that is not there, by what is in its folder."""
    if not path.parent.is_dir():
        return f": there is no folder {str(path.parent)!r}"
    games = {one.stem: one.name for one in path.parent.glob("*") if one.suffix.lower() == ".pgn"}
    close = [games[stem] for stem in nearest(path.stem, games)]
    near = close or (sorted(games.values()) if len(games) <= _FEW else [])
    if not near:
        return ""
    it = "that name" if len(near) == 1 else "the right name"
    folder = "" if path.parent == Path() else f" in {str(path.parent)!r}"
    return f"; {listed(near)} {'is' if len(near) == 1 else 'are'} here{folder}: write {it} instead"


class _Cutter:
    """The state of cutting: headers and movetext of the game that is passing by."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.number = 0
        self.reset(1)

    def reset(self, line: int) -> None:
        self.line = line
        self.tags: list[tuple[str, str]] = []
        self.movetext: list[str] = []
        self.movetext_line = line
        self.in_comment = False
        self.depth = 0
        self.ended = False
        self.played = False  # whether anything but comments has passed by
        self.blank = False  # whether the last line was empty
        self.commented = False  # whether a comment stands behind its headers

    @property
    def empty(self) -> bool:
        return not self.tags and not any(line.strip() for line in self.movetext)

    def cut(self) -> RawGame:
        self.number += 1
        return RawGame(
            number=self.number,
            line=self.line,
            tags=tuple(self.tags),
            movetext="".join(self.movetext),
            movetext_line=self.movetext_line,
            path=self.path,
        )

    def begins_new_game(self, text: str) -> bool:
        """Tell whether a line belongs to the next game already."""
        if self.in_comment:
            return False  # whatever it looks like
        if opening := _TAG_OPENING.match(text):
            # Comments may stand before the first header; headers behind a comment, or
            # one that comes again after an empty line, are the next game's.
            again = self.blank and opening["name"] in dict(self.tags)
            return self.played or again or self.commented
        bare = text.strip()
        return self.ended and bool(bare) and bare[0] not in "{;%"

    def take(self, text: str, line: int) -> None:
        """Take a line of the game."""
        if not self.played and not self.in_comment and _TAG_OPENING.match(text):
            self.tags.extend(_tags(text, path=self.path, line=line))
            if self.movetext:
                self.movetext.append("\n")  # so that lines are counted on
            return
        self.blank = not text.strip()
        self.commented |= bool(self.tags) and not self.blank
        if not self.movetext:
            if self.blank:
                return
            self.movetext_line = line
        self.movetext.append(text)
        if self.in_comment or not text.startswith("%"):
            self._follow(text)

    def _follow(self, text: str) -> None:
        """Follow comments, brackets and results through a line."""
        behind = 0
        for mark in _MARKS.finditer(text):
            if not self.in_comment:
                self.played |= bool(text[behind : mark.start()].strip())
            behind = mark.end()
            if not self._note(mark.group()):
                return
        if not self.in_comment:
            self.played |= bool(text[behind:].strip())

    def _note(self, mark: str) -> bool:
        """Take note of a mark; return whether the rest of the line counts."""
        if self.in_comment:
            self.in_comment = mark != "}"
        elif mark == ";":
            return False
        elif mark == "{":
            self.in_comment = True
        elif mark != "}":
            self.played = True
            if mark in "()":
                self.depth += 1 if mark == "(" else -1
            elif self.depth <= 0:
                self.ended = True
        return True


def _tags(text: str, *, path: str, line: int) -> list[tuple[str, str]]:
    """Read the headers of a line; usually there is one."""
    several = list(_STRICT_TAG.finditer(text))
    if len(several) > 1 and not _STRICT_TAG.sub("", text).strip():
        return [(match["name"], match["value"]) for match in several]
    match = _TAG.match(text)
    if match is None:
        raise GameFileError(
            f'this header is not of the form [Name "value"]: {text.strip()[:60]!r}; '
            "is the file cut off?",
            path=path,
            line=line,
        )
    return [(match["name"], match["value"])]


def raw_games(lines: Iterable[str], *, path: str) -> Iterator[RawGame]:
    """Cut lines of PGN into games, keeping no more than one in memory."""
    cutter = _Cutter(path)
    line = 0
    for line, text in enumerate(lines, start=1):
        if cutter.begins_new_game(text):
            yield cutter.cut()
            cutter.reset(line)
        if cutter.empty:
            cutter.line = line
        cutter.take(text, line)
    if not cutter.empty:
        yield cutter.cut()


def find_game(
    games: Iterable[RawGame],
    *,
    path: str,
    number: int | None = None,
    where: Mapping[str, str] | None = None,
) -> RawGame:
    """Return the game with a number, or the first whose headers contain what is asked.

    Raises
    ------
    GameFileError
        If there is no such game.
    """
    count = 0
    for raw in games:
        count = raw.number
        if number is not None and raw.number != number:
            continue
        if all(text.lower() in raw.tag(name).lower() for name, text in (where or {}).items()):
            return raw
    if count == 0:
        raise GameFileError("it holds no game", path=path)
    if number is not None and not 1 <= number <= count:
        held = "only one game" if count == 1 else f"only {count} games"
        raise GameFileError(f"there is no game {number}: the file holds {held}", path=path)
    wanted = ", ".join(f"{name} with {text!r}" for name, text in (where or {}).items())
    raise GameFileError(f"no game of the {count} in the file has {wanted}", path=path)


def build_game(raw: RawGame) -> chess.pgn.Game:
    """Build the tree of a raw game.

    Raises
    ------
    GameFileError
        If it is a variant, its position is impossible, a move is not legal
        (with the reason and the line), or the text is cut off.
    """
    game = _with_headers(raw)
    builder = Builder(game, path=raw.path)
    try:
        for token in tokens(raw.movetext, path=raw.path, first_line=raw.movetext_line):
            builder.add(token)
        builder.finish()
    except GameFileError as error:
        if not raw.tags and not builder.moved[0]:
            begins = raw.movetext.strip()[:40].split("\n")[0]
            raise GameFileError(
                f"this does not look like a game file (PGN): it begins with {begins!r}",
                path=raw.path,
            ) from error
        raise
    result = raw.tag("Result")
    _check_result(game, result, builder.result, raw)
    if not builder.ended and result not in ("", "*", "?") and builder.moved[0]:
        *_, last = game.mainline()
        raise GameFileError(
            f"the moves stop after {number(last.parent.board())} {last.san()} without the result "
            f"{result} that the header gives: is the file cut off? End the moves with the result, "
            "or with * for an unfinished game",
            path=raw.path,
        )
    return game


def _check_result(game: chess.pgn.Game, header: str, told: str | None, raw: RawGame) -> None:
    """Refuse a result that contradicts itself or the board."""
    if header not in ("", "?", *RESULTS):
        raise GameFileError(
            f"the header Result says {header!r}; a result is 1-0, 0-1, 1/2-1/2 or *", path=raw.path
        )
    if told and header in RESULTS[:3] and told in RESULTS[:3] and told != header:
        raise GameFileError(
            f"the header Result says {header}, and the moves end with {told}: which is right?",
            path=raw.path,
        )
    board = game.end().board()
    decided = board.result() if board.is_checkmate() else "*"
    said = header if header in RESULTS[:3] else told
    if decided != "*" and said in RESULTS[:3] and said != decided:
        raise GameFileError(
            f"the game ends with checkmate, {decided}, and its result says {said}", path=raw.path
        )


def _with_headers(raw: RawGame) -> chess.pgn.Game:
    variant = raw.tag("Variant")
    if variant.lower() not in _STANDARD_VARIANTS:
        raise GameFileError(
            f"game {raw.number} is a game of {variant}; lessons are of standard chess",
            path=raw.path,
        )
    game = chess.pgn.Game()  # with the seven tags of the standard's roster, as "?"
    for name, value in raw.tags:
        game.headers[name] = value
    try:
        read_position(raw.tag("FEN") or "start", legal=False)
    except PositionError as error:
        raise GameFileError(
            f"the FEN header is no position: {error.reason}", path=raw.path
        ) from None
    board = game.board()
    if board.chess960:
        raise GameFileError(
            f"game {raw.number} castles from squares that standard chess does not know "
            f"[{board.fen()}]; lessons are of standard chess",
            path=raw.path,
        )
    if faults := what_is_wrong(board):
        raise GameFileError(
            f"the position of the FEN header cannot be played: {faults[0]} [{board.fen()}]",
            path=raw.path,
        )
    return game
