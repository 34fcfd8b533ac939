"""What a computation says of a move of the game, and the cells that claim it.

For each move of the main line: what it does (mates, wins, loses, by force),
what it passed over, what it threatens, and whether it leaves one legal reply
or one defence.  Everything that is found here is proved, and becomes a claim
cell that proves it again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

import chess
import chess.pgn

from chessnb.board.points import balance
from chessnb.board.sides import SIDES
from chessnb.lessons import Moment
from chessnb.notation import write_line
from chessnb.proof import Gain, Mate, TooWild
from chessnb.proof.measure import Measure
from chessnb.search.budget import finish
from chessnb.search.most_won import finding_most
from chessnb.search.proof_book import book_of
from chessnb.teaching.adviser import MISTAKE, Adviser, Swing
from chessnb.teaching.as_played import came_off, of_aims, of_offer, of_purpose, of_resigning
from chessnb.teaching.cell_code import before, call
from chessnb.teaching.grown_proof import grow_mate
from chessnb.teaching.losing_moves import cause_of, losing, was_better, worth_naming
from chessnb.teaching.reply_signs import of_hurry, of_replies, proved
from chessnb.teaching.sign import Sign
from chessnb.teaching.standing import Standing
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.judge import Measures, judging
from chessnb.verdicts.mistake import LESS, finding_better
from chessnb.verdicts.move_verdict import Verdict

DEPTH = Depth(mate=3, within=3, budget=100_000)
"""How far each move of a game is looked at."""

HARDER = Depth(mate=6, within=4, budget=400_000)
"""How far a move is looked at that the annotator marks as a mistake."""

MISTAKES = {chess.pgn.NAG_MISTAKE, chess.pgn.NAG_BLUNDER, chess.pgn.NAG_DUBIOUS_MOVE}
"""The glyphs ?, ?? and ?! (PGN standard, section 10)."""

LONGEST_MATE = 6
"""Mates up to so many moves are looked for behind checks and sacrifices."""

LONG_BUDGET = 250_000
TELLING_POINTS = 2
"""So many points must be at stake before a class stops for them."""

UNADVISED_POINTS = 3
"""So many where it is an offer, or a gain passed over, and no adviser says that it matters:
two points may well be left for an open line (common practice, no source)."""

LONGEST_GROWN = 20
"""Mates up to so many moves are proved with the adviser's help."""

SLACK = 3
"""So many moves longer than the adviser says may its mate be."""

KEPT_PLIES = 6
"""What was taken is kept if it is still there so many moves, of either side, later."""

HARD_SWING = 280
"""A move that costs so much in the adviser's eyes is looked at harder, in hundredths of a pawn."""


HURRIED = 4
"""Of a move with so much to tell it is asked whether the other side had a threat of its own."""


