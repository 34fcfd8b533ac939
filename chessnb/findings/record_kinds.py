"""The vocabulary of records: every kind of finding, its fields in order, and how it may be known.

A kind's fields are written in a small notation.  Fields stand between bars;
words in capitals are what :data:`TOKENS` describes, all other words stand for
themselves; ``[…]`` may be left out, ``(a|b)`` is one or the other, and a field
that ends in ``...`` may come any number of times.  ``[SIDE]`` is left out
where the place is a move: then it is the side that makes it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

_SAN = r"(?:[KQRBN][a-h]?[1-8]?x?[a-h][1-8]|[a-h](?:x[a-h])?[1-8](?:=[QRBN])?|O-O(?:-O)?|--)[+#]?"
_TEXT = r'"(?:[^"\\|\x00-\x1f]|\\["\\|n]|\\u\{[0-9a-f]+\})*"'
_PATH = rf"[0-9]+\.(?:\.\.)? {_SAN}(?: (?:[0-9]+\.(?:\.\.)? )?{_SAN})*"


@dataclass(frozen=True, kw_only=True)
class Token:
    """What a word in capitals stands for: in words, and as a pattern."""

    says: str
    pattern: str


def _several(pattern: str) -> str:
    return rf"{pattern}(?: {pattern})*"


TOKENS: dict[str, Token] = {
    "N": Token(says="a whole number", pattern=r"-?[0-9]+"),
    "SIDE": Token(says="white or black", pattern=r"(?:white|black)"),
    "WING": Token(says="kingside or queenside", pattern=r"(?:kingside|queenside)"),
    "SQUARE": Token(says="a square: f6", pattern=r"[a-h][1-8]"),
    "SQUARES": Token(says="squares: a5 d4", pattern=_several(r"[a-h][1-8]")),
    "FILES": Token(says="letters of files: c e", pattern=_several(r"[a-h]")),
    "PIECE": Token(
        says="a piece or pawn by its English letter and square: Nc6, Pe4",
        pattern=r"[KQRBNP][a-h][1-8]",
    ),
    "PIECES": Token(says="several of these: Qf5 Re8", pattern=_several(r"[KQRBNP][a-h][1-8]")),
    "THINGS": Token(
        says="pieces, pawns and empty squares: Qf5 e4", pattern=_several(r"[KQRBNP]?[a-h][1-8]")
    ),
    "LETTERS": Token(
        says="letters of pieces without squares, the dearest first: RPP", pattern=r"[QRBNP]+"
    ),
    "MATERIAL": Token(
        says="White's pieces against Black's, each king first: KRPP-KRP",
        pattern=r"K[QRBNP]*-K[QRBNP]*",
    ),
    "SAN": Token(says="a move in SAN (PGN standard, 8.2.3): Nf3+", pattern=_SAN),
    "SANS": Token(says="moves in SAN: Kf1 Kh1", pattern=_several(_SAN)),
    "MOVES": Token(says="moves with their numbers: 20... Nf3+ 21. Kh1", pattern=_PATH),
    "MOTIF": Token(
        says="the name of a tactic or of a pattern, as motifs.names() has it",
        pattern=r"[a-z]+(?:[- ][a-z]+){0,3}",
    ),
    "ASKED": Token(
        says="what sort of question it is, as questions.names() has it",
        pattern=r"[a-z]+(?: [a-z]+){0,5}",
    ),
    "FEN": Token(
        says="a position in Forsyth-Edwards Notation (PGN standard, 16.1)",
        pattern=r"[1-8KQRBNPkqrbnp/]+ [wb] (?:-|[A-Ha-hKQkq]+) (?:-|[a-h][36]) [0-9]+ [0-9]+",
    ),
    "TEXT": Token(
        says='somebody\'s own words in double quotation marks: "easier for White"',
        pattern=_TEXT,
    ),
}
"""What the fields of records consist of, beside words that stand for themselves."""

PLACE = re.compile(rf"{_PATH}|[0-9]+\.(?:\.\.)?|{_TEXT}|-")
"""The place of a record; see :mod:`chessnb.findings.record`."""

STATUSES: dict[str, str] = {
    "rules": "follows from the rules of chess alone",
    "proved": "every part that needed a search was replayed by the checker",
    "searched": "rests, at least in part, on a search that came to its end and was not replayed",
    "not proved": "the search ended without an answer: it may be true or false",
    "wrong": "is contradicted",
    "judgement": "is the teacher's opinion",
    "opinion": "is an engine's opinion, and not compared",
    "given": "is what the lesson or the game holds: nothing is claimed",
}
"""How what a record says is known."""


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A kind of finding.

    Attributes
    ----------
    says : str
        What a record of the kind says.
    fields : str
        Its fields; see the module.
    """

    says: str
    fields: str = ""


