"""What a check of lessons found, as values and as a teacher's lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any, Literal

from chessnb.notebooks import place_in_words

Kind = Literal[
    "changed",
    "found-more",
    "earlier-form",
    "card",
    "new",
    "error",
    "timeout",
    "kernel-died",
    "not-run",
    "nothing-saved",
    "switched-off",
    "prose",
    "unproved",
    "wrong-sentence",
    "judgement",
    "put-in",
    "unusable",
]
"""What sort of complaint it is.

``unusable`` is the only one that means: not checked at all; ``unproved`` and
``wrong-sentence`` are notes, ``judgement`` is a sentence that the teacher has marked as one,
``new`` and ``put-in`` are only news.  After ``found-more`` and ``earlier-form``
nothing in the lesson is wrong, and it has only to be saved again.
"""

HARMLESS: frozenset[Kind] = frozenset({"found-more", "earlier-form"})
"""What asks for ``--update`` and for nothing else."""

_WHAT_TO_DO = (
    "    With --propose these claims are put in.",
    '    For your own judgement: claims.judgement("its words") beside it, or the tag “judgement”.',
)

NOTHING = "(nothing)"

DATA_VERSION = 1
"""Of the form of a report as plain values: a field that goes or changes makes it one more."""


@dataclass(frozen=True, kw_only=True)
class Complaint:
    """One thing that is wrong with a lesson, and where.

    Attributes
    ----------
    kind : Kind
        What sort of complaint it is.
    message : str
        What is wrong, in a sentence without its full stop where two texts follow.
    cell : int or None
        The cell, counted from 1 among all cells; None for the whole lesson.
    section : str or None
        The last heading above the cell.
    saved, now : str or None
        For a difference: what the file says, and what was found now.
    code : str
        For a sentence that is not proved: the claims that would prove it, a line each.

    Examples
    --------
    >>> print(Complaint(kind="changed", message="the finding changed", cell=7,
    ...                 section="The fork", saved="Nd5 forks", now="Nd5 is lost"))
    cell 7 (section “The fork”): the finding changed. Saved: Nd5 forks. Now: Nd5 is lost.
    """

    kind: Kind
    message: str
    cell: int | None = None
    section: str | None = None
    saved: str | None = None
    now: str | None = None
    code: str = ""

    @property
    def place(self) -> str | None:
        """Where it is, in words; None for the whole lesson."""
        return None if self.cell is None else place_in_words(self.cell, self.section)

    @property
    def headline(self) -> str:
        """Where it is and what is wrong, without the two texts of a difference."""
        return self.message if self.place is None else f"{self.place}: {self.message}"

    def __str__(self) -> str:
        if self.saved is None or self.now is None:
            return self.headline
        return f"{self.headline}. Saved: {self.saved}. Now: {self.now}."


@dataclass(frozen=True, kw_only=True)
class LessonReport:
    """What the check of one lesson found.

    Attributes
    ----------
    path : str
        The notebook, as it was named.
    complaints : tuple of Complaint
        What is wrong, the whole lesson first, then in the order of the cells.
    findings : int
        How many cells have outputs that were computed again and agree.
    changes : tuple of Complaint
        When updating: how the outputs differ from what the file said before,
        and what cells give that had not been run.
    resaved : bool
        When updating: whether the file was saved again.
    carried_over : int
        When updating: how many cells say the same as before, in the form that
        findings have now.
    notes : tuple of Complaint
        Sentences that are wrong or contradict what was proved, and those that
        claim something which no cell of their section proves.
    """

    path: str
    complaints: tuple[Complaint, ...] = ()
    findings: int = 0
    changes: tuple[Complaint, ...] = ()
    resaved: bool = False
    carried_over: int = 0
    notes: tuple[Complaint, ...] = ()

    @property
    def exit_code(self) -> int:
        """0 if all agrees, 1 if there are complaints, 2 if the lesson could not be checked.

        A lesson that has only to be saved again is 1 too: nbval alone, as it
        runs in a school's own checks, would call it different.
        """
        if any(complaint.kind == "unusable" for complaint in self.complaints):
            return 2
        return 1 if self.complaints else 0

    def lines(self) -> list[str]:
        """Return what was found as plain lines, for a terminal without colours.

        Examples
        --------
        >>> LessonReport(path="fork.ipynb", findings=14).lines()
        ['fork.ipynb: verified: 14 findings agree']
        """
        lines = [f"{self.path}: {self.summary}"]
        for complaint in (*self.complaints, *self.changes):
            lines.append(f"  {complaint.headline}")
            if complaint.saved is not None and complaint.now is not None:
                lines += _block("saved:", complaint.saved) + _block("now:", complaint.now)
        for title, kind in (
            ("Said, and not so (no error):", "wrong-sentence"),
            ("Said, but not proved here (no error):", "unproved"),
        ):
            notes = [note for note in self.notes if note.kind == kind]
            lines += [f"  {title}"] if notes else []
            lines += [f"    {note.headline}" for note in notes]
            if kind == "unproved" and notes:
                lines += _WHAT_TO_DO if any(note.code for note in notes) else _WHAT_TO_DO[1:]
        return lines

    @property
    def summary(self) -> str:
        """What was found, in a few words."""
        if self.exit_code == 2:
            return "cannot be checked"
        agreeing = _count(self.findings, "finding agrees", "findings agree")
        if judged := sum(note.kind == "judgement" for note in self.notes):
            agreeing += f", and {_count(judged, 'sentence is', 'sentences are')} your judgement"
        if put_in := sum(change.kind == "put-in" for change in self.changes):
            return f"{_count(put_in, 'claim', 'claims')} put in; {agreeing}"
        if self.complaints:
            wrong = sum(complaint.kind not in HARMLESS for complaint in self.complaints)
            told = _count(wrong, "complaint", "complaints") if wrong else "to be saved again"
            return f"{told}; {agreeing}" if self.findings else told
        if told := ", ".join(self._changed()):
            told = f"saved again, {told}"
            return f"{told}; {agreeing}" if self.findings or not self.carried_over else told
        return f"saved again; {agreeing}" if self.resaved else f"verified: {agreeing}"

    def _changed(self) -> Iterator[str]:
        """Yield how many findings are carried over, how many changed, and how many are new."""
        if self.carried_over:
            yield f"{_count(self.carried_over, 'finding', 'findings')} carried over"
        new = sum(change.kind == "new" for change in self.changes)
        if changed := len(self.changes) - new:
            yield _count(changed, "change", "changes")
        if new:
            yield _count(new, "new finding", "new findings")


@dataclass(frozen=True, kw_only=True)
class Report:
    """What a check of several lessons found.

    Attributes
    ----------
    lessons : tuple of LessonReport
        One for each lesson, in the order in which they were named.
    """

    lessons: tuple[LessonReport, ...]

    @property
    def exit_code(self) -> int:
        """The worst of the lessons' exit codes: 0, 1 or 2."""
        return max((lesson.exit_code for lesson in self.lessons), default=0)

    @property
    def ok(self) -> bool:
        """Whether every lesson was checked and nothing is wrong."""
        return self.exit_code == 0

    def lines(self) -> list[str]:
        """Return the lines of all lessons."""
        return [line for lesson in self.lessons for line in lesson.lines()]

    @property
    def data(self) -> dict[str, Any]:
        """The whole report as plain values, for a script; see :data:`DATA_VERSION`.

        ``version``, ``exit_code`` and ``lessons``; each lesson with its ``path``,
        ``exit_code``, ``summary``, how many ``findings`` agree, and its ``complaints``,
        ``changes`` and ``notes``, each with the fields of a :class:`Complaint`.

        Examples
        --------
        >>> report = Report(lessons=(LessonReport(path="fork.ipynb", findings=14),))
        >>> report.data["lessons"][0]["summary"]
        'verified: 14 findings agree'
        """
        return {
            "version": DATA_VERSION,
            "exit_code": self.exit_code,
            "lessons": [
                {
                    "path": lesson.path,
                    "exit_code": lesson.exit_code,
                    "summary": lesson.summary,
                    "findings": lesson.findings,
                    "complaints": [asdict(one) for one in lesson.complaints],
                    "changes": [asdict(one) for one in lesson.changes],
                    "notes": [asdict(one) for one in lesson.notes],
                }
                for lesson in self.lessons
            ],
        }


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _block(label: str, text: str) -> list[str]:
    first, *rest = text.splitlines() or [""]
    return [f"    {label:<6} {first}", *(f"{'':11}{line}" for line in rest)]


def in_order(complaints: Sequence[Complaint]) -> tuple[Complaint, ...]:
    """Return complaints about the whole lesson first, then by cell; else as they came."""
    return tuple(sorted(complaints, key=lambda complaint: complaint.cell or 0))
