"""Sentences of the prose that are wrong, contradict what was proved, or are proved by no cell.

A sentence is backed only by a claim that says the same, and that the library
found to hold in this run.  What a cell of the same section refuted, or what is
wrong by itself, is told with what is true; the rest is listed with the claim
that would prove it.  A sentence that claims something and cannot be read is
listed where its section proves nothing.  What the teacher has marked as a
judgement is only counted, unless it is wrong or contradicted.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

from chessnb.findings.record import read_record, unquoted
from chessnb.notebooks.verification.prose_statements import Said, said_in
from chessnb.teaching.statements.backing import Found, backing
from chessnb.teaching.statements.settle import settle
from chessnb.teaching.statements.statement import Statement

BUDGET = 40_000
"""Positions for each question about a sentence that no cell proves."""

Announced = Mapping[int, Sequence[Mapping[str, str]]]
"""What the library told of in a run: for each cell, counted from 0, records and positions."""

_CLAIMING = re.compile(
    r"""\b(?:
        forced | forces | by\ force | forcing\ line
      | pinned | pins | unpinned
      | mates?\ in\ (?:\d+|one|two|three|four|five|six|seven|eight|nine|ten)
      | (?:is|be|will\ be)\ mated
      | only\ (?:legal\ )?(?:move|reply|defence|defense|answer)
      | wins | is\ winning | wins\ by | costs\ the | loses\ (?:a|an|the|at)
      | trapped | cannot\ (?:move|castle|be\ stopped|be\ saved) | may\ not\ (?:move|castle)
      | threatens | is\ threatened
      | zugzwang | perpetual | stalemate
      | forks | forked | skewers | skewered
    )\b""",
    re.VERBOSE | re.IGNORECASE,
)


@dataclass(frozen=True, kw_only=True)
class SentenceFault:
    """A sentence that does not stand as it is.

    Attributes
    ----------
    cell : int
        The cell, counted from 1.
    kind : {"wrong", "contradicted", "refuted", "unproved", "judgement"}
        What is the matter with it; nothing, if it is marked as a judgement.
    text : str
        The sentence, shortened if it is long.
    truth : str
        What is true instead, or what was proved.
    code : str
        The claim that would prove it, or shows what is true.
    """

    cell: int
    kind: Literal["wrong", "contradicted", "refuted", "unproved", "judgement"]
    text: str
    truth: str = ""
    code: str = ""

    @property
    def message(self) -> str:
        """What is the matter, in a sentence without a full stop."""
        said = f"“{self.text}”"
        match self.kind:
            case "wrong":
                return f"{said} is wrong: {self.truth}"
            case "contradicted":
                return f"{said} contradicts what this section proves: {self.truth}"
            case "refuted":
                return f"{said} is refuted by a cell of this section: {self.truth}"
        code = "; ".join(re.sub(r"\s*\n\s*", " ", one) for one in re.split(r"\n(?=\w)", self.code))
        proposed = f"; this would: {code}" if self.code else ""
        return f"{said} claims something that no cell of this section proves{proposed}"


_ORDER = ("wrong", "refuted", "contradicted", "unproved", "judgement")


def faulty_sentences(
    notebook: Mapping[str, Any], *, folder: Path, announced: Announced
) -> list[SentenceFault]:
    """List the sentences that are wrong, contradicted, or proved by no cell of their section.

    Parameters
    ----------
    notebook : notebook
        The lesson, as nbformat reads it.
    folder : Path
        Where it lies.
    announced : mapping
        What the library told of in this run, by cell.

    Returns
    -------
    list of SentenceFault
        The wrong ones first, then by cell.
    """
    found = {index: [_found(one) for one in told] for index, told in announced.items()}
    faults: list[SentenceFault] = []
    for said in said_in(notebook, folder=folder):
        there = [one for index in said.section for one in found.get(index, ())]
        faults.extend(_judged(said, there, _faults(said, there)))
    unique = list(dict.fromkeys(faults))
    return sorted(unique, key=lambda one: (_ORDER.index(one.kind), one.cell))


def _judged(
    said: Said, there: Sequence[Found], faults: Iterable[SentenceFault]
) -> Iterator[SentenceFault]:
    """Yield what is the matter; without proof, a sentence that is marked is a judgement."""
    opinions = [unquoted(one.record.fields[0]) for one in there if one.record.kind == "judgement"]
    words = _plain(said.sentence)
    is_one = said.judgement or any(opinion and _plain(opinion) in words for opinion in opinions)
    for fault in faults:
        unproved = fault.kind == "unproved"
        yield replace(fault, kind="judgement", code="") if unproved and is_one else fault


def _plain(text: str) -> str:
    """Return a text in small letters and without punctuation, for comparing."""
    return " ".join(re.findall(r"\w+[+#]?", text.lower()))


def _found(told: Mapping[str, str]) -> Found:
    return Found(record=read_record(told["record"]), fen=told.get("fen", ""))


def _faults(said: Said, there: Sequence[Found]) -> Iterator[SentenceFault]:
    if said.is_thread:
        return  # computed again just now
    words = said.sentence.lstrip("#>-* ")
    shown = words if len(words) <= 90 else f"{words[:87].rstrip()}…"
    if not said.statements:
        claims = _CLAIMING.search(words) and not words.endswith("?")
        if claims and not said.heading and not any(one.holds for one in there):
            yield SentenceFault(cell=said.cell + 1, kind="unproved", text=shown)
        return
    faults = [
        _fault(one, there, cell=said.cell + 1, shown=shown, variable=said.variable)
        for one in said.statements
    ]
    told = [one for one in faults if one is not None]
    yield from (one for one in told if one.kind != "unproved")
    unproved = [one for one in told if one.kind == "unproved"]
    if unproved and len(unproved) == len(told) and not said.heading:
        code = "\n".join(one.code for one in unproved if one.code)
        yield replace(unproved[0], code=code)


def _fault(
    statement: Statement, there: Sequence[Found], *, cell: int, shown: str, variable: str
) -> SentenceFault | None:
    """Return what is the matter with a statement; None if a cell of the section proves it."""
    answers = [(backing(statement, one), one) for one in there]
    if any(answer == "same" for answer, _ in answers):
        return None
    for answer, one in answers:
        if answer == "contrary":
            kind: Literal["refuted", "contradicted"] = "contradicted" if one.holds else "refuted"
            return SentenceFault(cell=cell, kind=kind, text=shown, truth=str(one.record))
    settled = settle(statement, budget=BUDGET, variable=variable)
    told = {(str(one.record), one.fen) for one in there if one.holds}
    needed = {str(found.record) for found in settled.findings}
    if needed and needed <= {record for record, _ in told}:
        return None
    if settled.status == "wrong":
        return SentenceFault(
            cell=cell, kind="wrong", text=shown, truth=settled.truth, code=settled.code
        )
    code = settled.code if settled.status == "proved" else ""
    return SentenceFault(cell=cell, kind="unproved", text=shown, code=code)