KINDS: dict[str, Kind] = {
    # what is forced
    "mates": Kind(says="mate in at most N moves", fields="[SIDE] | N"),
    "fastest mate": Kind(says="mate in N moves, and not in fewer", fields="SIDE | N"),
    "wins": Kind(
        says="a gain of at least N points within N moves", fields="[SIDE] | N points | within N"
    ),
    "mates or wins": Kind(
        says="mate in N moves, or a gain", fields="[SIDE] | mate N | N points | within N"
    ),
    "perpetual": Kind(says="perpetual check", fields="[SIDE]"),
    "forces stalemate": Kind(says="stalemate within N moves", fields="[SIDE] | within N"),
    "forced": Kind(
        says="along the line every move of the side is forced: so many are the only legal ones, "
        "and in place of so many everything else is mated, no later than in a line that ends in "
        "mate after N moves, or within N moves",
        fields="SIDE | MOVES | [(mate N|within N)] | [only moves N] | [others mated N]",
    ),
    # plans
    "threatens": Kind(
        says="what the side that is not to move would do after a pass, and what it brings",
        fields="(SAN|TEXT) | [mate N] | [N points | within N]",
    ),
    "parries": Kind(
        says="the move prevents a threat; the threat is named where the teacher named it",
        fields="[(SAN|TEXT)] | [mate N] | [N points | within N]",
    ),
    "only defence": Kind(
        says="every other move allows mate in N (or loses N points within N)",
        fields="mate N | [N points | within N]",
    ),
    "must check": Kind(
        says="every move of the side to move that gives no check allows mate in N, and a check "
        "is there that does not",
        fields="mate N",
    ),
    "loses": Kind(
        says="the move loses at least N points; another would lose two less, or nothing",
        fields="N points | within N | [better SAN]",
    ),
    "allows mate": Kind(
        says="the move allows mate in N; after another no such mate was found",
        fields="N | [better SAN]",
    ),
    "zugzwang": Kind(
        says="every move of the side to move allows mate in N or loses N points within N, and a "
        "pass would not",
        fields="mate N | N points | within N",
    ),
    # pieces and squares
    "attacked": Kind(
        says="the square, or what stands on it, is attacked and defended by so many",
        fields="(PIECE|SQUARE) | [SIDE] | [attackers N] | [defenders N]",
    ),
    "defended": Kind(says="what stands there is defended", fields="(PIECE|SQUARE) | [defenders N]"),
    "pinned": Kind(
        says="the piece is pinned to another by a third",
        fields="(PIECE|SQUARE) | [to (PIECE|SQUARE)] | [by PIECE]",
    ),
    "trapped": Kind(
        says="the piece is lost within N moves, whatever its side does",
        fields="(PIECE|SQUARE) | within N",
    ),
    "pawn": Kind(
        says="the pawn is of a kind", fields="(PIECE|SQUARE) | (isolated|doubled|passed|backward)"
    ),
    "shows": Kind(says="the move shows a tactic, and wins by it", fields="MOTIF"),
    "tactic": Kind(
        says="a tactic: what acts, on what, and what is proved to be won; none: none was found",
        fields="MOTIF | [SIDE] | [by (PIECE|SQUARE)] | [on THINGS]"
        " | [(mate N|N points|stalemate N|perpetual)]",
    ),
    "pattern": Kind(
        says="a fact about pawns or squares that is no tactic",
        fields="MOTIF | SIDE | [by (PIECE|SQUARE)] | [on THINGS]",
    ),
    # the rules
    "legal": Kind(says="the move is legal; text where it cannot be read", fields="[TEXT]"),
    "illegal": Kind(says="the move is not legal", fields="TEXT"),
    "refuted": Kind(
        says="another claim is wrong; the text is its kind and its fields", fields="TEXT"
    ),
    "only legal move": Kind(says="the move is the only legal one"),
    "can castle": Kind(says="castling is possible now", fields="SIDE | WING"),
    "cannot castle": Kind(
        says="castling is not possible now; where it was claimed, whether the right stands or "
        "has gone",
        fields="SIDE | WING | [(not now|no more)]",
    ),
    "checkmate": Kind(says="the side to move is mated"),
    "drawn": Kind(
        says="the game is drawn; the position has occurred N times, and there were N half-moves "
        "without pawn move or capture",
        fields="[stalemate] | [dead position] | [repetition] | [fifty moves] | [occurred N]"
        " | [quiet N]",
    ),
    "may claim draw": Kind(
        says="the side to move may claim a draw, at once or by writing down a move",
        fields="[occurred N] | [repeating SANS] | [quiet N] | [fiftieth SANS]",
    ),
    # facts
    "material": Kind(
        says="what each side has more than the other, who is ahead and by how much; text for a "
        "claim in the teacher's words",
        fields="[TEXT] | [white LETTERS] | [black LETTERS] | [(even|SIDE N points)]"
        " | [bishop pair SIDE] | [opposite bishops]",
    ),
    "pawns": Kind(
        says="the pawns that have a name; nothing: there are none",
        fields="SIDE (isolated|doubled|passed|backward) SQUARES...",
    ),
    "files": Kind(
        says="the open files, and those half-open for a side",
        fields="[open FILES] | [half-open white FILES] | [half-open black FILES]",
    ),
    "structure": Kind(
        says="weak and passed pawns with what stops these, majorities, holes, outposts and who "
        "is there or can be within N moves, bad bishops, files that are held, gaps before a king; "
        "all of it, or the parts that were asked about",
        fields="about (weak pawns|passed pawns|outposts|holes|bishops|files|majorities|kings)..."
        " | SIDE (isolated|doubled|backward) SQUARES..."
        " | SIDE passed SQUARE (blocked PIECE|covered PIECES|free)..."
        " | SIDE majority WING N to N[ doubled]..."
        " | SIDE holes SQUARES..."
        " | SIDE outpost SQUARE[ (held by|within N of) PIECE]..."
        " | SIDE bad PIECE behind SQUARES..."
        " | SIDE (open|half-open) FILES by PIECES..."
        " | SIDE gaps FILES before PIECE...",
    ),
    "ending": Kind(
        says="the name of an ending, or none; in pawn endings who has the opposition, the key "
        "squares of a single pawn, whether the king is in a pawn's square; and where it is worked "
        "out what comes of it with either side to move",
        fields="(none|MATERIAL)"
        " | [opposition (direct|distant|diagonal) SIDE] | [key squares SQUARES[ reached]]"
        " | SIDE pawn SQUARE (in|out of) reach..."
        " | SIDE to move: (drawn|won SIDE[ mate N])...",
    ),
    "castling": Kind(
        says="whether a side may castle there, may not for the time being, or has lost the right",
        fields="SIDE WING (can|not now|no more)...",
    ),
    "draw": Kind(
        says="whether the game is drawn or a draw may be claimed, and why; the counts as in "
        "drawn, the first left out where the moves before are not known",
        fields="(none|drawn|may be claimed|checkmate) | [stalemate] | [dead position]"
        " | [occurred N] | [repeating SANS] | [quiet N] | [fiftieth SANS]",
    ),
    "pressure": Kind(
        says="who attacks a square and who defends it, and what does not count",
        fields="SQUARE | SIDE attackers N[: PIECES] | SIDE defenders N[: PIECES]"
        " | [not counted: PIECES]",
    ),
    "exchange": Kind(
        says="what a side gains by beginning to take on a square; none: it cannot",
        fields="SQUARE | SIDE | (none|N points)",
    ),
    "changes": Kind(
        says="what the move takes, attacks, pins, uncovers, leaves and threatens by the rules "
        "alone",
        fields="[takes PIECE[ en passant]]"
        " | [(check|discovered check|double check|checkmate|stalemate)] | [mates next]"
        " | [castles WING] | [promotes LETTERS] | [attacks PIECES] | [uncovers PIECES]"
        " | [pins PIECES] | [gets pinned PIECES] | [undefended PIECES]"
        " | threatens PIECE N points..."
        " | offers PIECE N points... | leaves PIECE N points... | [parries PIECES]"
        " | ends castling SIDE WING..."
        " | [passed PIECES] | [isolated PIECES] | [doubled PIECES] | [backward PIECES]"
        " | [opens FILES] | [half-opens FILES]",
    ),
    "purpose": Kind(
        says="what was made of the move within three moves: a square or line that it left for "
        "another piece, a square that it defended, took from a king that was mated or left for "
        "its own king, a square that the piece was going to; and the move that made use of it",
        fields="(square|line|guard|flight|room|route) SQUARE: SAN...",
    ),
    # tables and charts
    "replies": Kind(
        says="how many legal replies there are, or how many that take on a square, and which of "
        "them come to what, best first",
        fields="[taking SQUARE] | N | (checkmate|mates N|wins N points|nothing found|draw"
        "|stalemate|not proved|offers N points|loses N points|mated N): SANS...",
    ),
    "chart": Kind(
        says="a number over a stretch of moves: at its start, and after each move that changed it",
        fields="(material|pressure SIDE SQUARE|mobility PIECE) | (start|MOVES): N[/N]...",
    ),
    # what is not claimed
    "position": Kind(says="the position", fields="FEN"),
    "board": Kind(says="a live board that begins with a position", fields="FEN"),
    "explore": Kind(says="a lesson to play through, and where it opens", fields="TEXT | FEN"),
    "lesson": Kind(
        says="what a lesson holds",
        fields="[moves N] | [sidelines N] | [comments N] | [positions N]",
    ),
    "saved": Kind(
        says="what a file holds that was written",
        fields="[moves N] | [sidelines N] | [comments N] | [positions N]",
    ),
    "question": Kind(
        says="what is asked, never what is right; how many answers there are, where the rules say "
        "so and all are wanted; none: nothing was found to ask",
        fields="(none|ASKED | [answers N] | N points)",
    ),
    "judgement": Kind(says="what the teacher thinks", fields="TEXT"),
    "engine": Kind(says="an engine was asked; what it said is not compared"),
}
"""Every kind of record, by its name."""