class Reader:
    """Looks at the moves of a game one after another.

    It remembers what the move before did: taking what was left, or being
    mated after a sacrifice that was proved, is no turning point of its own.
    Once the game is decided it tells mates alone, found and missed.

    Parameters
    ----------
    adviser : Adviser, optional
        Helps to choose which of the proved statements are worth a stop.
    ends : mapping, optional
        The moves that are known to mate, each with its number of moves.
    """

    def __init__(
        self,
        adviser: Adviser | None = None,
        *,
        ends: Mapping[chess.pgn.GameNode, int] | None = None,
    ) -> None:
        self.adviser = adviser
        self.ends = ends or {}
        self.last: Verdict | None = None
        self.mating: dict[chess.Color, int] = {}
        self.slow: set[chess.Color] = set()
        self.standing = Standing()
        self.was_lost = False

    def signs(self, moment: Moment) -> tuple[Sign, ...]:
        """Return what is found about the move that led to a position, the weightiest first."""
        before, move = moment.node.parent, moment.move
        if before is None or not move:
            self.last = None
            return ()
        board = before.board()
        self.standing.look(board)
        if self._goes_on_mating(board, move):
            self.last = None
            # The whole mate is told where it begins: no stop for each of its moves.
            return tuple(replace(sign, weight=0) for sign in of_replies(moment))
        if self.mating.get(not board.turn) or board.legal_moves.count() == 1:
            self.last = None  # there was nothing better, so the move is no mistake
            return tuple(of_replies(moment))
        swing = self._swing(board, move)
        found = _judged(moment, board, move, harder=swing is not None and swing.costs >= HARD_SWING)
        signs = list(self._known_mate(moment)) or list(self._long_mate(moment, found, swing))
        if not signs:
            signs += self._of_verdict(moment, found, swing)
        if not any(sign.kind in TURNS for sign in signs) and swing is not None:
            signs += _advised(board, move, swing)
        if not any(sign.kind in ("loses", "missed") for sign in signs):
            mates = next((one for one in signs if one.kind.startswith("mates in")), None)
            signs += of_offer(moment, mate=0 if mates is None else int(mates.kind.split()[-1]) - 1)
        if not self._is_decided(swing):
            signs += of_replies(moment)
            signs += of_aims(moment)
        signs += of_purpose(moment)
        if sum(sign.weight for sign in signs) >= HURRIED:
            signs += of_hurry(moment)
        signs += self._cause(moment, signs)
        signs += of_resigning(moment)
        self.last = found
        return tuple(sorted(signs, key=lambda sign: -sign.weight))

    def _cause(self, moment: Moment, signs: list[Sign]) -> Iterator[Sign]:
        """Yield what allowed a blow, unless the side was lost before."""
        if not self.was_lost:
            yield from cause_of(moment, signs, self.last)
        self.was_lost = self.standing.is_behind

    def _known_mate(self, moment: Moment) -> Iterator[Sign]:
        moves = self.ends.get(moment.node, 0)
        if moves > 1:  # a checkmate says so itself
            self._found_mate(not moment.turn, moves)
            yield _mates(moment, moves)

    def _grown(
        self, moment: Moment, board: chess.Board, move: chess.Move, moves: int
    ) -> Iterator[Sign]:
        """Yield a mate that the search proves, or that grows with the adviser's moves."""
        assert self.adviser is not None
        if proved(board, Mate(within=moves), LONG_BUDGET, move):
            self._found_mate(not moment.turn, moves)
            yield _mates(moment, moves)
            return
        book = book_of(moment)
        for within in range(moves, moves + SLACK):
            proof = None if book is None else grow_mate(board, within, self.adviser, key=move)
            if proof is not None and book is not None:
                book.keep_grown(proof, move)
                self._found_mate(not moment.turn, within)
                yield _mates(moment, within)
                return

    def _swing(self, board: chess.Board, move: chess.Move) -> Swing | None:
        """Return what the adviser says of a move; None without one."""
        if self.adviser is None:
            return None
        after = board.copy(stack=False)
        after.push(move)
        before = self.adviser.ask(board)
        return Swing(before=before, after=-self.adviser.ask(after).score)

    def _is_decided(self, swing: Swing | None) -> bool:
        """Tell whether the game is decided: by the adviser, or by a lead that has lasted."""
        return self.standing.is_decided if swing is None else not swing.is_open

    def _goes_on_mating(self, board: chess.Board, move: chess.Move) -> bool:
        """Tell whether a move is the next of a mate that was found before."""
        left = self.mating.pop(board.turn, 0)
        if not left:
            return False
        swing = self._swing(board, move) if left > LONGEST_MATE else None
        advised = swing is not None and swing.mates_in > 0
        if advised or proved(board, Mate(within=left), LONG_BUDGET, move):
            self.mating[board.turn] = max(1, left - 1)
            return True
        return False

    def _found_mate(self, side: chess.Color, moves: int) -> None:
        self.mating[side] = max(1, moves - 1)

    def _of_verdict(self, moment: Moment, found: Verdict, swing: Swing | None) -> Iterator[Sign]:
        given = self.last is not None and (self.last.is_bad or self.last.kind == "offers")
        decided = self._is_decided(swing)
        if found.kind == "checkmate":
            return
        if found.kind == "mates":
            self._found_mate(not moment.turn, found.moves)
            yield _mates(moment, found.moves)
        elif decided:
            if given and (not moment.turn) not in self.slow:
                self.slow.add(not moment.turn)
                yield from self._missed_mate(moment)
        elif found.kind == "wins":
            new = _is_new(moment, found) if swing is None else swing.is_good
            if found.points >= TELLING_POINTS and not given and new:
                yield _win(moment, found)
        elif swing is not None and swing.costs < MISTAKE:
            return
        elif found.is_bad and not self._was_lost(found):
            yield from self._mistake(moment, found, certain=swing is not None)
        elif found.kind == "offers":
            yield from self._left(moment, found, certain=swing is not None)
        elif swing is not None or (self.last is not None and self.last.is_bad):
            yield from self._missed(moment, certain=swing is not None)
        elif given:  # to decline an offer is no mistake
            yield from self._missed_mate(moment)

    def _was_lost(self, found: Verdict) -> bool:
        """Tell whether the side had nothing better: the other side's move won as much."""
        last = self.last
        if last is None:
            return False
        if found.kind == "mated":  # what was won before is no reason to be mated
            return last.kind == "mates"
        return last.kind == "mates" or (last.kind == "wins" and last.points >= found.points)

    def _mistake(self, moment: Moment, found: Verdict, *, certain: bool) -> Iterator[Sign]:
        """Yield a loss, if there was a better move: found here, or for annotator or adviser."""
        if found.kind == "loses" and found.points < TELLING_POINTS:
            return
        better = self._better(found)
        if certain or moment.node.nags & MISTAKES or better is not None:
            yield _loss(moment, found, worth_naming(found, better))

    def _left(self, moment: Moment, found: Verdict, *, certain: bool) -> Iterator[Sign]:
        """Yield what was left to be taken: the other side took and kept it, or the adviser says so.

        What is left for something in return is no mistake.
        """
        if found.points < _least(certain=certain) or not found.kept or came_off(moment):
            return
        if not certain and not _kept_in_the_game(moment, found):
            return
        better = self._better(found)
        if not certain and better is None:
            return
        named = worth_naming(found, better)
        cell = losing(moment, named, at_least=found.points, within=found.moves)
        yield Sign(
            weight=2 + min(found.points, 5),
            words=f"{SIDES[not moment.turn]} leaves {found.left}{was_better(moment, named)}",
            cell=cell,
            kind="loses",
        )

    def _better(self, found: Verdict) -> chess.Move | None:
        """Return a move that costs less; the adviser's is looked at first."""
        advised = None if self.adviser is None else self.adviser.ask(found.board).best
        return finish(finding_better(found, first=[] if advised is None else [advised]))

    def _missed(self, moment: Moment, *, certain: bool) -> Iterator[Sign]:
        """Yield what the move passed over: a mate, or material."""
        mates = list(self._missed_mate(moment))
        if mates:
            yield from mates
            return
        parent = moment.node.parent
        assert parent is not None
        board = parent.board()
        try:
            measure = Measure.gain(board)
        except TooWild:
            return
        most = finish(finding_most(board, board.turn, measure, DEPTH.within, DEPTH.budget))
        if most.won is None or not isinstance(most.won.goal, Gain):
            return
        goal = most.won.goal
        if goal.points >= _least(certain=certain) and (certain or _is_gone(moment, goal)):
            yield Sign(
                weight=3 + min(goal.points, 5),
                words=f"{SIDES[board.turn]} passes over a gain of {goal.points} points",
                cell=call(
                    "claims.wins_material",
                    before(moment),
                    at_least=goal.points,
                    within=goal.within,
                ),
                kind="missed",
            )

    def _missed_mate(self, moment: Moment) -> Iterator[Sign]:
        parent = moment.node.parent
        assert parent is not None
        board = parent.board()
        for moves in range(1, DEPTH.mate + 1):
            if proved(board, Mate(within=moves), DEPTH.budget):
                yield Sign(
                    weight=6,
                    words=f"{SIDES[board.turn]} passes over a mate in {moves}",
                    cell=call("claims.mates", before(moment), within=moves),
                    kind="missed",
                )
                return

    def _long_mate(self, moment: Moment, found: Verdict, swing: Swing | None) -> Iterator[Sign]:
        """Yield a longer mate that begins with a check, or that the adviser sees."""
        parent, move = moment.node.parent, moment.move
        assert parent is not None
        assert move is not None
        if found.kind in ("mates", "checkmate"):
            return
        if swing is not None and DEPTH.mate < swing.mates_in <= LONGEST_GROWN:
            yield from self._grown(moment, parent.board(), move, swing.mates_in)
            return
        if not moment.board.is_check():
            return
        for moves in range(DEPTH.mate + 1, LONGEST_MATE + 1):
            goal = Mate(within=moves)
            if proved(parent.board(), goal, LONG_BUDGET, move):
                self._found_mate(not moment.turn, moves)
                yield _mates(moment, moves)
                return


