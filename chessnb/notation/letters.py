"""The letters that stand for the pieces in other languages.

The table is that of the PGN standard (1994), section 17, "Alternative
chesspiece identifier letters".  Files, ranks, castling and the signs for
captures and checks are the same everywhere; UCI has no language.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

from chessnb.errors import ChessnbError
from chessnb.mistakes import nearest

LETTERS: Mapping[str, str] = MappingProxyType(
    {
        "czech": "PJSVDK",
        "danish": "BSLTDK",
        "dutch": "OPLTDK",
        "english": "PNBRQK",
        "estonian": "PROVLK",
        "finnish": "PRLTDK",
        "french": "PCFTDR",
        "german": "BSLTDK",
        "hungarian": "GHFBVK",
        "icelandic": "PRBHDK",
        "italian": "PCATDR",
        "norwegian": "BSLTDK",
        "polish": "PSGWHK",
        "portuguese": "PCBTDR",
        "romanian": "PCNTDR",
        "spanish": "PCATDR",
        "swedish": "BSLTDK",
    }
)
"""Six letters by the English name of the language: pawn, knight, bishop, rook, queen, king.

The order is that of ``chess.PIECE_TYPES``.
"""

ENGLISH = LETTERS["english"]

_OWN_NAMES = {
    "čeština": "czech",
    "český": "czech",
    "česky": "czech",
    "dansk": "danish",
    "nederlands": "dutch",
    "eesti": "estonian",
    "suomi": "finnish",
    "français": "french",
    "deutsch": "german",
    "magyar": "hungarian",
    "íslenska": "icelandic",
    "italiano": "italian",
    "norsk": "norwegian",
    "polski": "polish",
    "português": "portuguese",
    "română": "romanian",
    "español": "spanish",
    "castellano": "spanish",
    "svenska": "swedish",
}
"""What the languages call themselves."""

_CODES = {
    "cs": "czech", "da": "danish", "de": "german", "en": "english", "es": "spanish",
    "et": "estonian", "fi": "finnish", "fr": "french", "hu": "hungarian", "is": "icelandic",
    "it": "italian", "nl": "dutch", "no": "norwegian", "pl": "polish", "pt": "portuguese",
    "ro": "romanian", "sv": "swedish",
}  # fmt: skip
"""Their codes of two letters (ISO 639-1)."""

MOVE_LETTER = re.compile(r"\b[KQRBN](?=[a-h]?[1-8]?[-x]?[a-h][1-8])|(?<==)[QRBN](?!\w)")
"""The letter of a piece in a move within a sentence: ``Nbxd5``, ``exd8=Q+``."""

# Or a letter that stands for itself.
_SAID = re.compile(rf"{MOVE_LETTER.pattern}|(?<![\w'’])[KQRBN](?!['’\w])")


class UnknownLanguage(ChessnbError, ValueError):  # noqa: N818 (a name a teacher reads)
    """The piece letters of a language are asked for, and the table has none.

    Attributes
    ----------
    given : str
        The language that was named.
    also : iterable of str
        What may be named there beside the languages.
    """

    def __init__(self, given: str, *, also: Iterable[str] = ()) -> None:
        other = ["", *also]
        near = nearest(_plain(given), [*_names(), *other[1:]], most=1)
        guess = f": did you mean {_names().get(near[0], near[0])!r}?" if near else "."
        super().__init__(
            f"{given!r} is no language whose piece letters are known{guess} "
            f"The languages are {', '.join(LETTERS)}{'; or write '.join(other)}."
        )
        self.given = given


def letters_of(language: str) -> str:
    """Return the six piece letters of a language.

    Parameters
    ----------
    language : str
        Its English name or its own, in small or capital letters, with or
        without accents; or its code of two letters (ISO 639-1).

    Returns
    -------
    str
        The letters of pawn, knight, bishop, rook, queen and king, in this order.

    Raises
    ------
    UnknownLanguage
        If the PGN standard lists no letters for it.

    Examples
    --------
    >>> letters_of("German"), letters_of("Deutsch"), letters_of("de"), letters_of("english")
    ('BSLTDK', 'BSLTDK', 'BSLTDK', 'PNBRQK')
    """
    try:
        name = _plain(language)
        return LETTERS[_CODES.get(name) or _names()[name]]
    except KeyError:
        raise UnknownLanguage(language) from None


def _plain(language: str) -> str:
    """Return a name without capitals and accents."""
    letters = unicodedata.normalize("NFKD", str(language).strip().lower())
    return "".join(letter for letter in letters if not unicodedata.combining(letter))


@cache
def _names() -> dict[str, str]:
    """Return the English name of each language by all its names, without accents."""
    own = {_plain(name): language for name, language in _OWN_NAMES.items()}
    return {**{language: language for language in LETTERS}, **own}


def in_language(text: str, language: str) -> str:
    """Give the moves in a sentence, or one move, the letters of a language.

    Parameters
    ----------
    text : str
        English words with moves in SAN or long algebraic notation.
    language : str
        As for :func:`letters_of`.

    Returns
    -------
    str
        The same words; in the moves, and where a letter of a piece stands
        alone, the letters of the language.

    Examples
    --------
    >>> in_language("its legal moves are Na3, Nc3: say Q, R, B or N", "german")
    'its legal moves are Sa3, Sc3: say D, T, L or S'
    """
    letters = letters_of(language)
    if letters == ENGLISH:
        return text
    table = _table(letters)
    return _SAID.sub(lambda match: match.group().translate(table), text)


@cache
def _table(letters: str) -> dict[int, int]:
    return str.maketrans(ENGLISH, letters)
