"""An answer as it is kept: a nickname, what was asked, what was given, what it was worth.

Everything that comes in from outside (a nickname, an answer, a slip) is
checked here, once: it is kept as text, or refused in words.
"""

from __future__ import annotations

import math
import secrets
import unicodedata
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from datetime import UTC, datetime
from typing import Any, Self

from chessnb.errors import ChessnbError, as_given
from chessnb.teaching.questions.question_values import Graded, Question

CAUTION = (
    "Answers of children are data about children, also under a nickname: ask what your school "
    "and the law where you teach allow, and delete what you do not need any more."
)
"""Stands wherever answers begin to be kept."""

RESULTS = ("right", "part", "wrong", "not proved")

LONGEST_NICKNAME = 40
LONGEST_ANSWER = 2_000
LONGEST_PROMPT = 1_000
LONGEST_WORD = 100

MOST_TRIES = 10_000
MOST_SECONDS = 1_000_000.0


class ClassRecordError(ChessnbError, ValueError):
    """The class record, a slip, or what should go into it cannot be used."""


@dataclass(frozen=True, kw_only=True)
class KeptAnswer:
    """One answer of one student.

    Attributes
    ----------
    id : str
        Its own name, so that it is kept once, however often it comes in.
    nickname : str
        Who answered.
    question : str
        The question's key.
    kind, prompt, fen : str
        What was asked, and about which position.
    given : str
        The answer as it was typed.
    result : str
        ``"right"``, ``"part"``, ``"wrong"`` or ``"not proved"``.
    credit : float
        From 0 to 1.
    hints : int
        How many hints were taken.
    tries : int
        Which try it was, counted from 1.
    seconds : float
        How long it took; 0 where that is not known.
    at : str
        When, in UTC: ``"2026-01-31T10:00:00Z"``.

    Raises
    ------
    ClassRecordError
        If one of them is not what it should be.
    """

    id: str
    nickname: str
    question: str
    kind: str
    prompt: str
    fen: str
    given: str
    result: str
    credit: float
    hints: int = 0
    tries: int = 1
    seconds: float = 0.0
    at: str

    def __post_init__(self) -> None:
        # One spelling for one student: so that a search, or a deletion, finds all of them.
        object.__setattr__(self, "nickname", read_nickname(self.nickname))
        for name, longest in (
            ("id", LONGEST_WORD),
            ("question", LONGEST_WORD),
            ("kind", LONGEST_WORD),
            ("prompt", LONGEST_PROMPT),
            ("fen", LONGEST_WORD),
            ("at", LONGEST_WORD),
        ):
            _text(name, getattr(self, name), longest, printable=True)
        _text("given", self.given, LONGEST_ANSWER, printable=False)
        if self.result not in RESULTS:
            raise ClassRecordError(
                f"an answer is {', '.join(RESULTS)}, not {as_given(self.result)}"
            )
        _number("credit", self.credit, 1.0)
        _whole("hints", self.hints, MOST_TRIES)
        _whole("tries", self.tries, MOST_TRIES)
        _number("seconds", self.seconds, MOST_SECONDS)
        _moment(self.at)

    @classmethod
    def of(
        cls,
        nickname: str,
        question: Question,
        given: str,
        graded: Graded,
        *,
        tries: int = 1,
        seconds: float = 0.0,
        at: datetime | None = None,
    ) -> Self:
        """Make one of an answer that was graded just now."""
        return cls(
            id=secrets.token_hex(16),
            nickname=read_nickname(nickname),
            question=question.key,
            kind=question.kind,
            prompt=" ".join(question.prompt.split()),
            fen=question.fen,
            given=given,
            result=graded.result,
            credit=graded.credit,
            hints=graded.hints,
            tries=tries,
            seconds=seconds,
            at=written(at or datetime.now(UTC)),
        )

    @classmethod
    def read(cls, data: object) -> Self:
        """Make one of what a slip holds.

        Raises
        ------
        ClassRecordError
            If it is not just such an answer.
        """
        if not isinstance(data, Mapping) or set(data) != set(NAMES):
            raise ClassRecordError(f"an answer has the fields {', '.join(NAMES)}, and no others")
        return cls(**data)

    def data(self) -> dict[str, Any]:
        """Return it ready for JSON, and for the record's columns."""
        return asdict(self)


NAMES = tuple(field.name for field in fields(KeptAnswer))
"""The fields of an answer, in order."""


def read_nickname(nickname: object) -> str:
    """Return a nickname as it is kept: without blanks around it, composed.

    Raises
    ------
    ClassRecordError
        If it is empty, too long, cannot be shown, or is an e-mail address.

    Examples
    --------
    >>> read_nickname("  Rook   7 ")
    'Rook 7'
    """
    if not isinstance(nickname, str):
        raise ClassRecordError(f"a nickname is a short text, not {as_given(nickname)}")
    if len(nickname) > 4 * LONGEST_NICKNAME:
        raise ClassRecordError(f"a nickname has {LONGEST_NICKNAME} characters at most")
    name = " ".join(unicodedata.normalize("NFC", nickname).split(" ")).strip()
    name = " ".join(filter(None, name.split(" ")))
    if not name:
        raise ClassRecordError("a nickname has at least one character")
    if len(name) > LONGEST_NICKNAME:
        raise ClassRecordError(f"a nickname has {LONGEST_NICKNAME} characters at most")
    _text("nickname", name, LONGEST_NICKNAME, printable=True)
    if "@" in name and "." in name.rpartition("@")[2]:
        raise ClassRecordError("that is an e-mail address; a nickname is all that is kept")
    return name


def written(at: datetime) -> str:
    """Write a moment as it is kept, in UTC to the second."""
    return at.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def _moment(at: str) -> None:
    try:
        datetime.strptime(at, "%Y-%m-%dT%H:%M:%SZ")
    except ValueError:
        raise ClassRecordError(
            f"a moment is written 2026-01-31T10:00:00Z, not {as_given(at)}"
        ) from None


def _text(name: str, given: object, longest: int, *, printable: bool) -> None:
    if not isinstance(given, str):
        raise ClassRecordError(f"{name} is a text, not {as_given(given)}")
    if len(given) > longest:
        raise ClassRecordError(
            f"{name} has {longest} characters at most, and this has {len(given)}"
        )
    if any("\ud800" <= one <= "\udfff" for one in given):
        raise ClassRecordError(f"{name} holds half a character, which no file can keep")
    if printable and not _can_be_shown(given):
        raise ClassRecordError(f"{name} holds characters that cannot be shown")


_JOINERS = "\u200d\ufe0f\ufe0e"
"""What joins emoji into one, and chooses how a sign is drawn; cannot be printed alone."""


def _can_be_shown(text: str) -> bool:
    return all(one.isprintable() or one in _JOINERS for one in text)


def _whole(name: str, given: object, most: int) -> None:
    if isinstance(given, bool) or not isinstance(given, int) or not 0 <= given <= most:
        raise ClassRecordError(f"{name} is a whole number from 0 to {most}, not {as_given(given)}")


def _number(name: str, given: object, most: float) -> None:
    number = isinstance(given, int | float) and not isinstance(given, bool)
    if not number or not math.isfinite(given) or not 0 <= given <= most:  # type: ignore[arg-type,operator]
        raise ClassRecordError(f"{name} is a number from 0 to {most:g}, not {as_given(given)}")
