"""The registry of motifs: look for them, list them, explain them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import chess

from chessnb.board.naming import listed
from chessnb.board.position import Position, board_of
from chessnb.board.turns import as_if_to_move
from chessnb.errors import ChessnbError, LessonError
from chessnb.lessons import Lesson, Moment
from chessnb.mistakes import did_you_mean, nearest, same_name
from chessnb.motifs import (
    battery,
    clearance,
    decoy,
    deflection,
    discovery,
    fork,
    giving,
    hanging,
    interference,
    mating,
    overload,
    pin,
    removing,
    saving,
    skewer,
    standing,
    timing,
    trapped,
)
from chessnb.motifs.case import BUDGET, WITHIN, Case
from chessnb.motifs.evidence import Motif, Tag, Tags
from chessnb.motifs.frame import Frame
from chessnb.motifs.targets import worth
from chessnb.notation import read_line, read_move
from chessnb.proof import Gain, Mate, Measure, Proof
from chessnb.search.budget import finish
from chessnb.search.prover import proving

MOTIFS: tuple[Motif, ...] = (
    pin.ABSOLUTE,
    pin.RELATIVE,
    fork.MOTIF,
    skewer.MOTIF,
    discovery.ATTACK,
    discovery.CHECK,
    discovery.DOUBLE,
    removing.MOTIF,
    deflection.MOTIF,
    decoy.MOTIF,
    overload.MOTIF,
    clearance.MOTIF,
    mating.BACK_RANK,
    mating.SMOTHERED,
    mating.CORRIDOR,
    mating.EPAULETTE,
    mating.DOUBLE,
    hanging.MOTIF,
    battery.MOTIF,
    battery.XRAY,
    interference.MOTIF,
    timing.BETWEEN,
    timing.DESPERADO,
    trapped.MOTIF,
    giving.SACRIFICE,
    giving.THREAT,
    saving.WINDMILL,
    giving.UNDERPROMOTION,
    saving.PERPETUAL,
    saving.STALEMATE,
    giving.ZUGZWANG,
)
"""Every motif, in the order in which tags are told."""


def names() -> tuple[str, ...]:
    """Return the names of all motifs.

    Examples
    --------
    >>> "fork" in names()
    True
    """
    return tuple(motif.name for motif in MOTIFS)


def explain(name: str) -> Motif:
    """Return a motif by its name: its definition and its examples.

    Raises
    ------
    LessonError
        If there is no such motif, or the name stands for several.

    Examples
    --------
    >>> explain("fork").definition[:36]
    'One man that has just moved attacks '
    """
    found = named(name)
    if len(found) > 1:
        several = listed(motif.name for motif in found)
        raise LessonError(f"{name!r} stands for {several}: name one of them")
    return found[0]


_ALSO: dict[str, tuple[Motif, ...]] = {
    "pin": (pin.ABSOLUTE, pin.RELATIVE),
    "double attack": (fork.MOTIF,),
    "attraction": (decoy.MOTIF,),
    "defender removed": (removing.MOTIF,),
    "removal of the defender": (removing.MOTIF,),
    "hanging": (hanging.MOTIF,),
    "intermediate move": (timing.BETWEEN,),
    "intermezzo": (timing.BETWEEN,),
    "overload": (overload.MOTIF,),
    "overloading": (overload.MOTIF,),
    "perpetual": (saving.PERPETUAL,),
    "stalemate": (saving.STALEMATE,),
    "trapped": (trapped.MOTIF,),
    "zwischenzug": (timing.BETWEEN,),
}
"""What teachers also say; one word may stand for several motifs."""


def named(name: str) -> tuple[Motif, ...]:
    """Return the motifs that a name stands for: usually one, both pins for ``"pin"``.

    Capitals, hyphens and plurals do not matter.

    Raises
    ------
    LessonError
        If there is none, with the nearest.

    Examples
    --------
    >>> [motif.name for motif in named("pins")], named("double attack")[0].name
    (['absolute pin', 'relative pin'], 'fork')
    """
    known = {**_ALSO, **{motif.name: (motif,) for motif in MOTIFS}}
    for other, motifs in known.items():
        if same_name(name, other):
            return motifs
    near = [motif.name for other in nearest(name, known) for motif in known[other]]
    question = did_you_mean(list(dict.fromkeys(near)))
    raise LessonError(
        f"there is no motif {name!r}{f': {question}' if near else f'; there are {listed(names())}'}"
    )


def tag(
    position: Position,
    move: str | chess.Move | None = None,
    *,
    line: str | Sequence[chess.Move] = (),
    geometric: bool = False,
    within: int = WITHIN,
    budget: int = BUDGET,
) -> Tags:
    """Name the tactics of a move.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position before the move; or, without `move`, a moment: then the
        move is the one that led there, and the line is the lesson's.
    move : str or chess.Move, optional
        A legal move; the first of `line` if it is left out.
    line : str or sequence of chess.Move
        What follows (or the move and what follows): of several ways to win
        it says which is meant.
    geometric : bool
        Also return patterns that win nothing that is proved.
    within : int
        What the move wins is looked for within so many moves of its side.
    budget : int
        Positions for each question.

    Returns
    -------
    Tags
        A tuple of tags, from the point of view of the side that moves; empty if there is no tactic.

    Raises
    ------
    NotationError
        If the move or the line is not legal.
    LessonError
        If there is no move to look at.

    Examples
    --------
    >>> print(tag("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")[0].words)
    fork: The knight on c7 forks the rook on a8 and the king on e8 (5 points (a rook))

    Notes
    -----
    A few hundredths of a second where nothing is won, up to a second
    otherwise, where the solver is compiled.
    """
    case = case_of(position, move, line=line, within=within, budget=budget)
    return Tags(found for found in _found(case, geometric) if geometric or found.sound)


def case_of(
    position: Position,
    move: str | chess.Move | None = None,
    *,
    line: str | Sequence[chess.Move] = (),
    within: int = WITHIN,
    budget: int = BUDGET,
) -> Case:
    """Put a move in its context; see :func:`tag`."""
    if move is None and not line:
        if not isinstance(position, Moment) or position.move is None or position.back is None:
            raise LessonError("name a move: no move led to this position")
        before, played, rest = position.back.board, position.move, _continuation(position)
    else:
        before = board_of(position)
        played, rest = _moves(before, move, line)
    return Case(before=before, move=played, line=rest, within=within, budget=budget)


def _moves(
    before: chess.Board, move: str | chess.Move | None, line: str | Sequence[chess.Move]
) -> tuple[chess.Move, tuple[chess.Move, ...]]:
    if move is None:
        moves = read_line(before, line) if isinstance(line, str) else tuple(line)
        return moves[0], moves[1:]
    played = move if isinstance(move, chess.Move) else read_move(before, move)
    if not isinstance(line, str):
        moves = tuple(line)
    else:
        after = before.copy(stack=False)
        after.push(played)
        try:
            moves = read_line(after, line)
        except ChessnbError:
            moves = read_line(before, line)
    return played, moves[1:] if moves[:1] == (played,) else moves


def _continuation(moment: Moment) -> tuple[chess.Move, ...]:
    moves = []
    following = moment.next
    while following is not None and following.move:
        moves.append(following.move)
        following = following.next
    return tuple(moves)


def _found(case: Case, geometric: bool) -> Iterator[Tag]:
    """Yield all tags of a case, each once."""
    seen = set()
    for motif in MOTIFS:
        if not geometric and (motif is giving.THREAT or not (case.proof or motif.own_proof)):
            continue
        for found in motif.find(case):
            key = (found.motif, found.actor, found.targets)
            if key not in seen:
                seen.add(key)
                yield found


# -- in a position -----------------------------------------------------------


def tags(
    position: Position,
    *,
    geometric: bool = False,
    facts: bool = False,
    squares: Sequence[str] = (),
    budget: int = BUDGET,
) -> Tags:
    """Name the patterns of a position, whoever is to move.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position.
    geometric : bool
        Also return patterns that win nothing that is proved.
    facts : bool
        Also return its pawn and square facts, which are no tactics; see
        :mod:`chessnb.motifs.standing`.
    squares : sequence of str
        Also tell who attacks and who guards these squares.
    budget : int
        Positions for each question.

    Returns
    -------
    Tags
        A tuple of tags: the tactics, White's first, then the facts.  A
        pattern is sound if its side is to move and wins something by taking
        one of its targets.

    Examples
    --------
    >>> print(tags("4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1")[0].sentence)
    The bishop on b5 pins the knight on c6 to the king on e8: it may not move
    >>> print(tags("4k3/8/8/8/8/8/P7/4K3 w - - 0 1", facts=True)[1].sentence)
    The pawn on a2 is passed: no enemy pawn can stop it on its way
    """
    board = board_of(position)
    found = []
    for motif in MOTIFS:
        if motif.static is not None:
            found += [_backed(board, one, budget) for one in motif.static(board)]
    found.sort(key=lambda one: not one.side)
    told = [one for one in found if geometric or one.sound]
    if facts:
        told += standing.standing(board)
    return Tags((*told, *(standing.bearing(board, square) for square in squares)))


def _backed(board: chess.Board, found: Tag, budget: int) -> Tag:
    """Add to a pattern the proof of what its side wins by taking a target, if it does."""
    ours = as_if_to_move(board, found.side)
    if not ours.is_valid() or board.turn != found.side:
        return found
    best: tuple[int, Proof, chess.Move] | None = None
    for target in map(chess.parse_square, found.targets):
        for move in sorted(ours.legal_moves, key=chess.Move.uci):
            if move.to_square != target or not ours.is_capture(move):
                continue
            won = _most(ours, move, worth(ours, target), budget)
            if won is not None and (best is None or won[0] > best[0]):
                best = (*won, move)
    return found if best is None else replace(found, proof=best[1], shown=(best[2],))


def _most(board: chess.Board, move: chess.Move, most: int, budget: int) -> tuple[int, Proof] | None:
    """Return the most points, up to `most`, that a capture is proved to win, with the proof."""
    frame, base, won = Frame.of(board), Measure.gain(board), None
    for points in range(1, most + 1):
        goal = Gain(points=points, within=2, measure=base)
        asked = proving(
            frame.board(board), frame.goal(goal), key=frame.move(move), budget=budget, explain=False
        )
        if (turned := finish(asked).proof) is None:
            break
        won = points, frame.back(turned, board)
    return won


# -- in a lesson ---------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class Ranked:
    """A moment of a lesson with the tags of its move.

    Attributes
    ----------
    moment : Moment
        The moment after the move.
    tags : tuple of Tag
        Its tags, the most telling first.
    weight : int
        How much they tell.
    """

    moment: Moment
    tags: tuple[Tag, ...]
    weight: int


def scan(lesson: Lesson, *, most: int | None = None, geometric: bool = False) -> tuple[Ranked, ...]:
    """Look for tactics in a whole lesson, its sidelines included.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    most : int, optional
        Return only so many moments, the most telling.
    geometric : bool
        Also look at patterns that win nothing that is proved.

    Returns
    -------
    tuple of Ranked
        The most telling moment first; in the lesson's order among equals.

    Notes
    -----
    About a fiftieth of a second a move on average, compiled.
    """
    found = []
    for moment in lesson.moments():
        if not moment.move:
            continue
        if ranked := _ranked(moment, geometric):
            found.append(ranked)
    seen = {id(one.moment.node): one for one in found}
    fresh = [one for one in found if not _goes_on(one, seen)]
    fresh.sort(key=lambda one: -one.weight)
    return tuple(fresh[:most])


def _goes_on(one: Ranked, seen: dict[int, Ranked]) -> bool:
    """Tell whether a move only carries out the mate that its side's move before had begun."""
    back = one.moment.back
    earlier = None if back is None or back.back is None else seen.get(id(back.node.parent))
    if earlier is None:
        return False
    return all(
        entry.tags[0].proof is not None and isinstance(entry.tags[0].proof.goal, Mate)
        for entry in (one, earlier)
    )


def _ranked(moment: Moment, geometric: bool) -> Ranked | None:
    tagged = sorted(tag(moment, geometric=geometric), key=lambda one: -weight(one))
    if not tagged:
        return None
    total = weight(tagged[0]) + len({one.motif for one in tagged}) - 1
    return Ranked(moment=moment, tags=tuple(tagged), weight=total)


def weight(found: Tag) -> int:
    """Return how much a tag tells a class (common practice, no source)."""
    if found.proof is None:
        return 1
    goal = found.proof.goal
    won = 3 * goal.within if isinstance(goal, Mate) else 5
    if isinstance(goal, Gain):
        won = min(goal.points, 9)
    return 2 * won + _TELLING.get(found.motif, 4)


_TELLING = {
    "decoy": 10,
    "deflection": 9,
    "clearance": 9,
    "interference": 9,
    "overloaded piece": 8,
    "removing the defender": 7,
    "double check": 7,
    "smothered mate": 9,
    "discovered attack": 6,
    "skewer": 6,
    "fork": 6,
    "absolute pin": 5,
    "relative pin": 5,
    "discovered check": 5,
    "hanging piece": 2,
}
"""Motifs that are harder to see tell more (common practice, no source)."""
