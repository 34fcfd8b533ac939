"""Exercise sheets: questions collected over the games and positions of a course."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from os import PathLike
from typing import Any

from chessnb.board.naming import counted
from chessnb.errors import InputError
from chessnb.findings import Record, content, gathered, sealed, typeset
from chessnb.findings.gathering import aside
from chessnb.findings.record import NOWHERE
from chessnb.lessons import Lesson
from chessnb.lessons.slips import check_lesson
from chessnb.mistakes import checked
from chessnb.motifs import scan
from chessnb.motifs.glossary import named
from chessnb.motifs.lesson_scan import Ranked
from chessnb.proof import Gain, Mate, Proof
from chessnb.teaching.questions.course_games import lessons_in
from chessnb.teaching.questions.kinds.move_to_find import find_move
from chessnb.teaching.questions.levels import read_level
from chessnb.teaching.questions.question_values import Question, QuestionError


class Sheet(tuple[Question, ...]):
    """Questions as an exercise sheet shows them: a number, a board and a prompt for each."""

    def __new__(cls, questions: Iterable[Question] = ()) -> Sheet:
        """Make one of any questions, or of none."""
        return super().__new__(cls, questions)

    @property
    def records(self) -> tuple[Record, ...]:
        """A record for each question."""
        return tuple(question.record for question in self)

    @property
    def card(self) -> str:
        """What the card shows, as HTML."""
        if not self:
            return content("No question was found.")
        return "".join(
            content(f"{number}. {question.prompt}", picture=question.picture)
            for number, question in enumerate(self, start=1)
        )

    @property
    def words(self) -> str:
        """How many there are."""
        return counted(len(self), "question")

    def __str__(self) -> str:
        none = Record(place=NOWHERE, kind="question", fields=("none",), status="given")
        return "\n".join(map(str, self.records or (none,)))

    def _repr_html_(self) -> str:
        return sealed(str(self), typeset(self.card))

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": str(self), "text/html": self._repr_html_()}

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        # IPython prints every tuple in its own way, whatever the bundle says.
        printer.text(str(self))


@gathered
@checked
def collect(
    lessons: Lesson | Iterable[Lesson] | str | PathLike[str],
    *,
    motif: str | None = None,
    level: str | None = None,
    most: int | None = None,
    hints: bool = True,
) -> Sheet:
    r"""Collect questions over lessons: every position with a move that wins by a tactic.

    Parameters
    ----------
    lessons : Lesson, several, or a path
        Where to look, sidelines included: a path names a game file, or a
        folder whose game files are all read.
    motif : str, optional
        Only moves that show this tactic, by its name or what it is also called.
    level : {"beginner", "club", "strong"}, optional
        For whom: longer solutions are left out for the weaker levels; by
        default each lesson's own level.
    most : int, optional
        So many at most, the most telling.
    hints : bool
        Give hints, as the level has them.

    Returns
    -------
    Sheet
        The most telling first; each position once.

    Raises
    ------
    GameFileError
        If a file cannot be used, or a folder holds none.
    LessonError
        If there is no such tactic.
    InputError
        If no such level.

    Examples
    --------
    >>> game = '[FEN "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"]\n\n1. Nc7+ Kd7 2. Nxa8'
    >>> [question.right[0].text for question in collect(Lesson.from_text(game), motif="fork")]
    ['Nc7+']

    Notes
    -----
    A fiftieth of a second a move for the scan, and a second or so for each question.
    """
    wanted = {one.name for one in named(motif)} if motif is not None else None
    read_level(level)
    several = [lessons] if isinstance(lessons, Lesson) else _each(lessons)
    found: list[tuple[int, Ranked]] = []
    with aside():
        for lesson in several:
            found += [(-one.weight, one) for one in scan(lesson)]
        found.sort(key=lambda entry: entry[0])
        return Sheet(_made([one for _, one in found], wanted, level, most, hints=hints))


def _each(lessons: object) -> Iterator[Lesson]:
    if isinstance(lessons, str | PathLike):
        yield from lessons_in(lessons)
        return
    if not isinstance(lessons, Iterable):
        raise InputError("lessons are a lesson or a list of lessons", given=lessons)
    for lesson in lessons:
        check_lesson(lesson, call="questions.collect")
        yield lesson


def _made(
    found: list[Ranked],
    wanted: set[str] | None,
    level: str | None,
    most: int | None,
    *,
    hints: bool,
) -> Iterator[Question]:
    """Make the questions, each position once."""
    met: set[str] = set()
    for one in found:
        if most is not None and len(met) >= most:
            return
        made = _question(one, wanted, level, hints=hints)
        if made is not None and made.fen not in met:
            met.add(made.fen)
            yield made


def _question(
    one: Ranked, wanted: set[str] | None, level: str | None, *, hints: bool
) -> Question | None:
    """Make the question for a position of a scan; None if it is not one that is wanted."""
    tags = [tag for tag in one.tags if tag.proof is not None]
    if wanted is not None and not any(tag.motif in wanted for tag in tags):
        return None
    before = one.moment.back
    if before is None or one.moment.move is None or not tags:
        return None
    proof = tags[0].proof
    if proof is None or proof.moves > read_level(level, one.moment).moves:
        return None
    try:
        return find_move(
            before, right=one.moment.move, hints=hints, level=level, **_asked_for(proof)
        )
    except QuestionError:  # what the move wins counts from before a trade, or is won back
        return None


def _asked_for(proof: Proof) -> dict[str, Any]:
    """Return what is asked for where a proof stands behind the tactic."""
    if isinstance(proof.goal, Mate) or proof.mates:
        return {"mate": max(1, proof.moves)}
    if isinstance(proof.goal, Gain):
        return {"at_least": proof.goal.points, "within": max(1, proof.moves)}
    return {"draw": True}