@cache
def fields_pattern(kind: str) -> re.Pattern[str]:
    """Return the pattern of a kind's fields, each with the bar before it."""
    parts = KINDS[kind].fields.split(" | ") if KINDS[kind].fields else []
    return re.compile("".join(map(_with_bar, _joined(parts))))


def _joined(parts: list[str]) -> list[str]:
    """Put together again what stands in one pair of brackets over several fields."""
    joined: list[str] = []
    for part in parts:
        if joined and joined[-1].count("[") > joined[-1].count("]"):
            joined[-1] += f" | {part}"
        else:
            joined.append(part)
    return joined


def _with_bar(part: str) -> str:
    if part.endswith("..."):
        return rf"(?: \| {_pattern(part[:-3])})*"
    if part.startswith("[") and part.endswith("]"):
        return rf"(?: \| {_pattern(part[1:-1])})?"
    return rf" \| {_pattern(part)}"


_SIGNS = {"[": "(?:", "]": ")?", "(": "(?:", ")": ")", "|": "|", " | ": r" \| "}


def _pattern(part: str) -> str:
    words = re.findall(r" \| |[A-Z]+|[\[\]()|]|[^A-Z\[\]()|]", part)
    return "".join(
        _SIGNS.get(word) or (TOKENS[word].pattern if word in TOKENS else re.escape(word))
        for word in words
    )