def _advised(board: chess.Board, move: chess.Move, swing: Swing) -> Iterator[Sign]:
    """Yield a turn of the game that the adviser sees and nobody has proved, without a claim."""
    best = swing.before.best
    if swing.costs < MISTAKE or not swing.before.is_open or best in (None, move):
        return
    assert best is not None
    yield Sign(
        weight=5 if swing.costs >= HARD_SWING else 4,
        words=f"{write_line(board, (best,))} is better in the opinion of a UCI engine; nothing of "
        "it is proved",
        kind=ADVICE,
        question=f"The game goes on with {write_line(board, (move,))}. What would you play "
        "instead?",
    )


ADVICE = "advice"
"""The kind of sign that an adviser alone gives."""

TURNS = {"loses", "missed", "wins"}
"""The kinds of signs that say of a move that the game turned."""


def _kept_in_the_game(moment: Moment, found: Verdict) -> bool:
    """Tell whether the game took what was left, and kept it."""
    following = moment.next
    if following is None or len(found.line) < 2 or following.move != found.line[1]:
        return False
    side = not moment.turn
    node = following.node
    for _ in range(KEPT_PLIES):
        node = node.next() or node
    return balance(node.board(), side) <= balance(found.board, side) - found.points


def _least(*, certain: bool) -> int:
    """Return how many points an offer or a missed gain must be of, to be told."""
    return TELLING_POINTS if certain else UNADVISED_POINTS


