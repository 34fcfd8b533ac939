"""The race to a proof: narrow lanes and shorter goals beside the goal itself.

Where a goal is long, checks alone or forcing moves alone often prove it with
few positions, and the search among all moves finds nothing for a long time.
So it is asked on several tracks by turns.  Tracks of one goal share their
proofs; what a narrow lane refutes says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.proof import Gain, Goal, Mate, MateOrGain, Perpetual
from chessnb.proof.goals import aims_of
from chessnb.search import core
from chessnb.search.budget import Searching

Status = Literal["proved", "false", "not settled"]
"""The three answers; the third is never mistaken for one of the others."""

WORDS: dict[int, Status] = {core.PROVED: "proved", core.REFUTED: "false", core.OPEN: "not settled"}


def ask(
    board: chess.Board, goal: Goal, attacker: chess.Color, *, key: chess.Move | None = None
) -> core.Question:
    """Put a goal to the core."""
    aims = aims_of(goal)
    return core.Question(
        board.fen(),
        attacker=attacker,
        mate=aims.mate,
        gain=aims.gain,
        target=aims.target,
        stalemate=aims.stalemate,
        moves=None if key is None else [key.uci()],
    )


LONG = 4
"""So many moves are long: below, narrow lanes cost more than they save."""


@dataclass(frozen=True, kw_only=True)
class _Lane:
    """Some of the attacker's moves, and how far it goes with them."""

    moves: int = core.ALL_MOVES
    quiet: int = 0
    within: int


class _Track:
    """A goal that would do, and the lanes in which it is asked, one after the other."""

    def __init__(self, question: core.Question, lanes: list[_Lane], *, turn: int) -> None:
        self.question = question
        self.lanes = lanes
        self.turn = turn

    def run(self, budget: int) -> Status:
        """Have a turn; "false": the last lane is refuted too, and the track is at its end."""
        lane = self.lanes[0]
        status = WORDS[
            self.question.run_lane(
                max(1, min(self.turn, budget)), lane.moves, lane.quiet, lane.within
            )
        ]
        if status != "false":
            return status
        del self.lanes[0]
        return "not settled" if self.lanes else "false"


def tracks_of(
    board: chess.Board, goal: Goal, side: chess.Color, key: chess.Move | None
) -> list[_Track]:
    """Return the tracks on which a goal is asked, cheap ones first, the goal itself last.

    A narrow lane finds a long mate or gain with few positions, or not at all.
    A gain with fewer moves has a smaller proof.  Of a mate or a gain each is
    asked alone too: an estimate shortens the search for a gain.
    """
    whole = ask(board, goal, side, key=key)
    tracks: list[_Track] = []
    match goal:
        case Mate():
            tracks += _narrow(whole, goal.within)
        case Gain():
            tracks += [_shorter(whole, goal.within), *_narrow(whole, goal.within)]
        case MateOrGain(mate=mate, gain=gain):
            won = ask(board, gain, side, key=key)
            tracks += [_shorter(won, gain.within), *_narrow(won, gain.within)]
            tracks[0].lanes.append(_Lane(within=gain.within))
            mated = ask(board, mate, side, key=key)
            lanes = [_Lane(within=moves) for moves in range(3, mate.within, 2)]
            lanes.append(_Lane(within=mate.within))
            tracks += [_Track(mated, lanes, turn=SHORT_TURN), *_narrow(mated, mate.within)]
    lanes = [_Lane(within=_longest(goal))]
    return [*(track for track in tracks if track.lanes), _Track(whole, lanes, turn=TURN)]


def _longest(goal: Goal) -> int:
    match goal:
        case MateOrGain(mate=mate, gain=gain):
            return max(mate.within, gain.within)
        case Perpetual():
            return 0
    return goal.within


def _shorter(question: core.Question, within: int) -> _Track:
    return _Track(question, [_Lane(within=moves) for moves in range(1, within)], turn=SHORT_TURN)


def _narrow(question: core.Question, within: int) -> list[_Track]:
    """Return the narrow lanes of a long goal: checks alone; forcing moves and 0, 1, 2 others."""
    if within < LONG:
        return []
    checks = [_Lane(moves=core.CHECKS, within=moves) for moves in range(LONG - 1, within + 1)]
    tracks = [_Track(question, checks, turn=SHORT_TURN)]
    lengths = [*range(LONG - 1, within, 2), within]
    for quiet in range(3):
        lanes = [_Lane(moves=core.FORCING, quiet=quiet, within=moves) for moves in lengths]
        tracks.append(_Track(question, lanes, turn=SHORT_TURN))
    return tracks


HEAD_START = 100_000
"""Positions for what is cheaper before the goal itself is asked."""

TURN = 40_000
"""Positions for the goal itself before the others have their turn."""

SHORT_TURN = 5_000
"""Positions for a shorter goal or a narrow lane before another has its turn."""


class Race:
    """The tracks of a goal, run by turns until one is proved or the last is refuted.

    The last track, the goal itself, begins later than the others, and has
    most of the time then.
    """

    def __init__(self, tracks: list[_Track], budget: int) -> None:
        self.tracks = tracks
        self.budget = budget
        self.spent = 0
        self.head_start = min(HEAD_START, budget // 4)

    def run(self) -> Searching[tuple[core.Question, Status]]:
        """Go on until there is an answer; may be called again after one that will not do."""
        whole = self.tracks[-1]
        while True:
            for track in list(self.tracks):
                if track is whole and self.spent < self.head_start and len(self.tracks) > 1:
                    continue
                before = track.question.positions
                status = track.run(self.budget - self.spent)
                self.spent += track.question.positions - before
                if status == "proved" or (status == "false" and track is whole):
                    return track.question, status
                if status == "false":
                    self.tracks.remove(track)
                if self.spent >= self.budget:
                    return track.question, "not settled"
                yield self.spent

    def beware(self, comebacks: core.Comebacks) -> None:
        """Let no track be content any more with what is won back."""
        for question in {id(track.question): track.question for track in self.tracks}.values():
            question.beware(comebacks)
