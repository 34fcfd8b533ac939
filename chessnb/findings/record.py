r"""Records: what a lesson compares when it is checked again.

Each finding has one record, a short line that says what was found, where, and
how it is known::

    20... Nf3+ | mates | 6 | proved
    21. | replies | 4 | mated 5: Kh1 | mated 1: Kf1 Kxf3 gxf3 | proved
    21. | pinned | Nc6 | to Ke8 | by Bb5 | rules
    - | judgement | "easier to play for White" | judgement

It is the ``text/plain`` of a cell's output, one line for each finding, and
the message of a claim that is refuted.  It has no prose and no grammar of a
language in it, and is the same in every language and under every wording.
The sentence that people read is made beside it and stands in the HTML, so a
better sentence or drawing never changes a record.

Grammar, version 1
------------------
::

    record  = place " | " kind *(" | " field) " | " status
    place   = moves | position | text | "-"
    moves   = "14. Nd5" or "20... Nf3+" or "6. h3 Bh5 7. g4"
    position = "21." (White to move) or "20..." (Black to move)
    text    = '"' characters '"'

- The *place* is a move with its number where the finding is about a move (in
  a sideline, all the moves from where it leaves the game); else the position,
  by the number of the move that comes next; else a name that somebody gave (a
  lesson, a file, a diagram); ``-`` where there is none.
- The *kind* and the *status* are words of :data:`KINDS` and :data:`STATUSES`
  in :mod:`chessnb.findings.record_kinds`, and no others.  Each kind has its
  fields in a fixed order, which stand there too.
- A *field* consists of the kind's own words, moves in SAN, squares, letters
  of pieces with a square (``Nc6``, ``Pe4``), the sides ``white`` and
  ``black``, and whole numbers.  A number may have a unit, which is a sign and
  is never bent: ``1 points``, ``within 4``, ``mate 3``.
- *Text* is somebody's own words: a teacher's opinion, a title, a move as it
  was typed.  In it ``\"``, ``\\``, ``\|`` stand for the quotation mark, the
  backslash and the bar, ``\n`` for the end of a line, and ``\u{2028}`` for
  any other character that cannot be printed.  A bar between blanks is
  therefore always the end of a field, and a record is always one line.

A record carries facts, never what a better search may replace: no line of
play, no answer to a move, no number of positions.

What a version promises: a kind, a status or a word of a field keeps its
meaning.  Kinds may be added.  Where one must change, :data:`VERSION` grows,
and ``chessnb verify --update`` carries lessons over.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from chessnb.errors import ChessnbError
from chessnb.findings.record_kinds import KINDS, PLACE, STATUSES, fields_pattern

VERSION = 1
"""The version of the grammar; a lesson notes it in its metadata."""

BAR = " | "
"""What stands between the parts of a record."""

NOWHERE = "-"
"""The place of what is not about a position."""


class RecordError(ChessnbError, ValueError):
    """A text is not a record."""


@dataclass(frozen=True, kw_only=True)
class Record:
    """A finding in the form in which it is compared; see the module for its grammar.

    Attributes
    ----------
    place : str
        Where: a move with its number, a position by its number, a name.
    kind : str
        What sort of finding it is.
    fields : tuple of str
        What was found, in the order of the kind.
    status : str
        How it is known.

    Raises
    ------
    RecordError
        If the grammar has no such record.

    Examples
    --------
    >>> print(Record(place="20... Nf3+", kind="mates", fields=("6",), status="proved"))
    20... Nf3+ | mates | 6 | proved
    """

    place: str
    kind: str
    fields: tuple[str, ...] = ()
    status: str

    def __post_init__(self) -> None:
        if wrong := self._fault():
            raise RecordError(f"{wrong}: {BAR.join(self._parts())}")

    def _fault(self) -> str:
        if not PLACE.fullmatch(self.place):
            return f"{self.place!r} is not the place of a record"
        if self.kind not in KINDS:
            return f"there is no kind of record called {self.kind!r}"
        if self.status not in STATUSES:
            return f"{self.status!r} is not the status of a record"
        if not fields_pattern(self.kind).fullmatch("".join(BAR + field for field in self.fields)):
            return f"a record of kind {self.kind!r} has the fields {KINDS[self.kind].fields!r}"
        texts = [part for part in (self.place, *self.fields) if part.startswith('"')]
        if any(quoted(unquoted(text)) != text for text in texts):
            return "text is not written as a record writes it"
        return ""

    def _parts(self) -> tuple[str, ...]:
        return (self.place, self.kind, *self.fields, self.status)

    def __str__(self) -> str:
        return BAR.join(self._parts())


def read_record(line: str) -> Record:
    r"""Read a record back from its line.

    Raises
    ------
    RecordError
        If it is not one.

    Examples
    --------
    >>> read_record("21. | pinned | Nc6 | to Ke8 | by Bb5 | rules").fields
    ('Nc6', 'to Ke8', 'by Bb5')
    """
    parts = line.split(BAR)
    if len(parts) < 3:
        raise RecordError(f"a record has a place, a kind and a status: {line!r}")
    place, kind, *fields, status = parts
    return Record(place=place, kind=kind, fields=tuple(fields), status=status)


def read_records(text: str) -> tuple[Record, ...]:
    """Read the records of an output, one a line; empty if any line is something else."""
    try:
        return tuple(map(read_record, text.split("\n")))
    except RecordError:
        return ()


# -- somebody's own words ------------------------------------------------------

_ESCAPES = {'"': '\\"', "\\": "\\\\", "|": "\\|", "\n": "\\n"}
_WRITTEN = {written: character for character, written in _ESCAPES.items()}
_ESCAPED = re.compile(r'\\u\{([0-9a-f]+)\}|\\["\\|n]')


def quoted(text: str) -> str:
    r"""Write somebody's own words as the field of a record.

    Examples
    --------
    >>> quoted('the "hook" | g4')
    '"the \\"hook\\" \\| g4"'
    """
    return f'"{"".join(map(_escaped, text))}"'


def _escaped(character: str) -> str:
    if character in _ESCAPES:
        return _ESCAPES[character]
    return character if character.isprintable() else f"\\u{{{ord(character):x}}}"


def unquoted(field: str) -> str:
    r"""Return the words that a field of text holds.

    Examples
    --------
    >>> unquoted('"two\\nlines"')
    'two\nlines'
    """
    return _ESCAPED.sub(_unescaped, field[1:-1])


def _unescaped(match: re.Match[str]) -> str:
    return chr(int(match[1], 16)) if match[1] else _WRITTEN[match[0]]
