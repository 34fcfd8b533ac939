"""Reading what an annotator's sentences state.

Where a sentence could mean two things, is hedged, asks, commands, or tells of
another world than the game's, nothing is read: silence is better than a claim
that nobody made.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import chess

from chessnb.lessons import Moment
from chessnb.teaching.statements.english import ENGLISH
from chessnb.teaching.statements.kinds import statement_of
from chessnb.teaching.statements.language import Language, Pattern
from chessnb.teaching.statements.meaning import Meaning
from chessnb.teaching.statements.mentions import PieceNamed, Slotted, slotted
from chessnb.teaching.statements.places import Named, Places
from chessnb.teaching.statements.sentence_breaks import sentences
from chessnb.teaching.statements.statement import Statement


def read_statements(
    text: str, moment: Moment, *, language: Language = ENGLISH
) -> tuple[Statement, ...]:
    """Read what a text states about a position and the moves around it.

    Parameters
    ----------
    text : str
        A comment, or Markdown prose without code.
    moment : Moment
        The position that the text is about: a comment stands behind the move that led there.
    language : Language
        Its words and patterns.

    Returns
    -------
    tuple of Statement
        In the order of the text; empty where nothing is stated that could be proved, or it is
        not clear what.

    Examples
    --------
    >>> from chessnb.lessons import Lesson
    >>> lesson = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 d6")
    >>> said = read_statements("The knight on c6 is pinned to the king.", lesson.after("3... d6"))
    >>> [one.parts for one in said]
    [('pinned', 'Nc6', 'Ke8')]
    """
    reading = _Reading(moment=moment, language=language)
    return tuple(found for said in sentences(text) for found in reading.sentence(said))


@dataclass(kw_only=True)
class _Reading:
    """What has been read of a text so far: what its pronouns can mean."""

    moment: Moment
    language: Language
    side: chess.Color | None = None
    piece: PieceNamed | None = None
    told: Named | None = None
    used: list[tuple[int, int]] = field(default_factory=list)

    def sentence(self, said: str) -> Iterator[Statement]:
        """Yield what a sentence states."""
        language = self.language
        places = Places(self.moment, language=language.name)
        places.told = self.told
        slots = slotted(said, language, places)
        _resolve_takes(slots, self.moment, language)
        for form, each in language.joined.items():
            slots.form = re.sub(form, each, slots.form)
        if self._states(said, slots):
            yield from self._statements(said, slots)
        self._remember(slots)

    def _states(self, said: str, slots: Slotted) -> bool:
        """Tell whether a sentence states anything at all."""
        bare = said.rstrip("\"')]”’ ")
        if bare.endswith("?") and not re.search(r"[1-8+#]\?+$", bare):
            return False
        plain = slots.form
        language = self.language
        return not (
            re.search(language.hedges, plain)
            or (re.search(language.commands, plain) and ":" not in plain)
            or (
                re.search(r"\?", said.replace("?!", "").replace("!?", "").rstrip("?"))
                and not re.search(r"[1-8+#]\?", said)
            )
        )

    def _statements(self, said: str, slots: Slotted) -> Iterator[Statement]:
        used: list[tuple[int, int]] = []
        if re.search(self.language.commands, slots.form):
            used.append((0, slots.form.index(":")))  # "Look at f7: two attackers, one defender."
        found: list[tuple[int, Statement]] = []
        for pattern in self.language.patterns:
            for match in pattern.form.finditer(slots.form):
                if any(match.start() < end and begin < match.end() for begin, end in used):
                    continue
                if (statement := self._statement(said, slots, pattern, match)) is not None:
                    used.append(match.span())
                    found.append((match.start(), statement))
        yield from (one for _, one in sorted(found, key=lambda entry: entry[0]))

    def _statement(
        self, said: str, slots: Slotted, pattern: Pattern, match: re.Match[str]
    ) -> Statement | None:
        if self._is_denied_outside(slots.form, match) or self._is_unreal(slots, match):
            return None
        if pattern.kind in _EXACT and self._goes_on(slots.form[match.end() :]):
            return None
        meaning = Meaning(
            said=said, slots=slots, match=match, pattern=pattern, moment=self.moment,
            language=self.language, side_before=self.side, piece_before=self.piece,
        )  # fmt: skip
        return statement_of(meaning)

    def _goes_on(self, rest: str) -> bool:
        """Tell whether a part follows that says more than was read: "pinned … *to the king*"."""
        return bool(re.match(rf",? (?:{self.language.qualifiers}) ⟦[PAQXL]", rest))

    def _is_denied_outside(self, form: str, match: re.Match[str]) -> bool:
        """Tell whether a word denies that stands in the clause, and not in the pattern."""
        before, after = form[: match.start()], form[match.end() :]
        breaks = [one.end() for one in re.finditer(self.language.breaks, before)]
        ends = re.search(self.language.breaks, after)
        clause = before[breaks[-1] if breaks else 0 :]
        rest = after[: ends.start()] if ends else after
        return bool(re.search(self.language.denials, f"{clause} | {rest}"))

    def _is_unreal(self, slots: Slotted, match: re.Match[str]) -> bool:
        """Tell whether the sentence is about what is not in the game, and cannot be followed."""
        around = slots.form[: match.start()] + " | " + slots.form[match.end() :]
        if re.search(self.language.unreal, around):
            return True
        conditions = re.finditer(rf"{self.language.conditions}(?P<rest>[^,;]*)", around)
        return any("⟦M" not in one["rest"] for one in conditions)

    def _remember(self, slots: Slotted) -> None:
        """Keep what a pronoun of the next sentence may mean."""
        sides = [slots.meant[slot] for slot, _ in slots.slots("S")]
        named = [side for side in sides if isinstance(side, bool)]
        if named:
            self.side = named[-1] if len(set(named)) == 1 else None
        pieces = [slots.meant[slot] for slot, _ in slots.slots("P")]
        if pieces and isinstance(pieces[0], PieceNamed):
            self.piece = pieces[0]
        moves = [slots.meant[slot] for slot, _ in slots.slots("M")]
        self.told = moves[-1] if moves and isinstance(moves[-1], Named) else None
        if self.told is not None and (self.told.passed or self.told.instead):
            self.told = None


_EXACT = frozenset(
    {
        "mate", "checkmate", "pinned", "threatens", "wins", "loses", "attacks", "attacked",
        "defended", "undefended", "hanging", "shows", "material", "trapped", "perpetual",
        "cannot take", "cannot be taken", "cannot move", "only move",
    }
)  # fmt: skip
"""Kinds of which half is another statement."""


def _resolve_takes(slots: Slotted, moment: Moment, language: Language) -> None:
    """Put the move in place of "if the king takes", where one capture is meant."""
    form = rf"(?P<given>{language.given} )⟦(?P<who>[PS]\d+)⟧ (?:{language.takes})" + (
        rf"(?: ⟦(?P<what>[PQ]\d+)⟧| (?:{language.its}|back))?(?= ?[,:;]|$| then| and)"
    )
    board = moment.board

    def put(match: re.Match[str]) -> str:
        who = slots.meant[int(match["who"][1:])] if match["who"] else None
        what = slots.meant[int(match["what"][1:])] if match["what"] else None
        moves = [
            move
            for move in board.legal_moves
            if board.is_capture(move) and _is_goal(board, move, what) and _fits(board, move, who)
        ]
        if len(moves) != 1:
            return match[0]
        named = Named(at=moment, move=moves[0], line=(moves[0],))
        return match["given"] + slots.add("M", named, match[0])

    slots.form = re.sub(form, put, slots.form)
    gerund = rf"(?P<given>(?:^|(?<=[,;:] )))(?:{language.taking}) ⟦(?P<what>[PQ]\d+)⟧"
    slots.form = re.sub(rf"{gerund}(?: with ⟦(?P<who>P\d+)⟧)?(?= \w)", put, slots.form)


def _is_goal(board: chess.Board, move: chess.Move, what: object) -> bool:
    """Tell whether a capture takes what is named; else the piece that has just moved."""
    if isinstance(what, str):
        return chess.square_name(move.to_square) == what
    if isinstance(what, PieceNamed):
        piece = board.piece_at(move.to_square)
        there = chess.square_name(move.to_square).startswith(what.where)
        return piece is not None and piece.symbol().upper() == what.letter and there
    return bool(board.move_stack) and move.to_square == board.peek().to_square


def _fits(board: chess.Board, move: chess.Move, who: object) -> bool:
    if isinstance(who, PieceNamed):
        piece = board.piece_at(move.from_square)
        square = chess.square_name(move.from_square)
        return (
            piece is not None
            and piece.symbol().upper() == who.letter
            and (who.side is None or who.side == board.turn)
            and (not who.where or square.startswith(who.where))
        )
    return who is None or who == board.turn