def _is_gone(moment: Moment, goal: Gain) -> bool:
    """Tell whether a gain that a move passed over cannot be made up for afterwards (searched)."""
    move = moment.move
    assert move is not None
    later = goal.measure.after(move)
    left = finish(
        finding_most(moment.board, not moment.turn, later, goal.within, DEPTH.budget)
    ).at_most
    return left is not None and left <= goal.points - LESS


def _is_new(moment: Moment, found: Verdict) -> bool:
    """Tell whether what a move wins was not lost already, one move of the other side before."""
    before = moment.node.parent
    if before is None or before.parent is None or found.proof is None:
        return True
    assert isinstance(found.proof.goal, Gain)
    try:
        due = Measure.loss(before.parent.board()).value
    except TooWild:
        return True
    return due < found.proof.goal.measure.value + found.points


def _win(moment: Moment, found: Verdict) -> Sign:
    return Sign(
        weight=3 + min(found.points, 5),
        words=f"{SIDES[not moment.turn]} wins {found.material} by force",
        cell=_claim(moment, "wins_material", at_least=found.points, within=found.moves),
        kind="wins",
    )


def _judged(moment: Moment, board: chess.Board, move: chess.Move, *, harder: bool) -> Verdict:
    """Return what a move does; looked at harder where it is called a mistake and none was found."""
    found = _verdict(board, move, DEPTH)
    telling = found.kind == "mated" or found.points >= TELLING_POINTS
    if telling or not (harder or moment.node.nags & MISTAKES):
        return found
    return _verdict(board, move, HARDER)


def _verdict(board: chess.Board, move: chess.Move, depth: Depth) -> Verdict:
    return finish(judging(board, move, depth=depth, measures=Measures.of(board)))


def _mates(moment: Moment, moves: int) -> Sign:
    return Sign(
        weight=8,
        words=f"{SIDES[not moment.turn]} mates in {moves} by force",
        cell=_claim(moment, "mates", within=moves),
        kind=f"mates in {moves}",
    )


def _loss(moment: Moment, found: Verdict, better: chess.Move | None) -> Sign:
    side, beside = SIDES[moment.turn], was_better(moment, better)
    if found.kind == "mated":
        cell = losing(moment, better, mate=found.moves)
        words = f"{side} can mate in {found.moves} now{beside}"
        return Sign(weight=7, words=words, cell=cell, kind="loses")
    cell = losing(moment, better, at_least=found.points, within=found.moves)
    words = f"{side} can win {found.material} now{beside}"
    return Sign(weight=2 + min(found.points, 5), words=words, cell=cell, kind="loses")


def _claim(moment: Moment, name: str, **numbers: int) -> str:
    """Write the claim about the move that led to a position."""
    return call(f"claims.{name}", before(moment), **numbers, move=moment.san)
