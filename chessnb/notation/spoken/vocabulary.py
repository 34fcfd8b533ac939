"""The words of spoken moves, and the order they are brought into.

The vocabulary is closed: a word that is not in it ("not", "or", "if") may turn
the sense round, so it is never passed over.  Besides English it has the names
that the FIDE Laws (Appendix D.2.1) give to files, ranks and pieces where
players cannot see the board, and the words that speech recognition writes for
letters and figures.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

import chess

Kind = Literal[
    "piece", "square", "file", "rank", "takes", "retakes", "to", "on", "from", "with",
    "castle", "wing", "promote", "check", "mate", "passing", "side", "unknown",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Word:
    """One word of a spoken move.

    Attributes
    ----------
    kind : str
        What it stands for.
    value : int
        The piece type, square, file, rank, side, or wing (1 the king's); else 0.
    text : str
        As it was said.
    """

    kind: Kind
    value: int = 0
    text: str = ""


def _table(**groups: str) -> dict[str, str]:
    return {word: name for name, words in groups.items() for word in words.split()}


_PIECES = _table(
    pawn="pawn pawns bauer", knight="knight knights night nite springer",
    bishop="bishop bishops laeufer läufer",
    rook="rook rooks turm", queen="queen dame", king="king koenig könig",
)  # fmt: skip
_FILES = _table(
    a="anna alpha alfa ay", b="bella bravo bee", c="cesar charlie cee", d="david delta dee",
    e="eva echo ee", f="felix foxtrot ef eff", g="gustav golf gee", h="hector hotel aitch haitch",
)  # fmt: skip
_RANKS = _table(**{
    "1": "1 one eins first 1st", "2": "2 two zwei second 2nd", "3": "3 three drei third 3rd",
    "4": "4 four vier fourth 4th", "5": "5 five fuenf fünf fifth 5th", "6": "6 six sechs sixth 6th",
    "7": "7 seven sieben seventh 7th", "8": "8 eight acht eighth 8th",
})  # fmt: skip
# Only after a file are these figures: "e for", "d to", "h ate".
_RANKS_AFTER_A_FILE = {"won": 1, "to": 2, "too": 2, "tree": 3, "for": 4, "fore": 4, "ate": 8}
_KINDS = _table(
    takes="takes take taking took x × captures capture capturing captured eats eat ate",
    retakes="retakes retake recaptures recapture",
    to="to onto into", on="on", castle="castle castles castling castled rochade",
    promote="promotes promote promoting promotion underpromotes makes making becomes becoming turns"
    " = equals",
    check="check checks checking + ch", mate="mate mates mating checkmate checkmates #",
    passing="passing ep", **{"from": "from", "with": "with using"},
)  # fmt: skip
_WINGS = {"kingside": 1, "short": 1, "kurze": 1, "queenside": 0, "long": 0, "lange": 0}
_SIDES = {"white": 1, "white's": 1, "black": 0, "black's": 0}
_FILLERS = frozenset(
    _table(
        filler="the an and then so now well okay ok uh um er erm ah oh hmm please just i i'd "
        "i'll we we'll you he she it it's that that's let's lets my his her their our "
        "would could can will should i'm think thinks say says play plays played "
        "playing move moves moved moving go goes going went put puts bring brings is "
        "this here also maybe perhaps yes yeah for of give gives giving a be see sea "
        "file rank square double discovered"
    )
)
# A letter by itself, and a word that may be an article, a verb or an exclamation instead.
_DOUBTFUL_FILES = {"a": 0, "be": 1, "see": 2, "sea": 2}

_DOUBTFUL = frozenset((*_DOUBTFUL_FILES, "for"))

_ONES = "one|two|three|four|five|six|seven|eight|nine"
_COUNT = rf"\d+|(?:{_ONES}|ten|eleven|twelve|[a-z]+teen|[a-z]+ty(?:[\s-](?:{_ONES}))?)\b"
_PHRASES = (
    (re.compile(r"\be\.\s?p\.?(?=\s|$)"), " ep "),
    (re.compile(r"\b(?:en passant|en passent|in passing)\b"), " passing "),
    (re.compile(r"\b(king|queen)(?:'?s)?[\s-]*side\b"), r" \1side "),
    (re.compile(r"\b(?:takes|take|captures|capture) back\b"), " retakes "),
    (re.compile(r"\bcheck mate\b"), " checkmate "),
    (re.compile(rf"^\W*move\s+(?:number\s+)?(?:{_COUNT})"), " "),
    (re.compile(r"^\W*\d+(?:\s*(?:\.+|…)|(?=\s+\S*[a-z]))"), " "),
    (re.compile(r"([=+#×])"), r" \1 "),
    (re.compile(r"[.,;:!?\"“”()…–—\-]"), " "),
)
_FROM_TO = r"(?P<from>[a-h][1-8]?)?(?P<takes>x)?(?P<to>[a-h][1-8]?)"
_SQUARES = re.compile(rf"^{_FROM_TO}$")


def written_in(text: str) -> tuple[str, set[bool]]:
    """Return a text without the words around a written move, and the sides that they name.

    Examples
    --------
    >>> written_in("okay, then White plays 14. Nd5!")
    ('14. Nd5!', {True})
    """
    kept, sides = [], set()
    for word in text.split():
        plain = word.lower().replace("’", "'").strip(".,;:!?")
        if plain in _SIDES:
            sides.add(bool(_SIDES[plain]))
        elif plain not in _FILLERS or plain in _DOUBTFUL:
            kept.append(word)
    return " ".join(kept).rstrip(".,;: "), sides


def words_of(text: str) -> list[list[Word]]:
    """Turn what was said into words with a meaning.

    Parameters
    ----------
    text : str
        As it was typed, or written down by speech recognition.

    Returns
    -------
    list of list of Word
        The readings; two where ``a`` may be the file or the article.

    Examples
    --------
    >>> [(word.kind, word.value) for word in words_of("night to f three")[0]]
    [('piece', 2), ('to', 0), ('square', 21)]
    """
    plain = f" {text.lower().replace('’', chr(39)).strip()} "
    for pattern, replacement in _PHRASES:
        plain = pattern.sub(replacement, plain)
    said = [word.strip("'") for word in plain.split()]
    if (castling := _zeros(said)) is not None:
        return [castling]
    return [_joined(reading) for reading in _readings(said)]


def _zeros(said: list[str]) -> list[Word] | None:
    """Hear ``oh oh`` and ``zero zero zero`` as castling."""
    zeros = [word for word in said if word in ("o", "oh", "0", "zero")]
    if len(zeros) not in (2, 3) or any(w not in zeros and w not in _FILLERS for w in said):
        return None
    return [Word(kind="castle"), Word(kind="wing", value=int(len(zeros) == 2))]


def _readings(said: list[str]) -> list[list[str]]:
    """Settle what ``a`` before a piece is; at the beginning it may be the file or the article."""
    settled: list[str] = []
    doubtful = None
    for index, word in enumerate(said):
        before = said[index - 1] if index else ""
        if word == "a" and _next(said, index) in _PIECES and before not in ("the", "my", "your"):
            if any(other not in _FILLERS and other not in _SIDES for other in settled):
                continue
            doubtful = len(settled)
        settled.append(word)
    if doubtful is None:
        return [settled]
    return [settled, [*settled[:doubtful], *settled[doubtful + 1 :]]]


def _next(said: list[str], index: int) -> str:
    return said[index + 1] if index + 1 < len(said) else ""


def _joined(said: list[str]) -> list[Word]:
    """Give each word its meaning in its place, and join file and rank to a square."""
    words: list[Word] = []
    file_ended_at = -2
    for index, text in enumerate(said):
        after_file = file_ended_at == index - 1
        meant = _meanings(text, _next(said, index), after_file)
        for word in meant:
            if word.kind == "rank" and after_file:
                file = words.pop()
                square = chess.square(file.value, word.value)
                words.append(Word(kind="square", value=square, text=f"{file.text} {word.text}"))
            else:
                words.append(word)
        if meant and meant[-1].kind == "file":
            file_ended_at = index
    return words


def _meanings(text: str, following: str, after_file: bool) -> list[Word]:
    if after_file and text in _RANKS_AFTER_A_FILE and not (text == "to" and _leads_on(following)):
        return [Word(kind="rank", value=_RANKS_AFTER_A_FILE[text] - 1, text=text)]
    if text in _DOUBTFUL_FILES and _makes_a_file(text, following):
        return [Word(kind="file", value=_DOUBTFUL_FILES[text], text=text)]
    if text in _FILLERS:
        return []
    if text == "queens":
        return [Word(kind="promote"), Word(kind="piece", value=chess.QUEEN, text=text)]
    for table, kind, value in (
        (_PIECES, "piece", chess.PIECE_NAMES.index),
        (_FILES, "file", chess.FILE_NAMES.index),
        (_RANKS, "rank", chess.RANK_NAMES.index),
    ):
        if text in table:
            return [Word(kind=kind, value=value(table[text]), text=text)]  # type: ignore[arg-type]
    if text in _WINGS or text in _SIDES:
        kind = "wing" if text in _WINGS else "side"
        return [Word(kind=kind, value=(_WINGS | _SIDES)[text], text=text)]  # type: ignore[arg-type]
    if text in _KINDS:
        return [Word(kind=_KINDS[text], text=text)]  # type: ignore[arg-type]
    return _places(text) or [Word(kind="unknown", text=text)]


def _leads_on(following: str) -> bool:
    """Tell whether ``to`` leads to a place (``f to d2``) and is no figure (``d to``)."""
    return following != "" and _KINDS.get(following, "on") == "on"


def _makes_a_file(text: str, following: str) -> bool:
    """Tell whether a doubtful word is a file, by the word that follows."""
    figure = following in _RANKS or following in _RANKS_AFTER_A_FILE
    if text in ("be", "see", "sea"):
        return figure or following in ("takes", "x")
    kind = _KINDS.get(following, "")
    return kind not in ("check", "mate") and following not in _WINGS


def _places(text: str) -> list[Word]:
    """Read squares and files written in one piece: ``e4``, ``g1f3``, ``exd``, ``ed``."""
    match = _SQUARES.match(text)
    if match is None:
        return []
    start, goal = match["from"], match["to"]
    if start and len(start) == len(goal) == 1 and abs(ord(start) - ord(goal)) != 1:
        return []  # "he", "ad": no pawn takes like that
    places = [_place(start)] if start else []
    if match["takes"]:
        places.append(Word(kind="takes", text="x"))
    return [*places, _place(goal)]


def _place(name: str) -> Word:
    if len(name) == 2:
        return Word(kind="square", value=chess.parse_square(name), text=name)
    return Word(kind="file", value=chess.FILE_NAMES.index(name), text=name)
