"""Findings as short paragraphs beside one board: what they say, and what they show on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import singledispatch
from typing import Any

import chess

from chessnb.board.naming import listed, number
from chessnb.board.turns import moved
from chessnb.charts import Chart
from chessnb.claims import Claim
from chessnb.claims.evidence_lines import ProofLines
from chessnb.diagrams import Mark
from chessnb.facts import Changes, Material, Purpose
from chessnb.findings import Finding
from chessnb.findings.proof_lines import lettered
from chessnb.motifs import Tag
from chessnb.motifs.evidence import Tags
from chessnb.notation import write_line
from chessnb.proof import Gain, Mate, Proof
from chessnb.verdicts.move_verdict import Verdict
from chessnb.verdicts.replies import CAUTION, Replies, ReplyTable

LISTED = 4
"""So many replies that fail alike are named; more are counted."""


@dataclass(frozen=True, kw_only=True)
class Play:
    """What a paragraph shows on the board.

    Attributes
    ----------
    fen : str
        Where its line begins.
    moves : tuple of chess.Move
        The line.
    marks : tuple of Mark
        What is drawn.
    on : str
        The position that it is drawn on: one on the line, or before it.
    """

    fen: str
    moves: tuple[chess.Move, ...] = ()
    marks: tuple[Mark, ...] = ()
    on: str = ""


@dataclass(frozen=True, kw_only=True)
class Paragraph:
    """One paragraph of a page.

    Attributes
    ----------
    kind : str
        What it is, for its place and its look: ``"move"``, ``"claim"``, ``"replies"``, …
    head : str
        What it begins with, in bold: a move, the name of a tactic.
    text : str
        What it says.
    known : str
        How that is known, in a word; empty where it follows from the rules.
    play : Play or None
        What it shows on the board.
    items : tuple of Paragraph
        Its lines, each a paragraph of its own.
    note : str
        What a reader must know of all paragraphs of its sort; said once a page.
    card : str
        HTML that it shows beside its text: a chart.
    """

    kind: str
    head: str = ""
    text: str = ""
    known: str = ""
    play: Play | None = None
    items: tuple[Paragraph, ...] = field(default=())
    note: str = ""
    card: str = ""


@singledispatch
def paragraphs_of(finding: Any) -> Iterator[Paragraph]:
    """Yield what a finding says on a page."""
    if isinstance(finding, Finding):
        picture = finding.picture
        play = None
        if picture is not None:
            play = Play(fen=picture.fen, marks=picture.marks, on=picture.fen)
        yield Paragraph(kind="fact", text=_sentences(finding.paragraphs), play=play)
    else:
        yield Paragraph(kind="fact", text=str(finding))


@paragraphs_of.register
def _(finding: Purpose) -> Iterator[Paragraph]:
    if not finding.uses:
        yield Paragraph(kind="fact", text=finding.words)
    for use, sentence in zip(finding.uses, finding.paragraphs, strict=False):
        on = moved(finding.board, use.line).fen()
        play = Play(fen=finding.fen, moves=use.line, marks=finding.marks(use), on=on)
        yield Paragraph(kind="fact", text=sentence, known="as played", play=play)


@paragraphs_of.register
def _(finding: Claim) -> Iterator[Paragraph]:
    lines = list(finding.evidence)
    proof = finding.proof
    text = f"{_begun(finding.words)}."
    play = Play(fen=finding.fen, marks=finding.marks, on=finding.shown or finding.fen)
    items: tuple[Paragraph, ...] = ()
    if isinstance(finding.evidence, ProofLines) and proof is not None:
        key = () if proof.key is None else (proof.key,)
        lines = [line for line in lines if line != write_line(finding.evidence.board, key)]
        known = {str(line): line for line in lettered(proof)}
        start = proof.board.fen()
        play = Play(fen=start, moves=proof.main_line, marks=finding.marks, on=play.on)
        items = tuple(
            Paragraph(
                kind="line",
                text=_unlettered(line) if len(lines) == 1 else line,
                play=Play(fen=start, moves=(*key, *known[line].line)) if line in known else None,
            )
            for line in lines
        )
    elif len(lines) == 1:
        text = f"{text} {_sentences(lines)}"
    else:
        items = tuple(Paragraph(kind="line", text=line) for line in lines)
    known_as = finding.record.status
    yield Paragraph(
        kind="claim",
        text=text,
        known="" if known_as in ("rules", "judgement") else known_as,
        play=play,
        items=items,
        note=finding.caution,
    )


@paragraphs_of.register
def _(finding: Changes) -> Iterator[Paragraph]:
    picture = finding.picture
    play = Play(fen=finding.fen, moves=(finding.move,), marks=picture.marks, on=picture.fen)
    yield Paragraph(kind="changes", text=_sentences(finding.paragraphs[:1]), play=play)


@paragraphs_of.register
def _(finding: Material) -> Iterator[Paragraph]:
    yield Paragraph(kind="material", text=_sentences([finding.words]))


@paragraphs_of.register
def _(finding: ReplyTable) -> Iterator[Paragraph]:
    board = finding.board
    yield Paragraph(
        kind="replies",
        text=finding.summary,
        play=Play(fen=finding.fen),
        items=tuple(_row(board, row) for row in finding.rows),
        note=CAUTION if any(not verdict.is_bad for verdict in finding.verdicts) else "",
    )


def _row(board: chess.Board, row: Replies) -> Paragraph:
    """Return a row of a reply table: its replies, what becomes of them, and the line."""
    first = row.first
    if 1 < len(row.verdicts) <= LISTED:
        count = number(board)
        head = listed(f"{count} {verdict.san}" for verdict in row.verdicts)
    else:
        head = row.text
    return Paragraph(
        kind="line",
        head=head,
        text=f"{row.words}{_rest(first)}.",
        play=Play(fen=board.fen(), moves=first.line),
    )


def _rest(verdict: Verdict) -> str:
    """Return the line behind a reply, which is named already."""
    if len(verdict.line) < 2:
        return ""
    after = verdict.board
    after.push(verdict.line[0])
    return f": {write_line(after, verdict.line[1:])}"


@paragraphs_of.register
def _(finding: Tag) -> Iterator[Paragraph]:
    start = finding.before or finding.fen
    play = Play(fen=start, moves=finding.steps, marks=finding.marks, on=finding.fen)
    yield Paragraph(
        kind="tactic",
        head=f"{_begun(finding.motif)}.",
        text=_sentences(finding.paragraphs),
        play=play,
    )


@paragraphs_of.register
def _(finding: Tags) -> Iterator[Paragraph]:
    for tag in finding:
        yield from paragraphs_of(tag)
    if not finding:
        yield Paragraph(kind="tactic", text="No tactic was found here.")


@paragraphs_of.register
def _(finding: Chart) -> Iterator[Paragraph]:
    yield Paragraph(kind="chart", card=finding.card)


def without_less_than_mate(parts: Iterable[Any]) -> Iterator[Any]:
    """Yield the findings of a page; a tactic that mates tells no gain beside it.

    A tag looks a few moves deep, and a claim that its move mates may look deeper: where the page
    proves the mate, what else the move would win is no news.
    """
    held = list(parts)
    mating = {_start(one.proof) for one in held if isinstance(one, Claim) and _mates(one)}
    for one in held:
        if isinstance(one, Tags):
            yield Tags((_told_alone(tag) if _is_less(tag, mating) else tag) for tag in one)
        else:
            yield _told_alone(one) if _is_less(one, mating) else one


def _mates(claim: Claim) -> bool:
    return claim.proof is not None and isinstance(claim.proof.goal, Mate)


def _is_less(finding: Any, mating: set[tuple[str, chess.Move | None]]) -> bool:
    """Tell whether a finding is a tag of a gain by a move that mates."""
    proof = finding.proof if isinstance(finding, Tag) else None
    return proof is not None and isinstance(proof.goal, Gain) and _start(proof) in mating


def _told_alone(tag: Tag) -> Tag:
    """Return a tag that shows its line, and says nothing of a gain."""
    return replace(tag, shown=tag.steps, proof=None, fact=True)


def _start(proof: Proof | None) -> tuple[str, chess.Move | None]:
    assert proof is not None
    return proof.board.epd(), next(iter(proof.main_line), None)


def without_repeats(paragraphs: Sequence[Paragraph]) -> list[Paragraph]:
    """Leave out the lines of a claim where a reply table goes through the same replies."""
    tables = {one.play.fen for one in paragraphs if one.kind == "replies" and one.play}
    return [
        replace(one, items=()) if one.kind == "claim" and _leads_to(one.play) & tables else one
        for one in paragraphs
    ]


def _leads_to(play: Play | None) -> set[str]:
    """Return the positions before and after the first move of a line."""
    if play is None:
        return set()
    board = chess.Board(play.fen)
    found = {board.fen()}
    for move in play.moves[:1]:
        board.push(move)
        found.add(board.fen())
    return found


def _sentences(texts: Iterable[str]) -> str:
    """Join texts as sentences of one paragraph."""
    ended = (text if text.endswith((".", "?", "!")) else f"{text}." for text in texts if text)
    return " ".join(_begun(text) for text in ended)


def _unlettered(line: str) -> str:
    return line.removeprefix("a) ")


def _begun(words: str) -> str:
    """Begin a sentence with a capital, unless a move stands there."""
    first = words.split(" ", 1)[0]
    return words if any(map(str.isdigit, first)) else words[:1].upper() + words[1:]
