"""A case: one move in its context, and what is proved about it.

Every motif looks at the same case: the position before the move, the move,
the position after it, what the move wins by force, and the lines that a
defence can lead to.  What the move wins is proved once and shared; so is the
answer to each question that a motif asks ("does this follow-up win?  would it
have won at once?").
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import chess

from chessnb.board.exchange import gain_on, nets
from chessnb.board.points import POINTS
from chessnb.board.sides import SIDES
from chessnb.board.turns import moved
from chessnb.diagrams import Mark
from chessnb.motifs.evidence import Tag
from chessnb.motifs.frame import Frame
from chessnb.motifs.told_gain import kept_gain, told_line
from chessnb.notation import write_move
from chessnb.proof import Gain, Goal, Mate, Measure, Proof, TooWild, check
from chessnb.proof.goals import after
from chessnb.search import core
from chessnb.search.budget import SLICE, finish
from chessnb.search.prover import Outcome, proving

WITHIN = 4
"""How far a tactic is looked at: mates and gains within so many moves of ours."""

BUDGET = 500_000
"""Positions for each question about a move."""

GUESS = 200_000
"""So many of them for each guess at what a move wins, before it is asked whether it wins at all."""

MOST_POINTS = 39
"""All that a side has at the start of a game, its king left out."""


@dataclass(frozen=True, kw_only=True)
class Reply:
    """A reply to the move, and how we go on.

    Attributes
    ----------
    move : chess.Move
        The reply.
    board : chess.Board
        The position after it, us to move; not to be changed.
    line : tuple of chess.Move
        What follows, our move first; empty where the gain is in hand.
    """

    move: chess.Move
    board: chess.Board
    line: tuple[chess.Move, ...]

    @property
    def answer(self) -> chess.Move | None:
        """Our next move."""
        return self.line[0] if self.line else None

    @property
    def wins_a_piece(self) -> bool:
        """Whether our next move takes something that is not just traded on its square."""
        answer = self.answer
        if answer is None or not self.board.is_capture(answer):
            return False
        return nets(self.board, answer) > 0


@dataclass(frozen=True, kw_only=True, eq=False)
class Case:
    """A move in its context.

    Attributes
    ----------
    before : chess.Board
        The position before the move, with its history where that is known.
    move : chess.Move
        The move.
    line : tuple of chess.Move
        What followed: the game's, the lesson's, or nothing.
    within : int
        Mates and gains are looked for within so many moves of ours.
    budget : int
        Positions for each question.
    """

    before: chess.Board
    move: chess.Move
    line: tuple[chess.Move, ...] = ()
    within: int = WITHIN
    budget: int = BUDGET
    asked: dict[tuple[str, str, int], bool] = field(default_factory=dict, repr=False)

    # -- the move ------------------------------------------------------------

    @property
    def side(self) -> chess.Color:
        """The side that moves: us."""
        return self.before.turn

    @property
    def us(self) -> str:
        """The side that moves, in words."""
        return SIDES[self.side]

    @property
    def them(self) -> str:
        """The other side, in words."""
        return SIDES[not self.side]

    @cached_property
    def after(self) -> chess.Board:
        """The position after the move; not to be changed."""
        return moved(self.before, [self.move])

    @property
    def san(self) -> str:
        """The move in SAN."""
        return write_move(self.before, self.move)

    @property
    def gives_check(self) -> bool:
        """Whether the move checks."""
        return self.after.is_check()

    @property
    def gives_discovered_check(self) -> bool:
        """Whether a piece other than the one that moved gives check."""
        return bool(self.after.checkers() - chess.SquareSet([self.move.to_square]))

    @cached_property
    def captured(self) -> chess.Piece | None:
        """What the move takes."""
        if self.before.is_en_passant(self.move):
            return chess.Piece(chess.PAWN, not self.side)
        if self.before.color_at(self.move.to_square) == self.side:
            return None
        return self.before.piece_at(self.move.to_square)

    # -- what it wins ----------------------------------------------------------

    @cached_property
    def measure(self) -> Measure:
        """What a gain of the side that moves is measured from."""
        return Measure.gain(self.before)

    @property
    def base(self) -> int:
        """The balance that it is measured from."""
        return self.measure.value

    @cached_property
    def frame(self) -> Frame:
        """How the position is turned before it is searched."""
        return Frame.of(self.before)

    @cached_property
    def proof(self) -> Proof | None:
        """What the move wins by force, replayed by the checker: a mate, else the most material."""
        if self._turned is None:
            return None
        proof = self.frame.back(self._turned, self.before)
        check(proof)
        return proof

    @cached_property
    def _turned(self) -> Proof | None:
        """The proof in the frame."""
        if self.after.is_game_over():
            return self._mate(1) if self.after.is_checkmate() else None
        try:
            estimate, within = self._estimate()
        except TooWild:
            return None
        if estimate > MOST_POINTS:
            for moves in range(2, within + 1):
                if (proof := self._mate(moves)) is not None:
                    return proof
        return self._material(min(estimate, MOST_POINTS), within)

    @cached_property
    def told(self) -> Proof | None:
        """The proof with all that it shows to be won and kept: what a tag tells."""
        return None if self._told is None else self._told[0]

    @cached_property
    def _told(self) -> tuple[Proof, tuple[chess.Move, ...]] | None:
        """What a tag tells, and the line of the best defence, to what is won back of it."""
        if self._turned is None or self.proof is None:
            return None
        turned, line = kept_gain(self._turned, self.budget)
        if turned is self._turned:
            return self.proof, self.frame.moves(line)
        proof = self.frame.back(turned, self.before)
        check(proof)
        return proof, self.frame.moves(line)

    def told_line(self, fen: str = "", reply: Reply | None = None) -> tuple[chess.Move, ...]:
        """Return the line that a tag shows: what followed, if it wins what is told, else the best.

        `fen` is a position that it must lead to, if what followed does; `reply` is the
        one with which the tactic shows.
        """
        if self._told is None:
            return self.shown
        proof, best = self._told
        followed = self.shown if reply is None else (self.move, reply.move, *reply.line)
        proved = self._after(reply or next(iter(self.replies), None))
        if not isinstance(proof.goal, Gain):
            lines = (followed, proved, self.shown)
            return next((one for one in lines if _ends_in_mate(self.before, one)), best)
        if proof.mates:
            return best
        most = 2 * proof.goal.within + 1
        least = 3 if reply is not None else _plies_to(self.before, followed, fen)
        return told_line(proof, (followed[:most], proved), least) or told_line(
            proof, (best if reply is None else followed[:most],), 1, otherwise=True
        )

    def _after(self, reply: Reply | None) -> tuple[chess.Move, ...]:
        """Return the proof's own line after a reply."""
        if self._turned is None or reply is None:
            return (self.move,)
        made = self.frame.move(self.move), self.frame.move(reply.move)
        return (self.move, reply.move, *self.frame.moves(self._turned.line_from(made)))

    def _mate(self, moves: int) -> Proof | None:
        return self._prove(self.before, self.move, Mate(within=moves))

    def _prove(
        self, board: chess.Board, key: chess.Move, goal: Goal, budget: int | None = None
    ) -> Proof | None:
        turned, move, goal = self.frame.board(board), self.frame.move(key), self.frame.goal(goal)
        asked = proving(turned, goal, key=move, budget=budget or self.budget, explain=False)
        return finish(asked).proof

    def ask(self, board: chess.Board, goal: Goal, *, key: chess.Move | None = None) -> Outcome:
        """Ask what we reach in a position that has to do with the case, in its frame.

        The proof, if there is one, is of the position that was given, and replayed there.
        """
        turned = self.frame.board(board)
        attacker = self.side != self.frame.colours_change
        move = None if key is None else self.frame.move(key)
        sought = self.frame.goal(goal)
        asked = proving(
            turned, sought, attacker=attacker, key=move, budget=self.budget, explain=False
        )
        outcome = finish(asked)
        if outcome.proof is None:
            return outcome
        proof = self.frame.back(outcome.proof, board)
        check(proof)
        return replace(outcome, proof=proof)

    def _estimate(self) -> tuple[int, int]:
        """Return what the move seems to win, in points, and within how many moves of ours.

        Looked at as far as the budget goes; longer lines may only look better.
        """
        value = within = 0
        turned = self.frame.board(self.after)
        for moves in range(1, self.within):
            gains = core.Gains(
                turned.fen(), attacker=not turned.turn, within=moves, floor=self.base
            )
            while not gains.run(min(SLICE, self.budget - gains.positions)):
                if gains.positions >= self.budget:
                    return value, within
            value, within = gains.value - self.base, moves + 1
        return value, within

    def _material(self, points: int, within: int) -> Proof | None:
        """Prove the most that is won: larger gains at a guess, since few lines reach them."""
        tries = {one for one in (points, points - 1, points - 2, 5, 3, 2) if 1 < one <= points}
        for one in sorted(tries, reverse=True):
            if (proof := self._gain(one, within, min(GUESS, self.budget))) is not None:
                return proof
        return self._gain(1, within, self.budget) if points > 0 else None

    def _gain(self, points: int, within: int, budget: int) -> Proof | None:
        goal = Gain(points=points, within=within, measure=self.measure)
        return self._prove(self.before, self.move, goal, budget)

    @property
    def mates(self) -> bool:
        """Whether the move mates by force."""
        return self.proof is not None and isinstance(self.proof.goal, Mate)

    @cached_property
    def in_hand(self) -> bool:
        """Whether taking what the move takes is (but for a pawn or so) all that is won.

        Then nothing else need happen, and no other motif is what wins.
        """
        if self.proof is None:
            return False
        if not isinstance(self.proof.goal, Gain):
            return self.after.is_checkmate()
        target = self.move.to_square
        taken = points_of(self.captured)
        if self.move.promotion:
            taken += POINTS[self.move.promotion] - POINTS[chess.PAWN]
        taken -= gain_on(self.after, target)
        return taken > 0 and self.proof.goal.points - taken <= max(1, taken // 3)

    @property
    def gives_up(self) -> bool:
        """Whether the piece that moved may be taken where it now stands."""
        target = self.move.to_square
        return any(reply.to_square == target for reply in self.after.legal_moves)

    # -- what follows ----------------------------------------------------------

    @cached_property
    def replies(self) -> tuple[Reply, ...]:
        """The replies that the proof answers: what followed and the longest resistance first."""
        if self._turned is None:
            return ()
        turned = [chess.Move.from_uci(reply) for reply, _ in self._turned.nodes[0].replies]
        turned.sort(key=lambda one: (one != self._main[0], one.uci()))
        moves = sorted(self.frame.moves(turned), key=lambda one: (one,) != self.line[:1])
        return tuple(self._reply(one) for one in moves)

    @cached_property
    def _main(self) -> tuple[chess.Move | None, ...]:
        """The longest resistance in the frame, the reply first; no move if there is none."""
        main = self._turned.main_line[1:] if self._turned else ()
        return main or (None,)

    def _reply(self, move: chess.Move) -> Reply:
        assert self._turned is not None
        turned = self.frame.move(move)
        if turned == self._main[0]:
            line = self.frame.moves(one for one in self._main[1:] if one)
        else:
            line = self.frame.moves(self._turned.line_from((self.frame.move(self.move), turned)))
        if self.line[:1] == (move,) and len(self.line) > 1 and self.wins((move,), self.line[1]):
            line = self.line[1:]
        return Reply(move=move, board=moved(self.after, [move]), line=line)

    @property
    def critical(self) -> tuple[Reply, ...]:
        """The replies that matter: what followed, the longest resistance, and taking the piece."""
        main = self._main[0] and self.frame.move(self._main[0])
        target = self.move.to_square
        return tuple(
            reply
            for reply in self.replies
            if reply.move == main
            or (reply.move,) == self.line[:1]
            or reply.move.to_square == target
        )

    @property
    def lines(self) -> tuple[tuple[chess.Move, ...], ...]:
        """The lines that can follow the move, each beginning with a reply."""
        return tuple((reply.move, *reply.line) for reply in self.replies)

    def wins(self, moves: Sequence[chess.Move], key: chess.Move) -> bool:
        """Tell whether a move reaches the same goal after some moves that follow ours.

        Parameters
        ----------
        moves : sequence of chess.Move
            The reply, and what follows it, up to our turn.
        key : chess.Move
            Our move there.
        """
        if self.proof is None:
            return False
        if self.proof.answer((self.move, *moves)) == key:
            return True
        return self._asks(key, (self.move, *moves))

    def wins_at_once(self, key: chess.Move) -> bool:
        """Tell whether another move would have reached the same goal without the move."""
        if self.proof is None or not self.before.is_legal(key):
            return False
        return self._asks(key, ())

    def _asks(self, key: chess.Move, made: Sequence[chess.Move]) -> bool:
        assert self.proof is not None
        board = moved(self.before, made)
        question = (board.fen(), key.uci(), len(made))
        if question not in self.asked:
            goal = self.proof.goal
            assert isinstance(goal, Mate | Gain)
            left = goal.within - (len(made) + 1) // 2
            shorter = None if left < 1 else _shorter(goal, left, made)
            budget = self.budget // 2  # of many moves; what wins shows soon
            self.asked[question] = bool(shorter and self._prove(board, key, shorter, budget))
        return self.asked[question]

    def mostly(self, holds: Callable[[tuple[chess.Move, ...]], bool]) -> bool:
        """Tell whether something holds in the line that was shown, or in half of all lines."""
        if self.proof is None or not self.lines:
            return False
        first = holds(self.lines[0])
        return first or sum(holds(line) for line in self.lines) * 2 >= len(self.lines)

    @property
    def shown(self) -> tuple[chess.Move, ...]:
        """The line that shows what is won: what followed as far as it wins, else the proof's."""
        if not self.replies:
            return (self.move, *self.line)
        first = self.replies[0]
        return (self.move, first.move, *first.line)

    # -- telling ---------------------------------------------------------------

    def tag(
        self,
        motif: str,
        *,
        sound: bool,
        as_played: bool = False,
        sentence: str,
        actor: chess.Square,
        targets: Sequence[chess.Square] = (),
        squares: Sequence[chess.Square] = (),
        marks: Sequence[Mark] = (),
        ply: int = 1,
        board: chess.Board | None = None,
        reply: Reply | None = None,
        plies: int | None = None,
    ) -> Tag:
        """Make a tag of the move: with the proof if it is sound.

        `board` is the position that the marks belong to; the one after the
        move if it is left out.  `as_played`: where nothing is proved, the line
        that followed shows the tactic all the same, as far as `plies` go.  `reply`
        is the one with which it shows, if it shows only with one.
        """
        return Tag(
            motif=motif,
            fen=(board or self.after).fen(),
            side=self.side,
            ply=ply,
            actor=chess.square_name(actor),
            targets=tuple(chess.square_name(square) for square in targets),
            squares=tuple(chess.square_name(square) for square in squares),
            sentence=sentence,
            marks=tuple(marks),
            move=self.move.uci(),
            shown=self.told_line((board or self.after).fen(), reply)
            if sound and self.proof
            else self.shown[:plies],
            before=self.before.fen(),
            proof=self.told if sound else None,
            as_played=as_played and self.proof is None,
        )


def _plies_to(board: chess.Board, line: Sequence[chess.Move], fen: str) -> int:
    """Return after how many moves of a line a position stands on the board; 1 if it never does."""
    at = board.copy(stack=False)
    for number, move in enumerate(line, start=1):
        at.push(move)
        if at.fen() == fen:
            return number
    return 1


def _ends_in_mate(board: chess.Board, line: Sequence[chess.Move]) -> bool:
    return moved(board, line).is_checkmate()


def _shorter(goal: Mate | Gain, left: int, made: Sequence[chess.Move]) -> Goal:
    return after(replace(goal, within=left), *made)


def points_of(piece: chess.Piece | None) -> int:
    """Return what a piece is worth, in points; 0 for none."""
    return 0 if piece is None else POINTS[piece.piece_type]
