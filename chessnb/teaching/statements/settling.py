"""Settling a statement: proved by claims, wrong with what is true instead, or not proved."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from chessnb import claims
from chessnb.claims import ClaimError, FalseClaim, UnprovedClaim
from chessnb.errors import ChessnbError, NotationError
from chessnb.findings import Finding
from chessnb.lessons import Moment
from chessnb.teaching import cell_code
from chessnb.teaching.statements.statement import Ground, Statement

Status = Literal["proved", "wrong", "not proved"]

BUDGET = 400_000
"""Positions for each question, where nothing else is said."""


@dataclass(frozen=True, kw_only=True)
class Settled:
    """What became of a statement.

    Attributes
    ----------
    statement : Statement
        What was said.
    status : {"proved", "wrong", "not proved"}
        What became of it.
    findings : tuple of Finding
        The claims that prove it; with another status those of its parts that hold.
    code : str
        The code of a cell that proves it, or shows that it is wrong.
    truth : str
        What contradicts it, or why it is not proved, in words without a full stop.
    """

    statement: Statement
    status: Status
    findings: tuple[Finding, ...] = ()
    code: str = ""
    truth: str = ""

    @property
    def records(self) -> tuple[str, ...]:
        """The records of the claims."""
        return tuple(str(found.record) for found in self.findings)


@dataclass(frozen=True, kw_only=True)
class Case:
    """A statement while it is settled.

    Attributes
    ----------
    statement : Statement
        What was said.
    budget : int
        Positions for each question.
    variable : str
        What the lesson is called in code.
    """

    statement: Statement
    budget: int = BUDGET
    variable: str = "lesson"

    def claim(self, name: str, *given: Any, at: Ground | None = None, **options: Any) -> Settled:
        """Put a claim about a position; without one, about that of the statement."""
        ground = self.statement.at if at is None else at
        options = {key: value for key, value in options.items() if value is not None}
        code = cell_code.call(f"claims.{name}", self.place(ground), *given, **options)
        asked = name if name != "refuted" else given[0]
        budget = {"budget": self.budget} if asked in _SEARCHING else {}
        try:
            found = getattr(claims, name)(ground, *given, **options, **budget)
        except FalseClaim as error:
            return self.settled("wrong", code=code, truth=error.reason)
        except (UnprovedClaim, ClaimError, NotationError) as error:
            reason = getattr(error, "reason", "") or str(error)
            return self.settled("not proved", code=code, truth=reason)
        except ChessnbError as error:
            return self.settled("not proved", code=code, truth=str(error))
        return self.settled("proved", (found,), code=code)

    def refuted(self, name: str, *given: Any, at: Ground | None = None, **options: Any) -> Settled:
        """Put the claim that another is wrong."""
        return self.claim("refuted", name, *given, at=at, **options)

    def settled(
        self, status: Status, findings: Sequence[Finding] = (), *, code: str = "", truth: str = ""
    ) -> Settled:
        """Return what became of the statement."""
        return Settled(
            statement=self.statement,
            status=status,
            findings=tuple(findings),
            code=code,
            truth=truth,
        )

    def place(self, ground: Ground) -> cell_code.Expression | str:
        """Write a position as code: its place in the lesson, else its FEN."""
        if not isinstance(ground, Moment):
            return ground.fen()
        if ground.node is ground.node.game() and ground.address != "start":
            return cell_code.Expression(cell_code.call(f"{self.variable}.at", ground.address))
        return cell_code.after(ground, variable=self.variable)


_SEARCHING = frozenset(
    {
        "fastest_mate",
        "forced",
        "forces_stalemate",
        "loses",
        "mates",
        "mates_or_wins",
        "only_defence",
        "parries",
        "perpetual",
        "shows",
        "threatens",
        "trapped",
        "wins_material",
        "zugzwang",
    }
)
"""The claims that search."""


def all_of(case: Case, parts: Sequence[Settled]) -> Settled:
    """Return what becomes of a statement of which every part must hold."""
    worst = [part for part in parts if part.status == "wrong"] or [
        part for part in parts if part.status == "not proved"
    ]
    if worst or not parts:
        return worst[0] if worst else case.settled("not proved")
    return case.settled(
        "proved",
        [finding for part in parts for finding in part.findings],
        code="\n".join(part.code for part in parts),
    )


def any_of(case: Case, parts: Sequence[Settled]) -> Settled:
    """Return what becomes of a statement that one of several ways would prove."""
    for status in ("proved", "not proved", "wrong"):
        for part in parts:
            if part.status == status:
                return part
    return case.settled("not proved")


def first_of(case: Case, ways: Sequence[Callable[[], Settled]]) -> Settled:
    """Return the first way that proves a statement; the others are tried only before it."""
    tried = []
    for way in ways:
        tried.append(way())
        if tried[-1].status == "proved":
            return tried[-1]
    return any_of(case, tried)


def denied(case: Case, parts: Sequence[Settled], refuted: Callable[[], Settled]) -> Settled:
    """Return what becomes of a denial: wrong where one part holds, else refuted."""
    for part in parts:
        if part.status == "proved":
            said = "; ".join(getattr(found, "words", "") for found in part.findings)
            return replace(part, status="wrong", truth=said)
    for part in parts:
        if part.status == "not proved":
            return part
    return refuted()
