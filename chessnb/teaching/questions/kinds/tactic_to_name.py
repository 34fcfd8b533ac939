"""Name the tactic: what a move shows, by its name or what else it is called.

Every tactic that the move is proved to win by is right.  One whose picture is
on the board without winning is right in part; for any other the part of its
definition that fails is told.
"""

from __future__ import annotations

import re

import chess

from chessnb.board.position import Position
from chessnb.errors import LessonError
from chessnb.findings import gathered
from chessnb.findings.gathering import aside
from chessnb.mistakes import checked, same_name
from chessnb.motifs import MOTIFS, Motif, Tag, explain, tag
from chessnb.motifs.glossary import named
from chessnb.motifs.move_tags import case_of
from chessnb.motifs.near_miss import why_not
from chessnb.notation import LineLike, MoveLike, write_line
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import (
    AnswerError,
    Graded,
    Hint,
    Question,
    QuestionError,
    Right,
    graded,
)

NAME = "name the tactic"


@gathered
@checked
def name_tactic(
    position: Position,
    move: MoveLike | None = None,
    *,
    line: LineLike = (),
    right: str | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask which tactic a move shows.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move; or, without `move`, a position of a
        lesson: then the move is the one that led there.
    move : str or chess.Move, optional
        The move.
    line : str or sequence of moves
        What follows, where that says which of several ways is meant.
    right : str, optional
        The tactic that you say it is; another is refused.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        If the move is proved to win by no tactic, or not by the one you name.

    Examples
    --------
    >>> asked = name_tactic("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")
    >>> asked.prompt, [one.text for one in asked.right]
    ('Which tactic does 1. Nc7+ use?', ['fork'])
    """
    case = case_of(position, move, line=line)
    before, played = case.before, case.move
    asked = Asked.of(before)
    with aside():
        tags = tag(before, played, line=case.line, geometric=True)
    sound = _first_of_each([one for one in tags if one.sound or one.as_played])
    others = [one for one in tags if one.motif not in {known.motif for known in sound}]
    if not sound:
        raise QuestionError(
            f"{write_line(before, [played])} wins by no tactic that is proved", board=before
        )
    if right is not None and not {one.motif for one in sound} & {one.name for one in named(right)}:
        names = ", ".join(one.motif for one in sound)
        raise QuestionError(
            f"{write_line(before, [played])} is not {right!r} (it is {names})", board=before
        )
    actor = chess.parse_square(sound[0].actor)
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or f"Which tactic does {write_line(before, [played])} use?",
        right=tuple(map(_right, sound)),
        also=tuple(map(_right, _first_of_each(others))),
        about=_about(played, case.line),
        side=before.turn,
        hints=given_hints(
            hints,
            read_level(level, position),
            hinting.area([actor, *map(chess.parse_square, sound[0].targets)]),
            hinting.idea(_idea(sound[0])),
            Hint(sort="first move", text=f"{explain(sound[0].motif).definition}"),
        ),
        status="proved" if sound[0].sound else "searched",
    )


def _first_of_each(tags: list[Tag]) -> list[Tag]:
    found: dict[str, Tag] = {}
    for one in tags:
        found.setdefault(one.motif, one)
    return list(found.values())


def _about(move: chess.Move, line: tuple[chess.Move, ...]) -> str:
    return " ".join(one.uci() for one in (move, *line))


def _right(one: Tag) -> Right:
    return Right(
        key=one.motif, text=one.motif, sentence=f"{one.sentence}.", line=one.steps, marks=one.marks
    )


def _idea(one: Tag) -> str:
    count = len(one.targets)
    if count > 1:
        return f"It is about {count} pieces or squares at once."
    return "Ask what it does to one piece."


# -- answers -----------------------------------------------------------------

_AROUND = re.compile(r"^(?:it is |it's |this is |that is )?(?:an? |the )?", re.IGNORECASE)


def _grade(question: Question, text: str, language: str) -> Graded:
    motifs = _motifs(text)
    names = {one.name for one in motifs}
    for one in question.right:
        if one.key in names:
            return graded(
                question, "right", f"Right: {one.sentence}", line=one.line, marks=one.marks
            )
    for one in question.also:
        if one.key in names:
            sentence = f"Right in part: {one.sentence} But it is not what wins."
            return graded(question, "part", sentence, line=one.line, marks=one.marks)
    for one in question.right:
        if _are_kin(explain(one.key), motifs):
            sentence = f"Right in part: it is a kind of that; which? {explain(one.key).definition}"
            return graded(question, "part", sentence)
    first, *line = [chess.Move.from_uci(uci) for uci in question.about.split()]
    reason, shown = why_not(case_of(question.board, first, line=line), motifs[0])
    return graded(question, "wrong", f"It is not {motifs[0].in_words}: {reason}.", line=shown)


def _motifs(text: str) -> tuple[Motif, ...]:
    """Read the name of a tactic.

    Raises
    ------
    AnswerError
        If there is none of that name, with the nearest.
    """
    said = _AROUND.sub("", text.strip(" .!?"))
    try:
        return named(said)
    except LessonError as error:
        raise AnswerError(str(error), given=text) from None


_KIN = (
    ("discovered attack", "discovered check", "double check"),
    ("absolute pin", "relative pin"),
    ("deflection", "decoy", "removing the defender", "overloaded piece"),
)
"""Tactics of one family: who names the neighbour has seen something."""


def _are_kin(one: Motif, others: tuple[Motif, ...]) -> bool:
    return any(
        any(same_name(one.name, name) for name in family)
        and any(same_name(other.name, name) for name in family for other in others)
        for family in _KIN
    )


assert {name for family in _KIN for name in family} <= {motif.name for motif in MOTIFS}

KIND = Kind(name=NAME, asks="which tactic a move is", grade=at_once(_grade))
