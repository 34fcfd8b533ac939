"""With which letters a widget writes moves: a language's, or figurines."""

from __future__ import annotations

from chessnb.notation.letters import UnknownLanguage, letters_of

FIGURINE_LETTERS = "♙♘♗♖♕♔"
"""What stands for the six letters where moves are shown with figurines."""


def piece_letters(letters: str) -> str:
    """Return the six letters, pawn to king, of a language or of ``"figurine"``.

    Raises
    ------
    UnknownLanguage
        If the letters of the language are not known.

    Examples
    --------
    >>> piece_letters("german")
    'BSLTDK'
    """
    if _are_figurines(letters):
        return FIGURINE_LETTERS
    try:
        return letters_of(letters)
    except UnknownLanguage:
        raise UnknownLanguage(letters, also=["figurine"]) from None


def reading_language(letters: str) -> str:
    """Return the language in which moves are typed where they are written with these letters.

    Examples
    --------
    >>> reading_language("figurine")
    'english'
    """
    return "english" if _are_figurines(letters) else letters


def _are_figurines(letters: str) -> bool:
    return letters.strip().lower() in ("figurine", "figurines")
