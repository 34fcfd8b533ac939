"""The chess in a sentence: its pieces, sides, moves, squares and numbers, put in brackets.

What is left are the words between them, and those are what a language's
patterns are made of.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache

import chess

from chessnb.notation.letters import letters_of
from chessnb.teaching.statements.language import Language
from chessnb.teaching.statements.places import Named, Places

_SLOT = re.compile(r"⟦([A-Z])(\d+)⟧")
_FIGURINES = "♙♘♗♖♕♔♟♞♝♜♛♚"


@dataclass(frozen=True, kw_only=True)
class PieceNamed:
    """A piece as the words name it.

    Attributes
    ----------
    letter : str
        Its English letter; ``"m"``, ``"x"``, ``"*"`` for a piece without
        difference, the exchange, material.
    side : chess.Color or None
        Whose it is, where the words say so.
    owned : bool
        Whether it belongs to whom the sentence is about ("its queen").
    where : str
        Its square, or the letter of its file.
    word : str
        Its name.
    """

    letter: str
    side: chess.Color | None
    owned: bool
    where: str
    word: str


Meant = PieceNamed | Named | chess.Color | int | str | None
"""What stands in a slot; None is a pronoun for a side, or a move that is legal nowhere."""


@dataclass(kw_only=True)
class Slotted:
    """A sentence with its chess in brackets.

    Attributes
    ----------
    form : str
        The sentence.
    meant : list
        What stands in each slot.
    words : list of str
        Its text.
    """

    form: str = ""
    meant: list[Meant] = field(default_factory=list)
    words: list[str] = field(default_factory=list)

    def add(self, sort: str, meant: Meant, words: str) -> str:
        """Put something in a new slot, and return the slot."""
        self.meant.append(meant)
        self.words.append(words)
        return f"⟦{sort}{len(self.meant) - 1}⟧"

    def slots(self, sorts: str, *, end: int | None = None) -> list[tuple[int, int]]:
        """Return the slots of some sorts, each with where it stands, up to an end."""
        return [
            (int(match[2]), match.start())
            for match in _SLOT.finditer(self.form[:end])
            if match[1] in sorts
        ]

    def unslotted(self, text: str) -> str:
        """Put the words back into a part of the form."""
        return _SLOT.sub(lambda match: self.words[int(match[2])], text)


def slotted(sentence: str, language: Language, places: Places) -> Slotted:
    """Put the chess of a sentence in brackets."""
    text = sentence
    for written, read in language.rewritten.items():
        text = re.sub(written, read, text, flags=re.IGNORECASE)
    found = Slotted()
    parts: list[str] = []
    end = 0
    for match in _expression(language).finditer(text):
        parts.append(text[end : match.start()].lower())
        parts.append(_slot_of(match, found, language, places))
        end = match.end()
    parts.append(text[end:].lower())
    form = re.sub(language.fillers, " ", "".join(parts))
    form = re.sub(r"[!?]+(?=\s|$|,)", "", form)  # signs behind a move
    form = re.sub(r"\s+([,;:.)])", r"\1", form)
    form = re.sub(r",(?:\s*,)+", ",", form)
    found.form = " ".join(form.split()).strip(" ,")
    return found


def _names(words: object) -> str:
    return "|".join(sorted(map(re.escape, words), key=len, reverse=True))  # type: ignore[call-overload]


@cache
def _expression(language: Language) -> re.Pattern[str]:
    """Return the expression that finds all that goes into slots."""
    letters = letters_of(language.name)[1:] + _FIGURINES
    sides = _names(language.sides)
    move = (
        r"(?<![\w/])(?:(?P<number>\d+)\s*(?P<dots>\.{3}|…|\.)\s*)?(?P<more>(?<![\w.])(?:\.{3}|…)\s?)?"
        rf"(?P<move>[{letters}][a-h]?[1-8]?[x:×-]?[a-h][1-8]"
        rf"|[a-h][1-8]?[x×][a-h][1-8](?:=?[{letters}])?|[a-h][18]=[{letters}]"
        r"|[a-h][1-8]-[a-h][1-8]|(?:(?<=\d\.)|(?<=\d\.\s)|(?<=\.\.)|(?<=\.\.\s)|(?<=…)|(?<=…\s))"
        r"[a-h][1-8]|[O0]-[O0](?:-[O0])?)(?P<sign>\+\+|[+#])?[!?]*(?![\w=])"
    )
    adjectives = rf"(?:(?:{language.adjectives})[ ,]+)*"
    piece = (
        rf"(?i:\b(?:(?:(?P<own>{_names(language.owners)})|(?P<the>{language.definite})"
        rf"|(?P<a>{language.indefinite})|(?P<each>{language.each})) )?{adjectives}"
        rf"(?:(?P<colour>{_names(language.colours)}) )?{adjectives}"
        r"(?:(?P<before>[a-h][1-8]|[a-h](?=-))[- ])?"
        rf"(?P<piece>{_names((*language.pieces, *language.plurals))})"
        rf"(?:(?: (?:{language.prepositions}))? (?P<square>[a-h][1-8]))?"
        rf"(?:(?: {language.of})? (?P<whose>{sides})(?!'))?\b(?!-))"
    )
    return re.compile(
        f"{move}|{piece}"
        rf"|\b(?P<side>{sides})\b"
        rf"|(?i:\b{language.files})"
        r"|\b(?P<at>[a-h][1-8])\b"
        rf"|(?i:\b(?P<times>{_names(language.times)})\b)"
        rf"|(?i:\b(?P<count>\d+|{_names(language.numbers)})\b)"
    )


def _slot_of(match: re.Match[str], found: Slotted, language: Language, places: Places) -> str:
    """Put one thing that was found into a slot."""
    text = match[0]
    if match["move"]:
        return _move(match, found, language, places)
    if match["piece"]:
        return _piece(match, found, language)
    if match["side"]:
        return found.add("S", language.sides[match["side"]], text)
    if match["file"]:
        return found.add("L", match["file"].lower(), text)
    if match["at"]:
        return found.add("Q", match["at"], text)
    if match["times"]:
        return found.add("T", language.times[match["times"].lower()], text)
    said = match["count"].lower()
    return found.add("N", int(said) if said.isdigit() else language.numbers[said], text)


def _move(match: re.Match[str], found: Slotted, language: Language, places: Places) -> str:
    text = match["move"] + (match["sign"] or "")
    number = int(match["number"]) if match["number"] else None
    dots = match["dots"] or ""
    black = None
    if match["more"] or len(dots) == 3 or dots == "…":
        black = True
    elif dots:
        black = False
    if number is None and black is None and (piece := _standing(match["move"], language, places)):
        return found.add("P", piece, match[0])
    named = places.named(text, number=number, black=black)
    if named is None and re.fullmatch(r"[a-h][1-8]", match["move"]):
        return found.add("Q", match["move"], match[0])
    return found.add("X" if named is None else "M", named, match[0])


def _standing(text: str, language: Language, places: Places) -> PieceNamed | None:
    """Return the piece that ``Nd5`` is the name of: it stands there, and has not just come."""
    if not re.fullmatch(r"[^\W\da-h][a-h][1-8]", text):
        return None
    letters = letters_of(language.name)
    symbol = "PNBRQK"[letters.index(text[0])] if text[0] in letters else ""
    piece = places.moment.board.piece_at(chess.parse_square(text[1:]))
    if piece is None or piece.symbol().upper() != symbol:
        return None
    played = places.moment.move
    if played is not None and chess.square_name(played.to_square) == text[1:]:
        return None
    return PieceNamed(letter=symbol, side=piece.color, owned=False, where=text[1:], word=text)


def _piece(match: re.Match[str], found: Slotted, language: Language) -> str:
    word = match["piece"].lower()
    if word in language.plurals or match["each"]:
        return found.add("X", None, match[0])
    side: bool | None = None
    owner = match["own"]
    if owner is not None:
        side = next(value for key, value in language.owners.items() if key.lower() == owner.lower())
    if match["colour"]:
        side = language.colours[match["colour"].lower()]
    if match["whose"]:
        side = language.sides[match["whose"]]
    where = (match["square"] or match["before"] or "").lower()
    piece = PieceNamed(
        letter=language.pieces[word],
        side=side,
        owned=owner is not None and side is None,
        where=where,
        word=word,
    )
    definite = match["the"] or owner or where or match["colour"] or match["whose"]
    return found.add("P" if definite else "A", piece, match[0])
