# cython: language_level=3, boundscheck=False, wraparound=False
# cython: initializedcheck=False, cdivision=True, legacy_implicit_noexcept=True
"""The solver's core: its own bitboards, and two searches on them.

The file is Cython's pure-Python mode.  Where a compiler is, the package build
compiles it; elsewhere the same file runs as it is, slowly (`compiling` says
how slowly), without Cython being installed.  Answers and position counts are the same both
ways, because nothing here depends on time, on a hash that varies, or on the
width of a machine word: products and left shifts are cut to 64 bits.

Two searches:

- :class:`Question` answers yes or no by depth-bounded proof-number search
  (df-pn).  Its table is keyed by position and by the attacker's moves left,
  so that values do not depend on the path; "proved with r left" answers more
  than r, "refuted with r left" answers fewer.
- :class:`Gains` estimates what a side wins by alpha-beta with quiescence.
  Both sides may stop at its leaves, so it says too much rather than too
  little; a gain counts only when a :class:`Question` has proved it.

A move is an int: from, to << 6, promotion << 12 (1 knight … 4 queen), and a
kind << 15 (1 en passant, 2 castling, 4 double step).
"""

from __future__ import annotations

from array import array

try:
    import cython
except ImportError:  # no Cython: the names that this file uses, doing nothing

    class _Type(type):
        def __getitem__(cls, _index):
            return cls

    class cython(metaclass=_Type):  # noqa: D101, N801
        compiled = False
        int = ulonglong = longlong = bint = _Type("int", (), {})

        @staticmethod
        def declare(_type, value):  # noqa: D102
            return value

        @staticmethod
        def cclass(thing):  # noqa: D102
            return thing

        cfunc = inline = cclass


compiled: bool = cython.compiled
"""Whether this file runs compiled."""

OPEN, PROVED, REFUTED = 0, 1, 2
"""What a :class:`Question` has come to."""

ALL_MOVES, CHECKS, FORCING = 0, 1, 2
"""The attacker's moves that a lane of a :class:`Question` tries.

All; checks alone; checks, captures, promotions and threats of mate in one.
A narrow lane may be given a few quiet moves besides.
"""

MOST_QUIET = 7
"""So many quiet moves may a narrow lane be given."""

MATE_VALUE = 10_000
"""The value of a mate for :class:`Gains`; less one for each ply before it."""

# Declared, since a plain module name is an object to the compiled code, dear to look up.
_MATE = cython.declare(cython.int, MATE_VALUE)
_INFINITE = cython.declare(cython.int, 100_000_000)
_ALL_MOVES = cython.declare(cython.int, ALL_MOVES)
_CHECKS = cython.declare(cython.int, CHECKS)
_MOST_MOVES = cython.declare(cython.int, 256)
_MOST_PLIES = cython.declare(cython.int, 128)
_EMPTY = cython.declare(cython.int, 12)

# Of quiet answers to a first comeback so many are tried, to a later one so many.
_QUIET_ANSWERS = cython.declare(cython.int, 12)
_QUIET_LATER = cython.declare(cython.int, 3)
# A quiet move wins material less often than a capture or a check; a comeback that takes
# nothing back seldom refutes.
_QUIET_MALUS = cython.declare(cython.int, 30)
_SPITE = cython.declare(cython.int, 3)
# More plies than any line has: refuted for good.
_FOR_GOOD = cython.declare(cython.int, 126)
# With more moves left, an estimate costs more than it saves; with so few, a position is
# settled in one go, since entering it costs most.
_ESTIMATED = cython.declare(cython.int, 3)
_AT_ONCE = cython.declare(cython.int, 2)

# So many positions for the estimate whether something is won back, and for the search after it.
_MOST_ESTIMATED = cython.declare(cython.int, 400_000)
_NEW_QUESTION = cython.declare(cython.int, 2_000)  # what making one costs, in positions
_MOST_COMEBACK = cython.declare(cython.int, 60_000)
# Who cannot check so many times in a row has no perpetual check; so many positions to see that.
_CHECKS_IN_A_ROW = cython.declare(cython.int, 6)
_MOST_CHECKED = cython.declare(cython.int, 4_000)

_PATIENCE = (100, 3_000)  # positions for each reply that may refute: one of them does quickly

M64 = cython.declare(cython.ulonglong, 0xFFFFFFFFFFFFFFFF)
_ONE = cython.declare(cython.ulonglong, 1)
_DE_BRUIJN = cython.declare(cython.ulonglong, 0x03F79D71B4CB0A89)

# -- tables ------------------------------------------------------------------

_STEPS = ((1, 0), (0, 1), (1, 1), (-1, 1), (-1, 0), (0, -1), (-1, -1), (1, -1))
"""Directions as (file, rank): the first four run to higher squares, the others to lower."""


def _leap(square, leaps):
    file, rank = square % 8, square // 8
    found = 0
    for df, dr in leaps:
        if 0 <= file + df < 8 and 0 <= rank + dr < 8:
            found |= 1 << (square + df + 8 * dr)
    return found


def _ray(square, step):
    file, rank = square % 8 + step[0], square // 8 + step[1]
    found = 0
    while 0 <= file < 8 and 0 <= rank < 8:
        found |= 1 << (file + 8 * rank)
        file, rank = file + step[0], rank + step[1]
    return found


def _make_between():
    between, line = array("Q", [0]) * (4096), array("Q", [0]) * (4096)
    for start in range(64):
        for number, step in enumerate(_STEPS):
            opposite = _STEPS[number + 4 if number < 4 else number - 4]
            whole = _ray(start, step) | _ray(start, opposite) | 1 << start
            passed = 0
            file, rank = start % 8 + step[0], start // 8 + step[1]
            while 0 <= file < 8 and 0 <= rank < 8:
                end = file + 8 * rank
                between[start * 64 + end] = passed
                line[start * 64 + end] = whole
                passed |= 1 << end
                file, rank = file + step[0], rank + step[1]
    return between, line


def _make_random(count):
    """Numbers that look random and never change (splitmix64)."""
    state, numbers = 0x9E3779B97F4A7C15, []
    for _ in range(count):
        state = (state + 0x9E3779B97F4A7C15) & 0xFFFFFFFFFFFFFFFF
        mixed = state
        mixed = ((mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9) & 0xFFFFFFFFFFFFFFFF
        mixed = ((mixed ^ (mixed >> 27)) * 0x94D049BB133111EB) & 0xFFFFFFFFFFFFFFFF
        numbers.append(mixed ^ (mixed >> 31))
    return array("Q", numbers)


_KNIGHT_LEAPS = ((1, 2), (2, 1), (2, -1), (1, -2), (-1, -2), (-2, -1), (-2, 1), (-1, 2))
_between_table, _line_table = _make_between()

RAYS = cython.declare(
    cython.ulonglong[::1],
    array("Q", [_ray(square, step) for step in _STEPS for square in range(64)]),
)
KNIGHTS = cython.declare(
    cython.ulonglong[::1], array("Q", [_leap(square, _KNIGHT_LEAPS) for square in range(64)])
)
KINGS = cython.declare(
    cython.ulonglong[::1], array("Q", [_leap(square, _STEPS) for square in range(64)])
)
PAWNS = cython.declare(
    cython.ulonglong[::1],
    array(
        "Q",
        [_leap(square, ((-1, 1), (1, 1))) for square in range(64)]
        + [_leap(square, ((-1, -1), (1, -1))) for square in range(64)],
    ),
)
BETWEEN = cython.declare(cython.ulonglong[::1], _between_table)
LINE = cython.declare(cython.ulonglong[::1], _line_table)
KEYS = cython.declare(cython.ulonglong[::1], _make_random(12 * 64 + 16 + 8 + 1 + 64))
_CASTLE_KEYS = cython.declare(cython.int, 768)
_EP_KEYS = cython.declare(cython.int, 784)
_TURN_KEY = cython.declare(cython.int, 792)
_LANE_KEYS = cython.declare(cython.int, 793)

_bits = array("i", [0] * 64)
for _number in range(64):
    _bits[((1 << _number) * 0x03F79D71B4CB0A89 & 0xFFFFFFFFFFFFFFFF) >> 58] = _number
BIT = cython.declare(cython.int[::1], _bits)

_keeps = array("i", [15] * 64)
for _square, _mask in ((0, 13), (4, 12), (7, 14), (56, 7), (60, 3), (63, 11)):
    _keeps[_square] = _mask
KEEPS = cython.declare(cython.int[::1], _keeps)
POINTS = cython.declare(cython.int[::1], array("i", [1, 3, 3, 5, 9, 0, 1, 3, 3, 5, 9, 0, 0]))


@cython.cfunc
@cython.inline
def lowest(bits: cython.ulonglong) -> cython.int:
    """Return the number of the lowest bit; `bits` is not 0."""
    return BIT[(((bits & (~bits + 1)) * _DE_BRUIJN) & M64) >> 58]


@cython.cfunc
@cython.inline
def highest(bits: cython.ulonglong) -> cython.int:
    """Return the number of the highest bit; `bits` is not 0."""
    bits |= bits >> 1
    bits |= bits >> 2
    bits |= bits >> 4
    bits |= bits >> 8
    bits |= bits >> 16
    bits |= bits >> 32
    return BIT[(((bits ^ (bits >> 1)) * _DE_BRUIJN) & M64) >> 58]


@cython.cfunc
@cython.inline
def rook_attacks(square: cython.int, occupied: cython.ulonglong) -> cython.ulonglong:
    """Return the squares that a rook attacks."""
    found: cython.ulonglong
    hit: cython.ulonglong
    found = RAYS[square]
    hit = found & occupied
    if hit:
        found ^= RAYS[lowest(hit)]
    ray: cython.ulonglong = RAYS[64 + square]
    hit = ray & occupied
    found |= ray ^ RAYS[64 + lowest(hit)] if hit else ray
    ray = RAYS[256 + square]
    hit = ray & occupied
    found |= ray ^ RAYS[256 + highest(hit)] if hit else ray
    ray = RAYS[320 + square]
    hit = ray & occupied
    found |= ray ^ RAYS[320 + highest(hit)] if hit else ray
    return found


@cython.cfunc
@cython.inline
def bishop_attacks(square: cython.int, occupied: cython.ulonglong) -> cython.ulonglong:
    """Return the squares that a bishop attacks."""
    found: cython.ulonglong
    hit: cython.ulonglong
    found = RAYS[128 + square]
    hit = found & occupied
    if hit:
        found ^= RAYS[128 + lowest(hit)]
    ray: cython.ulonglong = RAYS[192 + square]
    hit = ray & occupied
    found |= ray ^ RAYS[192 + lowest(hit)] if hit else ray
    ray = RAYS[384 + square]
    hit = ray & occupied
    found |= ray ^ RAYS[384 + highest(hit)] if hit else ray
    ray = RAYS[448 + square]
    hit = ray & occupied
    found |= ray ^ RAYS[448 + highest(hit)] if hit else ray
    return found


# -- the position --------------------------------------------------------------


@cython.cfunc
@cython.inline
def _added(one: cython.int, other: cython.int) -> cython.int:
    """Add two proof numbers."""
    if one >= _INFINITE or other >= _INFINITE:
        return _INFINITE
    return min(one + other, _INFINITE - 1)


@cython.cfunc
@cython.inline
def _less(bound: cython.int, number: cython.int) -> cython.int:
    """Return what is left of a bound when a number is spent."""
    return bound if bound >= _INFINITE else bound - number


@cython.cfunc
@cython.inline
def _more(number: cython.int) -> cython.int:
    """Return how far a search goes on beyond the next best, so as not to change too often."""
    return _INFINITE if number >= _INFINITE else number + (number >> 2) + 1


@cython.cclass
class Position:
    """A position that moves are made and unmade on.

    ``bb`` holds a bitboard for each man (white pawn … white king, black pawn
    … black king), then White's men and Black's; ``mail`` the man on each
    square.  Moves of a ply lie in ``moves`` from ``ply * 256`` on.
    """

    bb: cython.ulonglong[::1]
    mail: cython.int[::1]
    moves: cython.int[::1]
    scores: cython.int[::1]
    undo_key: cython.ulonglong[::1]
    undo_state: cython.int[::1]
    turn: cython.int
    castle: cython.int
    ep: cython.int
    key: cython.ulonglong
    ply: cython.int
    points: cython.int
    checkers: cython.ulonglong
    enemy_king: cython.int
    from_pawn: cython.ulonglong
    from_bishop: cython.ulonglong
    from_rook: cython.ulonglong
    hiding: cython.ulonglong

    def __init__(self, fen: str):
        self.bb = array("Q", [0]) * (14)
        self.mail = array("i", [_EMPTY] * 64)
        self.moves = array("i", [0]) * (_MOST_MOVES * _MOST_PLIES)
        self.scores = array("i", [0]) * (_MOST_MOVES * _MOST_PLIES)
        self.undo_key = array("Q", [0]) * (_MOST_PLIES)
        self.undo_state = array("i", [0]) * (_MOST_PLIES)
        self.ply = 0
        self.points = 0
        self.checkers = 0
        self._read(fen)

    def _read(self, fen):
        fields = fen.split()
        square = 56
        for letter in fields[0]:
            if letter == "/":
                square -= 16
            elif letter.isdigit():
                square += int(letter)
            else:
                man = "PNBRQKpnbrqk".index(letter)
                self.mail[square] = man
                self.bb[man] |= 1 << square
                self.bb[12 if man < 6 else 13] |= 1 << square
                self.points += POINTS[man] if man < 6 else -POINTS[man]
                square += 1
        self.turn = 0 if fields[1] == "w" else 1
        self.castle = 0
        for bit, letter in enumerate("KQkq"):
            if letter in fields[2]:
                self.castle |= 1 << bit
        self.ep = -1
        key = 0
        for square in range(64):
            if self.mail[square] != _EMPTY:
                key ^= KEYS[self.mail[square] * 64 + square]
        key ^= KEYS[_CASTLE_KEYS + self.castle]
        if self.turn:
            key ^= KEYS[_TURN_KEY]
        self.key = key
        if fields[3] != "-":
            target = "abcdefgh".index(fields[3][0]) + 8 * (int(fields[3][1]) - 1)
            if self.ep_takers(target):
                self.ep = target
                self.key ^= KEYS[_EP_KEYS + target % 8]

    @cython.cfunc
    def take_over(self, other: Position) -> cython.int:
        """Become the position on another board, without the moves before it."""
        number: cython.int
        for number in range(14):
            self.bb[number] = other.bb[number]
        for number in range(64):
            self.mail[number] = other.mail[number]
        self.turn = other.turn
        self.castle = other.castle
        self.ep = other.ep
        self.key = other.key
        self.points = other.points
        self.checkers = other.checkers
        self.ply = 0
        return 0

    def written(self) -> str:
        """Return the position on the board as a FEN; the counters start anew."""
        ranks = []
        for rank in range(7, -1, -1):
            text, empty = "", 0
            for square in range(8 * rank, 8 * rank + 8):
                man = self.mail[square]
                if man == _EMPTY:
                    empty += 1
                    continue
                text += (str(empty) if empty else "") + "PNBRQKpnbrqk"[man]
                empty = 0
            ranks.append(text + (str(empty) if empty else ""))
        rights = "".join("KQkq"[bit] for bit in range(4) if self.castle >> bit & 1) or "-"
        target = "-" if self.ep < 0 else "abcdefgh"[self.ep & 7] + str((self.ep >> 3) + 1)
        return f"{'/'.join(ranks)} {'wb'[self.turn]} {rights} {target} 0 1"

    @cython.cfunc
    def ep_takers(self, target: cython.int) -> cython.ulonglong:
        """Return the pawns of the side to move that stand ready to take en passant."""
        return PAWNS[(64 if self.turn == 0 else 0) + target] & self.bb[0 if self.turn == 0 else 6]

    @cython.cfunc
    @cython.inline
    def attackers(
        self, square: cython.int, side: cython.int, occupied: cython.ulonglong
    ) -> cython.ulonglong:
        """Return the men of a side that attack a square."""
        base: cython.int = 6 * side
        found: cython.ulonglong
        found = KNIGHTS[square] & self.bb[base + 1]
        found |= KINGS[square] & self.bb[base + 5]
        found |= PAWNS[(64 if side == 0 else 0) + square] & self.bb[base]
        sliders: cython.ulonglong = self.bb[base + 2] | self.bb[base + 4]
        if sliders:
            found |= bishop_attacks(square, occupied) & sliders
        sliders = self.bb[base + 3] | self.bb[base + 4]
        if sliders:
            found |= rook_attacks(square, occupied) & sliders
        return found

    @cython.cfunc
    @cython.inline
    def in_check(self) -> cython.bint:
        """Tell whether the side to move is in check."""
        return (
            self.attackers(
                lowest(self.bb[6 * self.turn + 5]), 1 - self.turn, self.bb[12] | self.bb[13]
            )
            != 0
        )

    @cython.cfunc
    def make(self, move: cython.int) -> cython.int:
        """Make a move."""
        start: cython.int = move & 63
        end: cython.int = (move >> 6) & 63
        promotion: cython.int = (move >> 12) & 7
        kind: cython.int = move >> 15
        us: cython.int = self.turn
        man: cython.int = self.mail[start]
        taken: cython.int = self.mail[end]
        where: cython.int = end
        key: cython.ulonglong = self.key
        if kind & 1:
            where = end - 8 if us == 0 else end + 8
            taken = self.mail[where]
        self.undo_key[self.ply] = key
        self.undo_state[self.ply] = taken | self.castle << 4 | (self.ep + 1) << 8
        if self.ep >= 0:
            key ^= KEYS[_EP_KEYS + (self.ep & 7)]
            self.ep = -1
        if taken != _EMPTY:
            self.bb[taken] ^= _ONE << where
            self.bb[13 - us] ^= _ONE << where
            self.mail[where] = _EMPTY
            key ^= KEYS[taken * 64 + where]
            self.points += POINTS[taken] if us == 0 else -POINTS[taken]
        self.bb[man] ^= _ONE << start
        self.bb[12 + us] ^= (_ONE << start) | (_ONE << end)
        self.mail[start] = _EMPTY
        key ^= KEYS[man * 64 + start]
        if promotion:
            man += promotion
            self.points += POINTS[man] - 1 if us == 0 else 1 - POINTS[man]
        self.bb[man] ^= _ONE << end
        self.mail[end] = man
        key ^= KEYS[man * 64 + end]
        if kind & 2:
            self.move_rook(start, end, us)
            rook: cython.int = 6 * us + 3
            if end > start:
                key ^= KEYS[rook * 64 + end + 1] ^ KEYS[rook * 64 + end - 1]
            else:
                key ^= KEYS[rook * 64 + end - 2] ^ KEYS[rook * 64 + end + 1]
        castle: cython.int = self.castle & KEEPS[start] & KEEPS[end]
        if castle != self.castle:
            key ^= KEYS[_CASTLE_KEYS + self.castle] ^ KEYS[_CASTLE_KEYS + castle]
            self.castle = castle
        self.turn = 1 - us
        key ^= KEYS[_TURN_KEY]
        if kind & 4:
            where = (start + end) >> 1
            if self.ep_takers(where):
                self.ep = where
                key ^= KEYS[_EP_KEYS + (where & 7)]
        self.key = key
        self.ply += 1
        return 0

    @cython.cfunc
    def move_rook(self, start: cython.int, end: cython.int, us: cython.int) -> cython.int:
        """Move the rook of a castling to its place, or back."""
        corner: cython.int = end + 1 if end > start else end - 2
        beside: cython.int = end - 1 if end > start else end + 1
        both: cython.ulonglong = (_ONE << corner) | (_ONE << beside)
        rook: cython.int = 6 * us + 3
        self.bb[rook] ^= both
        self.bb[12 + us] ^= both
        if self.mail[corner] == rook:
            self.mail[corner] = _EMPTY
            self.mail[beside] = rook
        else:
            self.mail[beside] = _EMPTY
            self.mail[corner] = rook
        return 0

    @cython.cfunc
    def unmake(self, move: cython.int) -> cython.int:
        """Unmake the last move, which was this one."""
        start: cython.int = move & 63
        end: cython.int = (move >> 6) & 63
        promotion: cython.int = (move >> 12) & 7
        kind: cython.int = move >> 15
        self.ply -= 1
        self.turn = us = 1 - self.turn
        state: cython.int = self.undo_state[self.ply]
        taken: cython.int = state & 15
        man: cython.int = self.mail[end]
        self.bb[man] ^= _ONE << end
        if promotion:
            self.points -= POINTS[man] - 1 if us == 0 else 1 - POINTS[man]
            man -= promotion
        self.bb[man] ^= _ONE << start
        self.bb[12 + us] ^= (_ONE << start) | (_ONE << end)
        self.mail[end] = _EMPTY
        self.mail[start] = man
        if kind & 2:
            self.move_rook(start, end, us)
        if taken != _EMPTY:
            where: cython.int = end
            if kind & 1:
                where = end - 8 if us == 0 else end + 8
            self.bb[taken] ^= _ONE << where
            self.bb[13 - us] ^= _ONE << where
            self.mail[where] = taken
            self.points -= POINTS[taken] if us == 0 else -POINTS[taken]
        self.castle = (state >> 4) & 15
        self.ep = (state >> 8) - 1
        self.key = self.undo_key[self.ply]
        return 0

    # -- legal moves -----------------------------------------------------------

    @cython.cfunc
    @cython.inline
    def add(
        self, count: cython.int, start: cython.int, ends: cython.ulonglong, kind: cython.int
    ) -> cython.int:
        """Add moves of one man to the list of this ply; return the new count."""
        base: cython.int = self.ply * _MOST_MOVES
        while ends:
            end: cython.int = lowest(ends)
            ends &= ends - 1
            self.moves[base + count] = start | end << 6 | kind << 15
            count += 1
        return count

    @cython.cfunc
    def add_pawn(self, count: cython.int, start: cython.int, ends: cython.ulonglong) -> cython.int:
        """Add moves of one pawn, a promotion as four."""
        base: cython.int = self.ply * _MOST_MOVES
        while ends:
            end: cython.int = lowest(ends)
            ends &= ends - 1
            move: cython.int = start | end << 6
            if end >= 56 or end < 8:
                promotion: cython.int
                for promotion in range(4, 0, -1):
                    self.moves[base + count] = move | promotion << 12
                    count += 1
            else:
                if end - start == 16 or start - end == 16:
                    move |= 4 << 15
                self.moves[base + count] = move
                count += 1
        return count

    @cython.cfunc
    def pinned_men(self, us: cython.int, king: cython.int) -> cython.ulonglong:
        """Return a side's men that are pinned to its king."""
        them: cython.int = 6 * (1 - us)
        occupied: cython.ulonglong = self.bb[12] | self.bb[13]
        theirs: cython.ulonglong = self.bb[13 - us]
        snipers: cython.ulonglong
        snipers = rook_attacks(king, theirs) & (self.bb[them + 3] | self.bb[them + 4])
        snipers |= bishop_attacks(king, theirs) & (self.bb[them + 2] | self.bb[them + 4])
        pinned: cython.ulonglong = 0
        while snipers:
            sniper: cython.int = lowest(snipers)
            snipers &= snipers - 1
            blockers: cython.ulonglong = BETWEEN[king * 64 + sniper] & occupied
            if blockers and not blockers & (blockers - 1):
                pinned |= blockers
        return pinned

    @cython.cfunc
    def generate(self, only_captures: cython.bint) -> cython.int:
        """List the legal moves (or captures and promotions) of this ply; return their number."""
        us: cython.int = self.turn
        base: cython.int = 6 * us
        own: cython.ulonglong = self.bb[12 + us]
        enemy: cython.ulonglong = self.bb[13 - us]
        occupied: cython.ulonglong = own | enemy
        king: cython.int = lowest(self.bb[base + 5])
        checkers: cython.ulonglong = self.attackers(king, 1 - us, occupied)
        self.checkers = checkers
        goals: cython.ulonglong = enemy if only_captures else M64 ^ own
        count: cython.int = 0
        start: cython.int
        men: cython.ulonglong
        ends: cython.ulonglong
        if not checkers & (checkers - 1):
            mask: cython.ulonglong = M64
            if checkers:
                mask = checkers | BETWEEN[king * 64 + lowest(checkers)]
            pinned: cython.ulonglong = self.pinned_men(us, king)
            count = self.pawn_moves(us, king, mask, pinned, only_captures)
            goals &= mask
            men = self.bb[base + 1] & ~pinned & M64
            while men:
                start = lowest(men)
                men &= men - 1
                count = self.add(count, start, KNIGHTS[start] & goals, 0)
            men = self.bb[base + 2] | self.bb[base + 4]
            while men:
                start = lowest(men)
                men &= men - 1
                ends = bishop_attacks(start, occupied) & goals
                if pinned >> start & 1:
                    ends &= LINE[king * 64 + start]
                count = self.add(count, start, ends, 0)
            men = self.bb[base + 3] | self.bb[base + 4]
            while men:
                start = lowest(men)
                men &= men - 1
                ends = rook_attacks(start, occupied) & goals
                if pinned >> start & 1:
                    ends &= LINE[king * 64 + start]
                count = self.add(count, start, ends, 0)
            goals = enemy if only_captures else M64 ^ own
            if not only_captures and not checkers and self.castle >> (2 * us) & 3:
                count = self.castlings(count, us, king, occupied)
        ends = KINGS[king] & goals
        occupied ^= _ONE << king
        while ends:
            end: cython.int = lowest(ends)
            ends &= ends - 1
            if not self.attackers(end, 1 - us, occupied):
                count = self.add(count, king, _ONE << end, 0)
        return count

    @cython.cfunc
    def pawn_moves(
        self,
        us: cython.int,
        king: cython.int,
        mask: cython.ulonglong,
        pinned: cython.ulonglong,
        only_captures: cython.bint,
    ) -> cython.int:
        """List the legal moves of the pawns, the first of a ply."""
        enemy: cython.ulonglong = self.bb[13 - us]
        occupied: cython.ulonglong = self.bb[12] | self.bb[13]
        men: cython.ulonglong = self.bb[6 * us]
        count: cython.int = 0
        step: cython.int = 8 if us == 0 else -8
        while men:
            start: cython.int = lowest(men)
            men &= men - 1
            ends: cython.ulonglong = PAWNS[64 * us + start] & enemy
            ahead: cython.int = start + step
            if not occupied >> ahead & 1:
                last: cython.bint = ahead >= 56 or ahead < 8
                if last or not only_captures:
                    ends |= _ONE << ahead
                home: cython.bint = start >> 3 == (1 if us == 0 else 6)
                if home and not only_captures and not occupied >> (ahead + step) & 1:
                    ends |= _ONE << (ahead + step)
            ends &= mask
            if pinned >> start & 1:
                ends &= LINE[king * 64 + start]
            count = self.add_pawn(count, start, ends)
        if self.ep >= 0:
            men = self.ep_takers(self.ep)
            while men:
                start = lowest(men)
                men &= men - 1
                if self.ep_is_legal(start, us, king):
                    count = self.add(count, start, _ONE << self.ep, 1)
        return count

    @cython.cfunc
    def ep_is_legal(self, start: cython.int, us: cython.int, king: cython.int) -> cython.bint:
        """Tell whether taking en passant from a square leaves the king out of check."""
        victim: cython.int = self.ep - 8 if us == 0 else self.ep + 8
        them: cython.int = 6 * (1 - us)
        occupied: cython.ulonglong = (
            (self.bb[12] | self.bb[13]) ^ (_ONE << start) ^ (_ONE << victim)
        ) | (_ONE << self.ep)
        if rook_attacks(king, occupied) & (self.bb[them + 3] | self.bb[them + 4]):
            return False
        if bishop_attacks(king, occupied) & (self.bb[them + 2] | self.bb[them + 4]):
            return False
        if KNIGHTS[king] & self.bb[them + 1]:
            return False
        pawns: cython.ulonglong = self.bb[them] & ~(_ONE << victim) & M64
        return not PAWNS[64 * us + king] & pawns

    @cython.cfunc
    def castlings(
        self, count: cython.int, us: cython.int, king: cython.int, occupied: cython.ulonglong
    ) -> cython.int:
        """Add the legal castlings; the king is not in check."""
        home: cython.int = 4 + 56 * us
        if king != home:
            return count
        rook: cython.ulonglong = self.bb[6 * us + 3]
        rights: cython.int = self.castle >> (2 * us)
        way: cython.ulonglong = _ONE << (home + 1) | _ONE << (home + 2)
        if rights & 1 and rook >> (home + 3) & 1 and not occupied & way:
            count = self.castling(count, home, 1, us, occupied)
        way = _ONE << (home - 1) | _ONE << (home - 2) | _ONE << (home - 3)
        if rights & 2 and rook >> (home - 4) & 1 and not occupied & way:
            count = self.castling(count, home, -1, us, occupied)
        return count

    @cython.cfunc
    def castling(
        self,
        count: cython.int,
        home: cython.int,
        step: cython.int,
        us: cython.int,
        occupied: cython.ulonglong,
    ) -> cython.int:
        """Add one castling if no square on the king's way is attacked."""
        if self.attackers(home + step, 1 - us, occupied):
            return count
        if self.attackers(home + 2 * step, 1 - us, occupied):
            return count
        return self.add(count, home, _ONE << (home + 2 * step), 2)

    @cython.cfunc
    def prepare_checks(self) -> cython.int:
        """Set from where each kind of man would check the enemy king, for :meth:`checks`."""
        us: cython.int = self.turn
        king: cython.int = lowest(self.bb[6 * (1 - us) + 5])
        occupied: cython.ulonglong = self.bb[12] | self.bb[13]
        self.enemy_king = king
        self.from_pawn = PAWNS[(64 if us == 0 else 0) + king]
        self.from_bishop = bishop_attacks(king, occupied)
        self.from_rook = rook_attacks(king, occupied)
        base: cython.int = 6 * us
        snipers: cython.ulonglong
        snipers = rook_attacks(king, self.bb[13 - us]) & (self.bb[base + 3] | self.bb[base + 4])
        snipers |= bishop_attacks(king, self.bb[13 - us]) & (self.bb[base + 2] | self.bb[base + 4])
        self.hiding = 0
        while snipers:
            sniper: cython.int = lowest(snipers)
            snipers &= snipers - 1
            between: cython.ulonglong = BETWEEN[king * 64 + sniper] & occupied
            if between and not between & (between - 1):
                self.hiding |= between & self.bb[12 + us]
        return 0

    @cython.cfunc
    def checks(self, move: cython.int) -> cython.bint:
        """Tell whether a legal move gives check; :meth:`prepare_checks` came before."""
        start: cython.int = move & 63
        end: cython.int = (move >> 6) & 63
        man: cython.int = self.mail[start] % 6
        if self.hiding >> start & 1 and not LINE[self.enemy_king * 64 + start] >> end & 1:
            return True
        if move >> 12 & 7 or move >> 15 & 3:
            self.make(move)
            found: cython.bint = self.in_check()
            self.unmake(move)
            return found
        reach: cython.ulonglong
        if man == 0:
            reach = self.from_pawn
        elif man == 1:
            reach = KNIGHTS[self.enemy_king]
        elif man == 2:
            reach = self.from_bishop
        elif man == 3:
            reach = self.from_rook
        elif man == 4:
            reach = self.from_bishop | self.from_rook
        else:
            return False
        return reach >> end & 1 != 0

    @cython.cfunc
    @cython.inline
    def balance(self, side: cython.int) -> cython.int:
        """Return a side's points minus the other's."""
        return self.points if side == 0 else -self.points


# -- how much: alpha-beta with quiescence --------------------------------------


@cython.cclass
class Estimate:
    """What a side can win, as an upper bound, by alpha-beta.

    The attacker may stop whenever the defender is to move; then only captures
    and promotions are played out, and both sides may end them at any time.
    So the value is never less than a gain that stands, and may be more.
    """

    at: Position
    attacker: cython.int
    visited: cython.int
    limit: cython.int
    mask: cython.int
    t_key: cython.ulonglong[::1]
    t_data: cython.int[::1]
    t_move: cython.int[::1]
    killers: cython.int[::1]
    passed_over: cython.int
    drawn: cython.int

    def __init__(self, at: Position, attacker: int, table_bits: int, drawn: int = -900):
        self.at = at
        self.attacker = attacker
        self.visited = 0
        self.limit = 0
        size: cython.int = 1 << table_bits
        self.mask = size - 1
        self.t_key = array("Q", [0]) * size
        self.t_data = array("i", [0]) * size
        self.t_move = array("i", [0]) * size
        self.killers = array("i", [-1]) * (2 * _MOST_PLIES)
        self.passed_over = 0
        self.drawn = drawn  # what a stalemate is worth to the attacker

    @cython.cfunc
    def over(self) -> cython.int:
        """Return the value of a position without a legal move, for the side to move."""
        at: Position = self.at
        if at.checkers:
            return at.ply - _MATE
        return self.drawn if at.turn == self.attacker else -self.drawn

    @cython.cfunc
    def search(self, depth: cython.int, alpha: cython.int, beta: cython.int) -> cython.int:
        """Return the value for the side to move, `depth` plies deep."""
        if depth <= 0:
            return self.quiet(alpha, beta, 0)
        at: Position = self.at
        self.visited += 1
        slot: cython.int = at.key & self.mask
        hint: cython.int = -1
        if self.t_key[slot] == at.key:
            hint = self.t_move[slot]
            data: cython.int = self.t_data[slot]
            if data >> 20 == depth and at.ply > 0:
                value: cython.int = (data >> 2 & 0x3FFFF) - 131072
                bound: cython.int = data & 3
                if bound == 0 or (bound == 1 and value >= beta) or (bound == 2 and value <= alpha):
                    return value
        base: cython.int = at.ply * _MOST_MOVES
        stop: cython.int = _INFINITE
        if at.turn != self.attacker:  # the attacker may leave it at that
            stop = self.quiet(alpha, beta, 0)
            if stop <= alpha:
                return stop
            beta = min(beta, stop)
        count: cython.int = at.generate(False)
        if count == 0:
            return self.over()
        still: cython.int = at.balance(at.turn) if depth == 1 else _INFINITE
        count_left: cython.int = self.order(base, count, hint, still, alpha)
        best: cython.int = self.passed_over
        best_move: cython.int = -1
        floor: cython.int = alpha
        for _ in range(count_left):
            number: cython.int = self.best_left(base, count)
            at.scores[number] = -1
            move: cython.int = at.moves[number]
            at.make(move)
            found: cython.int = -self.search(depth - 1, -beta, -alpha)
            at.unmake(move)
            if self.visited >= self.limit:
                return 0
            if found > best:
                best = found
                best_move = move
                if best > alpha:
                    alpha = best
                    if alpha >= beta:
                        self.remember(move)
                        break
        if best > stop:
            best = stop
        self.t_key[slot] = at.key
        self.t_move[slot] = best_move
        kind: cython.int = 1 if best >= beta else 2 if best <= floor else 0
        self.t_data[slot] = depth << 20 | (best + 131072) << 2 | kind
        return best

    @cython.cfunc
    def quiet(self, alpha: cython.int, beta: cython.int, plies: cython.int) -> cython.int:
        """Return the value when only captures, promotions and ways out of check are left."""
        at: Position = self.at
        self.visited += 1
        base: cython.int = at.ply * _MOST_MOVES
        best: cython.int = at.balance(at.turn)
        checked: cython.bint = at.in_check()
        if plies >= 24 or self.visited >= self.limit:
            return best
        if checked:
            best = -_INFINITE
        elif best >= beta:
            return best
        elif best > alpha:
            alpha = best
        count: cython.int = at.generate(not checked)
        if count == 0:
            if checked:
                return at.ply - _MATE
            if at.generate(False) == 0:
                return self.over()
            return best
        still: cython.int = _INFINITE if checked else best
        count_left: cython.int = self.order(base, count, -1, still, alpha)
        best = max(best, self.passed_over)
        for _ in range(count_left):
            number: cython.int = self.best_left(base, count)
            at.scores[number] = -1
            move: cython.int = at.moves[number]
            at.make(move)
            found: cython.int = -self.quiet(-beta, -alpha, plies + 1)
            at.unmake(move)
            if found > best:
                best = found
                if best > alpha:
                    alpha = best
                    if alpha >= beta:
                        break
        return best

    @cython.cfunc
    def order(
        self,
        base: cython.int,
        count: cython.int,
        hint: cython.int,
        still: cython.int,
        alpha: cython.int,
    ) -> cython.int:
        """Score moves: the table's, good captures, checks, moves that refuted others, the rest.

        `still` is the balance of a side whose opponent may leave it at what the
        move takes: then a move that gives no check and does not come above
        `alpha` is passed over, and the best of these is what ``passed_over``
        says.  Returns how many are left.
        """
        at: Position = self.at
        number: cython.int
        left: cython.int = 0
        self.passed_over = -_INFINITE
        at.prepare_checks()
        occupied: cython.ulonglong = at.bb[12] | at.bb[13]
        for number in range(base, base + count):
            move: cython.int = at.moves[number]
            score: cython.int = 0
            taken: cython.int = at.mail[(move >> 6) & 63]
            checking: cython.bint = at.checks(move)
            gain: cython.int = POINTS[taken] + (move >> 15 & 1)
            if move >> 12 & 7:
                gain += POINTS[(move >> 12) & 7] - 1
            if still + gain <= alpha and not checking:
                at.scores[number] = -1
                self.passed_over = max(self.passed_over, still + gain)
                continue
            left += 1
            if taken != _EMPTY or move >> 15 & 1:
                own: cython.int = POINTS[at.mail[move & 63]]
                score = 100 + 20 * (gain + 1) - own
                if own > gain and at.attackers((move >> 6) & 63, 1 - at.turn, occupied):
                    score = 20 + gain
            if move >> 12 & 7:
                score += 100 + gain
            if checking:
                score += 60
            if score < 80 and self.is_killer(move):
                score = 80
            if move == hint:
                score = 10_000
            at.scores[number] = score
        return left

    @cython.cfunc
    def is_killer(self, move: cython.int) -> cython.bint:
        """Tell whether a move lately refuted another one at this ply."""
        slot: cython.int = 2 * self.at.ply
        return self.killers[slot] == move or self.killers[slot + 1] == move

    @cython.cfunc
    def remember(self, move: cython.int) -> cython.int:
        """Note a move that refuted, to be tried early against the next."""
        slot: cython.int = 2 * self.at.ply
        if self.killers[slot] != move:
            self.killers[slot + 1] = self.killers[slot]
            self.killers[slot] = move
        return 0

    @cython.cfunc
    def best_left(self, base: cython.int, count: cython.int) -> cython.int:
        """Return the number of the move with the highest score; the first of equals."""
        at: Position = self.at
        best: cython.int = base
        number: cython.int
        for number in range(base, base + count):
            if at.scores[number] > at.scores[best]:
                best = number
        return best


@cython.cclass
class Gains:
    """The most that a side can win within some of its moves, as an upper bound.

    Parameters
    ----------
    fen : str
        The position; it must be legal (this is not checked).
    attacker : bool
        The side that wins; True for White.
    within : int
        Its moves.
    floor : int
        Values up to this balance do not matter: they may all be given as it.
    table_bits : int
        The table has two to this power entries.
    """

    search: Estimate
    depth: cython.int
    done: cython.int
    finished: cython.bint
    found: list
    floor: cython.int

    def __init__(
        self, fen: str, *, attacker: bool, within: int, floor: int = -20_000, table_bits: int = 16
    ):
        at = Position(fen)
        self.search = Estimate(at, 0 if attacker else 1, table_bits)
        self.depth = 2 * within - 1 if at.turn == self.search.attacker else 2 * within
        self.done = 0
        self.finished = False
        self.found = []
        self.floor = floor

    @property
    def positions(self) -> int:
        """The positions visited so far."""
        return self.search.visited

    @property
    def values(self) -> list:
        """The attacker's balance that he can reach within 1, 2 … of his moves, at most.

        A mate counts MATE_VALUE less the plies to it.
        """
        return self.found[(self.depth + 1) % 2 :: 2]

    @property
    def value(self) -> int:
        """The last of the values, 0 before the first search."""
        return self.found[len(self.found) - 1] if self.found else 0

    def run(self, positions: int) -> bool:
        """Look at about so many more positions; tell whether the value is final."""
        search: Estimate = self.search
        search.limit = search.visited + max(1, positions)
        ours: cython.bint = search.at.turn == search.attacker
        while not self.finished and search.visited < search.limit:
            value: cython.int
            if ours:
                value = search.search(self.done + 1, self.floor, 20_000)
            else:
                value = -search.search(self.done + 1, -20_000, -self.floor)
            if search.visited >= search.limit:
                break
            self.done += 1
            self.found.append(max(value, self.floor))
            self.finished = self.done >= max(1, self.depth)
        return self.finished


# -- what was taken is won back -----------------------------------------------


@cython.cclass
class Comebacks:
    """Whether what a side has taken is won back, for many positions of one search.

    The loser tries every move, quiet ones too; the winner answers as it likes.
    Mate and a stalemate count as winning back.

    Parameters
    ----------
    loser : bool
        The side that tries to win it back; True for White.
    target : int
        The balance that it must reach, in its own points.
    within : int
        Its moves; one more while a piece of the winner's stands on the
        loser's half of the board and has no safe square.
    """

    loser: cython.int
    target: cython.int
    within: cython.int
    visited: cython.int
    room: cython.int
    known: dict
    search: Estimate
    board: Position

    def __init__(self, *, loser: bool, target: int, within: int):
        self.loser = 0 if loser else 1
        self.target = target
        self.within = within
        self.visited = 0
        self.room = 0
        self.known = {}
        self.board = Position("8/8/8/8/8/8/8/8 w - - 0 1")
        self.search = Estimate(self.board, self.loser, 15, 900)

    @property
    def positions(self) -> int:
        """The positions visited so far."""
        return self.visited

    def is_won_back(self, fen: str) -> int:
        """Tell whether it is won back, the loser to move: PROVED, REFUTED, or OPEN."""
        at: Position = Position(fen)
        return self.judged(at)

    def may_check_on(self, fen: str) -> bool:
        """Tell whether the loser, who is to move, can check some times in a row at least.

        Against every reply; where it cannot, it has no perpetual check.
        """
        at: Position = Position(fen)
        self.room = _MOST_CHECKED
        found: cython.bint = self.checks_on(at, _CHECKS_IN_A_ROW)
        self.visited += _MOST_CHECKED - self.room
        return found

    @cython.cfunc
    def checks_on(self, at: Position, left: cython.int) -> cython.bint:
        """Tell whether there is a check, and after every reply one again, so many times."""
        if left == 0 or self.room <= 0:
            return True
        base: cython.int = at.ply * _MOST_MOVES
        count: cython.int = at.generate(False)
        at.prepare_checks()
        number: cython.int
        for number in range(count):
            at.scores[base + number] = 1 if at.checks(at.moves[base + number]) else 0
        for number in range(count):
            if at.scores[base + number] == 1:
                move: cython.int = at.moves[base + number]
                at.make(move)
                found: cython.bint = self.checks_all(at, left)
                at.unmake(move)
                if found:
                    return True
        return False

    @cython.cfunc
    def checks_all(self, at: Position, left: cython.int) -> cython.bint:
        """Tell whether the checks go on after every reply."""
        base: cython.int = at.ply * _MOST_MOVES
        count: cython.int = at.generate(False)
        number: cython.int
        for number in range(count):
            self.room -= 1
            move: cython.int = at.moves[base + number]
            at.make(move)
            found: cython.bint = self.checks_on(at, left - 1)
            at.unmake(move)
            if not found:
                return False
        return True

    def note(self, fen: str, positions: int, status: int) -> None:
        """Enter what is known of a position from elsewhere, a perpetual check for example."""
        at: Position = Position(fen)
        self.visited += positions
        self.known[at.key] = status

    @cython.cfunc
    def judged(self, at: Position) -> cython.int:
        """Judge the position on a board, once."""
        found = self.known.get(at.key)
        if found is None:
            found = self.judge(at)
            self.known[at.key] = found
        return found

    @cython.cfunc
    def judge(self, board: Position) -> cython.int:
        """Judge a position: an estimate first, and a search for what that leaves open."""
        at: Position = self.board
        at.take_over(board)
        within: cython.int = self.within + (1 if self.has_trapped(at) else 0)
        search: Estimate = self.search
        number: cython.int
        for number in range(2 * _MOST_PLIES):
            search.killers[number] = -1
        search.visited = 0
        search.limit = _MOST_ESTIMATED
        value: cython.int = search.search(2 * within - 1, self.target - 1, self.target)
        self.visited += search.visited
        if value < self.target and search.visited < search.limit:
            return REFUTED
        fen = at.written()
        self.visited += _NEW_QUESTION
        whole = Question(
            fen, attacker=self.loser == 0, gain=within, target=self.target, table_bits=14
        )
        status = OPEN
        for moves in range(1, within + 1):  # few moves need few positions
            if status != PROVED:
                status = whole.run_lane(_MOST_COMEBACK, ALL_MOVES, 0, moves)
        self.visited += whole.positions
        if status != PROVED and self.is_bare(at):
            still = Question(fen, attacker=self.loser == 0, stalemate=within, table_bits=12)
            ends = still.run(_MOST_COMEBACK)
            self.visited += still.positions
            status = ends if ends == PROVED or status == REFUTED else status
        return status

    @cython.cfunc
    def is_bare(self, at: Position) -> cython.bint:
        """Tell whether the loser has so little that a stalemate is to be thought of."""
        pieces: cython.ulonglong = at.bb[12 + self.loser] & ~at.bb[6 * self.loser]
        pieces &= pieces - 1
        pieces &= pieces - 1
        return pieces == 0

    @cython.cfunc
    def has_trapped(self, at: Position) -> cython.bint:
        """Tell whether a piece of the winner's has no safe square on the loser's half."""
        winner: cython.int = 1 - self.loser
        occupied: cython.ulonglong = at.bb[12] | at.bb[13]
        half: cython.ulonglong = M64 ^ 0xFFFFFFFF if winner == 0 else 0xFFFFFFFF
        kind: cython.int
        for kind in range(1, 5):
            pieces: cython.ulonglong = at.bb[6 * winner + kind] & half
            while pieces:
                square: cython.int = lowest(pieces)
                pieces &= pieces - 1
                reach: cython.ulonglong = 0
                if kind == 1:
                    reach = KNIGHTS[square]
                if kind == 2 or kind == 4:
                    reach |= bishop_attacks(square, occupied)
                if kind == 3 or kind == 4:
                    reach |= rook_attacks(square, occupied)
                reach &= ~at.bb[12 + winner] & M64
                trapped: cython.bint = True
                while reach and trapped:
                    end: cython.int = lowest(reach)
                    reach &= reach - 1
                    taken: cython.int = at.mail[end]
                    worth: cython.bint = taken != _EMPTY and POINTS[taken] >= POINTS[kind]
                    if worth or not at.attackers(end, self.loser, occupied ^ (_ONE << square)):
                        trapped = False
                if trapped:
                    return True
        return False


# -- yes or no: depth-bounded df-pn -------------------------------------------


@cython.cclass
class Numbers:
    """A table of proof numbers and disproof numbers, by position and moves left."""

    key: cython.ulonglong[::1]
    pn: cython.int[::1]
    dn: cython.int[::1]
    left: cython.int[::1]
    mask: cython.int

    def __init__(self, bits: int):
        size: cython.int = 1 << bits
        self.mask = size - 4
        self.key = array("Q", [0]) * size
        self.pn = array("i", [0]) * size
        self.dn = array("i", [0]) * size
        self.left = array("i", [0]) * size

    @cython.cfunc
    def probe(self, key: cython.ulonglong, left: cython.int) -> cython.int:
        """Look a position up; return the entry that answers, or -1.

        Proved with fewer moves left answers too, and so does refuted with more.
        """
        base: cython.int = key & self.mask
        number: cython.int
        exact: cython.int = -1
        for number in range(base, base + 4):
            if self.key[number] == key:
                if self.left[number] == left:
                    exact = number
                if self.pn[number] == 0 and self.left[number] <= left:
                    return number
                if self.dn[number] == 0 and self.left[number] >= left:
                    return number
        return exact

    @cython.cfunc
    def store(
        self, key: cython.ulonglong, left: cython.int, pn: cython.int, dn: cython.int
    ) -> cython.int:
        """Enter a position, over the entry of its four that is worth least."""
        base: cython.int = key & self.mask
        number: cython.int
        worst: cython.int = base
        least: cython.int = 1 << 30
        for number in range(base, base + 4):
            if self.key[number] == key and self.left[number] == left:
                worst = number
                break
            value: cython.int = -1 if self.key[number] == 0 else self.left[number] * 4
            if value >= 0 and (self.pn[number] == 0 or self.dn[number] == 0):
                value += 2
            if value < least:
                least = value
                worst = number
        self.key[worst] = key
        self.left[worst] = left
        self.pn[worst] = pn
        self.dn[worst] = dn
        return 0


@cython.cclass
class Question:
    """Whether a side reaches a goal against every defence.

    Parameters
    ----------
    fen : str
        The position; it must be legal (this is not checked).
    attacker : bool
        The side whose goal it is; True for White.
    mate : int
        Mate within so many of its moves counts.
    gain, target : int
        A balance of at least `target` that stands within `gain` moves counts;
        mate within `gain` moves too.
    stalemate : int
        A stalemate of either side within so many moves; alone.
    moves : list of str, optional
        If the attacker moves first, only these first moves count.
    tail : int
        Plies of captures, promotions and checks that are answered behind a leaf.
    table_bits : int
        The table has two to this power entries; by default as many as so
        many moves are worth.
    """

    at: Position
    attacker: cython.int
    total: cython.int
    gain_at: cython.int
    target: cython.int
    with_gain: cython.bint
    with_stalemate: cython.bint
    tail: cython.int
    visited: cython.int
    limit: cython.int
    status: cython.int
    table: Numbers
    leaves: Numbers
    c_pn: cython.int[::1]
    c_dn: cython.int[::1]
    ends: cython.int[::1]
    r_pn: cython.int
    r_dn: cython.int
    first: object
    memo: dict
    estimate: Estimate
    with_estimate: cython.bint
    lane: cython.int
    quiet: cython.int
    lane_key: cython.ulonglong
    is_quiet: cython.int[::1]
    proved_within: cython.int
    comebacks: Comebacks
    doubted: cython.bint

    def __init__(
        self,
        fen: str,
        *,
        attacker: bool,
        mate: int = 0,
        gain: int = 0,
        target: int = 0,
        stalemate: int = 0,
        moves=None,
        tail: int = 12,
        table_bits: int = 0,
    ):
        self.at = Position(fen)
        self.attacker = 0 if attacker else 1
        self.total = max(mate, gain, stalemate)
        self.with_gain = gain > 0
        self.gain_at = self.total - gain
        self.target = target
        self.with_stalemate = stalemate > 0
        self.tail = tail
        self.visited = 0
        self.limit = 0
        self.status = OPEN
        bits = table_bits or (12 if self.total <= 2 else 14 if self.total == 3 else 17)
        self.table = Numbers(bits)
        most = table_bits or 17
        self.leaves = Numbers(min(most, 15 if self.total < 2 else 17) if self.with_gain else 2)
        self.c_pn = array("i", [0]) * (_MOST_MOVES * _MOST_PLIES)
        self.c_dn = array("i", [0]) * (_MOST_MOVES * _MOST_PLIES)
        self.ends = array("i", [0]) * (_MOST_PLIES + 1)
        self.r_pn = 1
        self.r_dn = 1
        self.first = None if moves is None else set(moves)
        self.memo = {}
        self.is_quiet = array("i", [0]) * (_MOST_MOVES * _MOST_PLIES)
        self.lane = _ALL_MOVES
        self.quiet = 0
        self.lane_key = 0
        self.proved_within = self.total
        self.comebacks = None
        self.doubted = False
        # Where a mate may take longer than a gain, an estimate of the gain refutes nothing.
        self.with_estimate = self.with_gain and self.gain_at == 0
        self.estimate = Estimate(self.at, self.attacker, 14 if self.with_estimate else 1)

    @property
    def positions(self) -> int:
        """The positions visited so far."""
        return self.visited

    def run(self, positions: int) -> int:
        """Look at about so many more positions; return OPEN, PROVED or REFUTED."""
        return self.run_lane(positions, _ALL_MOVES, 0, self.total)

    def run_lane(self, positions: int, lane: int, quiet: int, within: int) -> int:
        """Look at about so many more positions, the attacker's moves narrowed to a lane.

        All lanes share what is proved.  What one refutes says nothing about
        the others, unless it has all moves and all of the goal's length.

        Parameters
        ----------
        positions : int
            How many.
        lane : int
            ALL_MOVES, CHECKS or FORCING.
        quiet : int
            So many other moves may a line hold as well, at most MOST_QUIET.
        within : int
            So many moves of the attacker's at most; no more than the goal has.

        Returns
        -------
        int
            PROVED: the goal is reached.  REFUTED: not in this lane.  OPEN.
        """
        if self.status != OPEN:
            return self.status
        self.lane = lane
        self.set_quiet(quiet)
        self.limit = self.visited + max(1, positions)
        self.search(within, _INFINITE, _INFINITE)
        if self.r_pn == 0:
            self.status = PROVED
            self.proved_within = within
        elif self.r_dn == 0:
            if lane == ALL_MOVES and within == self.total:
                self.status = REFUTED
            return REFUTED
        return self.status

    @property
    def in_doubt(self) -> bool:
        """Whether a gain was passed over that may not be won back; a refutation says less then."""
        return self.doubted

    def beware(self, comebacks: Comebacks) -> None:
        """From now on let no gain stand that is won back; what is proved is forgotten."""
        self.comebacks = comebacks
        self.status = OPEN
        number: cython.int
        for number in range(self.table.mask + 4):
            if self.table.pn[number] == 0:
                self.table.key[number] = 0

    @cython.cfunc
    def is_kept(self) -> cython.bint:
        """Tell whether a gain that stands on the board is not won back, as far as is asked."""
        if self.comebacks is None:
            return True
        before: cython.int = self.comebacks.visited
        found: cython.int = self.comebacks.judged(self.at)
        self.visited += self.comebacks.visited - before
        if found == OPEN:
            self.doubted = True
        return found == REFUTED

    @cython.cfunc
    def set_quiet(self, quiet: cython.int) -> cython.int:
        """Set how many quiet moves the attacker has left, and the table's key with it."""
        self.quiet = quiet
        if self.lane == _ALL_MOVES:
            self.lane_key = 0
        else:
            self.lane_key = KEYS[_LANE_KEYS + 8 * self.lane + quiet]
        return 0

    @cython.cfunc
    def probe(self, left: cython.int) -> cython.int:
        """Look the position on the board up; return the entry that answers, or -1."""
        at: Position = self.at
        found: cython.int = self.table.probe(at.key, left)
        if self.lane == _ALL_MOVES:
            return found
        if found >= 0 and (self.table.pn[found] == 0 or self.table.dn[found] == 0):
            return found  # proved in any lane, or refuted with all moves
        return self.table.probe(at.key ^ self.lane_key, left)

    @cython.cfunc
    def keep(self, left: cython.int, pn: cython.int, dn: cython.int) -> cython.int:
        """Enter the position on the board in the table: a proof for all lanes."""
        key: cython.ulonglong = self.at.key
        return self.table.store(key if pn == 0 else key ^ self.lane_key, left, pn, dn)

    # -- the search --

    @cython.cfunc
    def result(self, pn: cython.int, dn: cython.int) -> cython.int:
        """Return the numbers of the position on the board to whoever asked."""
        self.r_pn = pn
        self.r_dn = dn
        return 0

    @cython.cfunc
    def search(self, left: cython.int, most_pn: cython.int, most_dn: cython.int) -> cython.int:
        """Search the position on the board until a bound is passed; the result is r_pn, r_dn.

        `left` counts the attacker's moves that are left.
        """
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        if at.turn != self.attacker:
            return self.search_defence(left, most_pn, most_dn)
        count: cython.int = at.generate(False)
        self.visited += 1
        if at.ply == 0 and self.first is not None:
            count = self.keep_first(count)
        self.attack_children(count, left)
        return self.work(False, base, count, left - 1, most_pn, most_dn)

    @cython.cfunc
    def search_defence(
        self, left: cython.int, most_pn: cython.int, most_dn: cython.int
    ) -> cython.int:
        """Search a position, the defender to move: whether the gain stands, or the game goes on.

        Of the two that is searched which needs less.
        """
        at: Position = self.at
        replies: cython.int = at.generate(False)
        self.visited += 1
        if replies == 0:
            reached: cython.bint = (at.checkers != 0) != self.with_stalemate
            return self.result(0 if reached else _INFINITE, _INFINITE if reached else 0)
        goes_on: cython.bint = left > 0 or self.with_stalemate
        estimated: cython.bint = self.with_estimate and 0 < left <= _ESTIMATED and at.ply > 0
        if estimated and self.probe(left) < 0 and self.is_hopeless(left):
            self.table.store(at.key, left, _INFINITE, 0)
            return self.result(_INFINITE, 0)
        self.stand_numbers(left)
        stand_pn: cython.int = self.r_pn
        stand_dn: cython.int = self.r_dn
        on_pn: cython.int = _INFINITE
        on_dn: cython.int = 0
        if goes_on:
            self.on_numbers(left, replies)
            on_pn = self.r_pn
            on_dn = self.r_dn
        while True:
            pn: cython.int = min(stand_pn, on_pn)
            dn: cython.int = _added(stand_dn, on_dn)
            if pn >= most_pn or dn >= most_dn or pn == 0 or dn == 0 or self.visited >= self.limit:
                return self.result(pn, dn)
            if stand_pn <= on_pn:
                self.search_stand(self.tail, min(most_pn, _more(on_pn)), _less(most_dn, on_dn))
                if self.r_pn == 0 and not self.is_kept():
                    self.result(_INFINITE, 0)
                stand_pn = self.r_pn
                stand_dn = self.r_dn
            else:
                self.search_on(left, min(most_pn, _more(stand_pn)), _less(most_dn, stand_dn))
                on_pn = self.r_pn
                on_dn = self.r_dn

    @cython.cfunc
    def search_on(self, left: cython.int, most_pn: cython.int, most_dn: cython.int) -> cython.int:
        """Search every reply of the defender, who is to move."""
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        count: cython.int = at.generate(False)
        self.defend_children(count, left)
        return self.work(False, base, count, left, most_pn, most_dn)

    @cython.cfunc
    def search_stand(
        self, left: cython.int, most_pn: cython.int, most_dn: cython.int
    ) -> cython.int:
        """Search whether the gain stands, `left` plies of comebacks and answers deep.

        The defender tries captures, promotions and checks; each must have an
        answer after which the gain stands again, or which mates.
        """
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        count: cython.int
        self.visited += 1
        if at.turn == self.attacker:
            count = self.list_answers(left)
        else:
            found: cython.int = self.leaves.probe(at.key, left)
            if found < 0 and self.first_look(left):
                return 0
            count = self.list_comebacks()
        self.stand_children(count, left - 1)
        return self.work(True, base, count, left - 1, most_pn, most_dn)

    @cython.cfunc
    def work(
        self,
        standing: cython.bint,
        base: cython.int,
        count: cython.int,
        left: cython.int,
        most_pn: cython.int,
        most_dn: cython.int,
    ) -> cython.int:
        """Search the most promising child again and again; `left` is the children's."""
        at: Position = self.at
        attacking: cython.bint = at.turn == self.attacker
        number: cython.int
        best: cython.int
        second: cython.int
        low: cython.int
        total: cython.int
        value: cython.int
        while True:
            low = _INFINITE
            second = _INFINITE
            total = 0
            best = -1
            for number in range(base, base + count):
                value = self.c_pn[number] if attacking else self.c_dn[number]
                if value < low:
                    second = low
                    low = value
                    best = number
                elif value < second:
                    second = value
                value = self.c_dn[number] if attacking else self.c_pn[number]
                total = _added(total, value)
            if low == 0:
                total = _INFINITE
            elif low >= _INFINITE:
                total = 0
            self.r_pn = low if attacking else total
            self.r_dn = total if attacking else low
            if self.r_pn >= most_pn or self.r_dn >= most_dn or self.visited >= self.limit:
                if standing:
                    self.leaves.store(at.key, left + 1, self.r_pn, self.r_dn)
                else:
                    self.keep(left + 1 if attacking else left, self.r_pn, self.r_dn)
                return 0
            child_pn: cython.int
            child_dn: cython.int
            if attacking:
                child_pn = min(most_pn, _more(second))
                child_dn = _less(most_dn, total - self.c_dn[best])
            else:
                child_pn = _less(most_pn, total - self.c_pn[best])
                child_dn = min(most_dn, _more(second))
            move: cython.int = at.moves[best]
            at.make(move)
            if standing:
                self.ends[at.ply] = (move >> 6) & 63
                self.search_stand(left, child_pn, child_dn)
            else:
                if left <= (_AT_ONCE - 1 if attacking else _AT_ONCE):
                    child_pn = _INFINITE
                    child_dn = _INFINITE
                quiet: cython.int = self.is_quiet[best] if attacking else 0
                if quiet:
                    self.set_quiet(self.quiet - 1)
                self.search(left, child_pn, child_dn)
                if quiet:
                    self.set_quiet(self.quiet + 1)
            at.unmake(move)
            self.c_pn[best] = self.r_pn
            self.c_dn[best] = self.r_dn

    @cython.cfunc
    def set_child(self, number: cython.int, pn: cython.int, dn: cython.int) -> cython.int:
        """Note a child's numbers."""
        self.c_pn[number] = pn
        self.c_dn[number] = dn
        return 0

    @cython.cfunc
    def keep_first(self, count: cython.int) -> cython.int:
        """Keep only the first moves that are asked about."""
        at: Position = self.at
        kept: cython.int = 0
        number: cython.int
        for number in range(count):
            if uci(at.moves[number]) in self.first:
                at.moves[kept] = at.moves[number]
                kept += 1
        return kept

    @cython.cfunc
    def attack_children(self, count: cython.int, left: cython.int) -> cython.int:
        """Set the numbers of all positions after a move of the attacker; stop at a proved one."""
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        number: cython.int
        only_checks: cython.bint = left == 1 and not self.with_gain and not self.with_stalemate
        for number in range(base, base + count):
            self.set_child(number, _INFINITE, 0)
            self.is_quiet[number] = 0
        hint: cython.int = -1
        if self.with_estimate and 1 < left <= _ESTIMATED and at.ply > 0:
            hint = self.promising(left)
            if hint == -2:
                return 0
            at.generate(False)
        narrow: cython.bint = self.lane != _ALL_MOVES
        if narrow or only_checks:
            at.prepare_checks()
        for number in range(base, base + count):
            move: cython.int = at.moves[number]
            if only_checks and not at.checks(move):
                continue
            if narrow and not self.is_in_lane(move):
                self.is_quiet[number] = 1
                if self.quiet == 0 and self.lane == _CHECKS:
                    continue
            at.make(move)
            self.visited += 1
            if self.is_quiet[number]:
                if left > 1 and self.lane != _CHECKS and self.threatens_mate():
                    self.is_quiet[number] = 0
                elif self.quiet == 0:
                    at.unmake(move)
                    continue
                else:
                    self.set_quiet(self.quiet - 1)
            self.attacked_child(number, left - 1)
            at.unmake(move)
            if self.is_quiet[number]:
                self.set_quiet(self.quiet + 1)
            if self.c_pn[number] == 0:
                break
            if move == hint and self.c_dn[number] > 0:
                self.c_pn[number] = 1
        return 0

    @cython.cfunc
    def is_in_lane(self, move: cython.int) -> cython.bint:
        """Tell whether a move is forcing enough for a narrow lane, but for threats of mate.

        ``prepare_checks`` came before.
        """
        at: Position = self.at
        if at.checks(move):
            return True
        if self.lane == _CHECKS:
            return False
        return at.mail[(move >> 6) & 63] != _EMPTY or move >> 15 & 1 != 0 or move >> 12 & 7 != 0

    @cython.cfunc
    def threatens_mate(self) -> cython.bint:
        """Tell whether the attacker, who has just moved without check, would mate after a pass."""
        at: Position = self.at
        key: cython.ulonglong = at.key
        ep: cython.int = at.ep
        if ep >= 0:
            at.key ^= KEYS[_EP_KEYS + (ep & 7)]
        at.key ^= KEYS[_TURN_KEY]
        at.ep = -1
        at.turn = 1 - at.turn
        mates: cython.bint = self.mate_in_one(at.generate(False))
        at.turn = 1 - at.turn
        at.ep = ep
        at.key = key
        return mates

    @cython.cfunc
    def promising(self, left: cython.int) -> cython.int:
        """Return the move that the estimate likes best; -1: it knows none, -2: no move has hope."""
        at: Position = self.at
        search: Estimate = self.estimate
        search.visited = self.visited
        search.limit = self.limit
        found: cython.int = search.search(2 * left - 1, self.target - 1, self.target)
        self.visited = search.visited
        if self.visited >= self.limit:
            return -1
        if found < self.target:
            return -2
        slot: cython.int = at.key & search.mask
        return search.t_move[slot] if search.t_key[slot] == at.key else -1

    @cython.cfunc
    def attacked_child(self, number: cython.int, left: cython.int) -> cython.int:
        """Set the numbers of the position on the board, the defender to move."""
        at: Position = self.at
        replies: cython.int = at.generate(False)
        if replies == 0:
            if (at.checkers != 0) != self.with_stalemate:
                return self.set_child(number, 0, _INFINITE)
            return self.set_child(number, _INFINITE, 0)
        self.stand_numbers(left)
        stand_pn: cython.int = self.r_pn
        stand_dn: cython.int = self.r_dn
        if stand_pn == 0 or (left == 0 and not self.with_stalemate):
            return self.set_child(number, stand_pn, stand_dn)
        self.on_numbers(left, replies)
        return self.set_child(number, min(stand_pn, self.r_pn), _added(stand_dn, self.r_dn))

    @cython.cfunc
    def on_numbers(self, left: cython.int, replies: cython.int) -> cython.int:
        """Return the numbers of a position with so many replies, if the game goes on there."""
        at: Position = self.at
        found: cython.int = self.probe(left)
        if found >= 0:
            return self.result(self.table.pn[found], self.table.dn[found])
        after_move: cython.bint = self.with_gain and at.ply > 0 and at.checkers == 0
        if after_move and at.undo_state[at.ply - 1] & 15 == _EMPTY:
            replies += _QUIET_MALUS
        return self.result(replies, 1)

    @cython.cfunc
    def stand_numbers(self, left: cython.int) -> cython.int:
        """Return the numbers of a position, the defender to move, if the gain is to stand there."""
        at: Position = self.at
        if not self.with_gain or left < self.gain_at or at.balance(self.attacker) < self.target:
            return self.result(_INFINITE, 0)
        found: cython.int = self.leaves.probe(at.key, self.tail)
        if found >= 0:
            self.result(self.leaves.pn[found], self.leaves.dn[found])
        else:
            self.first_look(self.tail)
        if self.r_pn == 0 and not self.is_kept():
            self.result(_INFINITE, 0)
        return 0

    @cython.cfunc
    def first_look(self, left: cython.int) -> cython.bint:
        """Look at the comebacks there are, the defender to move; tell whether that is enough."""
        at: Position = self.at
        behind: cython.bint = at.balance(self.attacker) < self.target
        if behind and not at.in_check():
            return self.settle(_FOR_GOOD, False)
        count: cython.int = at.generate(False)
        if count == 0 and at.checkers and left < self.tail:  # mated by the answer to a comeback
            return self.settle(0, True)
        if behind or count == 0 or at.checkers:
            return self.settle(_FOR_GOOD, False)
        forcing: cython.int = self.rank_forcing(at.ply * _MOST_MOVES, count)
        if forcing == 0:
            return self.settle(0, True)
        if left <= 0:
            return self.settle(left, False)
        if self.is_lost_in_captures():
            return self.settle(_FOR_GOOD, False)
        self.result(forcing, 1)
        self.leaves.store(at.key, left, forcing, 1)
        return False

    @cython.cfunc
    def settle(self, left: cython.int, stands: cython.bint) -> cython.bint:
        """Note whether the gain stands, for so many plies and fewer (or more, if it does)."""
        self.result(0 if stands else _INFINITE, _INFINITE if stands else 0)
        self.leaves.store(self.at.key, left, self.r_pn, self.r_dn)
        return True

    @cython.cfunc
    def is_hopeless(self, left: cython.int) -> cython.bint:
        """Tell whether even the estimate does not reach the target, the defender to move."""
        search: Estimate = self.estimate
        search.visited = self.visited
        search.limit = self.limit
        found: cython.int = -search.search(2 * left, -self.target, 1 - self.target)
        self.visited = search.visited
        return found < self.target and self.visited < self.limit

    @cython.cfunc
    def defend_children(self, count: cython.int, left: cython.int) -> cython.int:
        """Set the numbers of all positions after a reply; stop at a refuted one."""
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        number: cython.int
        for number in range(base, base + count):
            self.set_child(number, 0, _INFINITE)
        for number in range(base, base + count):
            move: cython.int = at.moves[number]
            at.make(move)
            self.visited += 1
            self.defended_child(number, left)
            at.unmake(move)
            if self.c_dn[number] == 0:
                break
        return 0

    @cython.cfunc
    def defended_child(self, number: cython.int, left: cython.int) -> cython.int:
        """Set the numbers of the position on the board, the attacker to move."""
        at: Position = self.at
        moves: cython.int
        found: cython.int = -1 if left == 0 else self.probe(left)
        if found >= 0:
            return self.set_child(number, self.table.pn[found], self.table.dn[found])
        mates_only: cython.bint = not self.with_gain and not self.with_stalemate
        if mates_only and left > 1:
            return self.set_child(number, 1, 1)
        moves = at.generate(False)
        if moves == 0:
            if self.with_stalemate and at.checkers == 0:
                return self.set_child(number, 0, _INFINITE)
            return self.set_child(number, _INFINITE, 0)
        if left == 0:
            return self.set_child(number, _INFINITE, 0)
        if mates_only:
            if self.mate_in_one(moves):
                return self.set_child(number, 0, _INFINITE)
            return self.set_child(number, _INFINITE, 0)
        return self.set_child(number, 1, 1)

    @cython.cfunc
    def mate_in_one(self, count: cython.int) -> cython.bint:
        """Tell whether one of the moves listed mates."""
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        number: cython.int
        mates: cython.bint = False
        at.prepare_checks()
        for number in range(base, base + count):
            move: cython.int = at.moves[number]
            if not at.checks(move):
                continue
            at.make(move)
            self.visited += 1
            mates = at.generate(False) == 0
            at.unmake(move)
            if mates:
                break
        return mates

    # -- a gain that stands --

    @cython.cfunc
    def is_lost_in_captures(self) -> cython.bint:
        """Tell whether captures alone, which either side may end, take the gain away again."""
        search: Estimate = self.estimate
        search.visited = self.visited
        search.limit = _INFINITE
        found: cython.int = -search.quiet(-self.target, 1 - self.target, 0)
        self.visited = search.visited
        return found < self.target

    @cython.cfunc
    def stand_children(self, count: cython.int, left: cython.int) -> cython.int:
        """Set the numbers of what follows the moves listed, as far as they are known."""
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        attacking: cython.bint = at.turn == self.attacker
        number: cython.int
        for number in range(base, base + count):
            self.set_child(number, _INFINITE if attacking else 0, 0 if attacking else _INFINITE)
        for number in range(base, base + count):
            at.make(at.moves[number])
            found: cython.int = self.leaves.probe(at.key, left)
            if found >= 0:
                self.set_child(number, self.leaves.pn[found], self.leaves.dn[found])
            elif attacking or at.balance(self.attacker) < self.target:
                self.set_child(number, 1, 1)
            else:
                self.set_child(number, 1, _SPITE)
            at.unmake(at.moves[number])
            if (self.c_pn[number] if attacking else self.c_dn[number]) == 0:
                break
        return 0

    @cython.cfunc
    def list_comebacks(self) -> cython.int:
        """List the defender's captures, promotions and checks, the most dangerous first."""
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        count: cython.int = at.generate(False)
        self.rank_forcing(base, count)
        return self.keep_ranked(base, count)

    @cython.cfunc
    def list_answers(self, left: cython.int) -> cython.int:
        """List the attacker's answers to a comeback, the most promising first.

        Where he is behind, quiet moves are no answers, unless they mate.
        """
        at: Position = self.at
        base: cython.int = at.ply * _MOST_MOVES
        count: cython.int = at.generate(False)
        behind: cython.bint = at.balance(self.attacker) < self.target
        number: cython.int
        quiet: cython.int = _QUIET_ANSWERS if left == self.tail - 1 else _QUIET_LATER
        at.prepare_checks()
        for number in range(base, base + count):
            move: cython.int = at.moves[number]
            score: cython.int = self.promise(move, self.ends[at.ply])
            if behind and score < 1000 and not at.checks(move):
                score = -1
            at.scores[number] = score
        count = self.keep_ranked(base, count)
        if at.checkers == 0 and not behind:
            for number in range(base, base + count):
                if at.scores[number] < 1000:
                    return min(count, number - base + quiet)
        return count

    @cython.cfunc
    def keep_ranked(self, base: cython.int, count: cython.int) -> cython.int:
        """Keep the listed moves that have a score, the highest first; return how many."""
        at: Position = self.at
        kept: cython.int = base
        number: cython.int
        place: cython.int
        for number in range(base, base + count):
            score: cython.int = at.scores[number]
            if score < 0:
                continue
            move: cython.int = at.moves[number]
            place = kept
            while place > base and at.scores[place - 1] < score:
                at.scores[place] = at.scores[place - 1]
                at.moves[place] = at.moves[place - 1]
                place -= 1
            at.scores[place] = score
            at.moves[place] = move
            kept += 1
        return kept - base

    @cython.cfunc
    def rank_forcing(self, base: cython.int, count: cython.int) -> cython.int:
        """Score captures, promotions and checks, the most dangerous highest; return how many."""
        at: Position = self.at
        number: cython.int
        forcing: cython.int = 0
        at.prepare_checks()
        for number in range(base, base + count):
            move: cython.int = at.moves[number]
            taken: cython.int = at.mail[(move >> 6) & 63]
            score: cython.int = -1
            if taken != _EMPTY or move >> 15 & 1:
                score = 100 + 20 * (POINTS[taken] + 1) - POINTS[at.mail[move & 63]]
            if move >> 12 & 7:
                score = 200 + POINTS[(move >> 12) & 7]
            if at.checks(move):
                score = max(score, 0) + 100
            at.scores[number] = score
            if score >= 0:
                forcing += 1
        return forcing

    @cython.cfunc
    def promise(self, move: cython.int, square: cython.int) -> cython.int:
        """Order the attacker's answers: taking back, other captures, then men that are attacked."""
        at: Position = self.at
        start: cython.int = move & 63
        end: cython.int = (move >> 6) & 63
        score: cython.int = 0
        taken: cython.int = at.mail[end]
        if taken != _EMPTY or move >> 15 & 1:
            score = 1000 + 20 * (POINTS[taken] + 1) - POINTS[at.mail[start]]
            if end == square:
                score += 500
        if move >> 12 & 7:
            score += 1000 + POINTS[(move >> 12) & 7]
        if score == 0 and at.attackers(start, 1 - at.turn, at.bb[12] | at.bb[13]):
            score = 1 + POINTS[at.mail[start]]
        return score

    # -- what was found, as nested lists --

    def proof(self):
        """Return the proof as nested lists, or None if it cannot be found again.

        A node is ``[move or None, stands, [[reply, node], ...]]``: the
        attacker's move; 1 if the gain stands after it, when the replies are
        the captures, promotions and checks; otherwise every legal reply.
        ``[None, 0, []]``: the attacker is stalemated.
        """
        if self.status != PROVED:
            return None
        self.memo = {}
        self.limit = self.visited + 20_000_000
        if self.at.turn == self.attacker:
            return self.attack_node(self.proved_within)
        if self.with_gain and self.stands(20_000_000):
            return self.standing(None, self.tail)
        replies = self.all_replies(self.proved_within)
        return None if replies is None else [None, 0, replies]

    def attack_node(self, left):
        """Return the node of the position on the board, the attacker to move."""
        at: Position = self.at
        if self.with_stalemate and at.generate(False) == 0:
            return [None, 0, []]
        name = (at.key, left)
        if name not in self.memo:
            self.memo[name] = self.new_attack_node(self.fewest(left))
        return self.memo[name]

    def fewest(self, left):
        """Return the fewest moves within which the position is proved, for a mate."""
        if self.with_gain:
            return left
        for fewer in range(1, left):
            if self.is_proved(fewer, 30_000):
                return fewer
        return left

    def is_proved(self, left, positions):
        """Tell whether the position on the board is proved with so many moves left."""
        limit = self.limit
        self.limit = min(limit, self.visited + positions)
        self.search(left, _INFINITE, _INFINITE)
        self.limit = limit
        return self.r_pn == 0

    def stands(self, positions):
        """Tell whether the gain is found to stand, the defender to move, in so many positions.

        With none, whether a single look or the table says so.
        """
        at: Position = self.at
        if at.balance(self.attacker) < self.target:
            return False
        return self.is_shown(self.tail, positions) and self.is_kept()

    def is_shown(self, left, positions):
        """Tell whether the gain is found to stand on, `left` plies deep, whoever is to move."""
        at: Position = self.at
        found = self.leaves.probe(at.key, left)
        if found >= 0 and (self.leaves.pn[found] == 0 or self.leaves.dn[found] == 0):
            return self.leaves.pn[found] == 0
        limit = self.limit
        self.limit = min(limit, self.visited + positions)
        self.search_stand(left, _INFINITE, _INFINITE)
        self.limit = limit
        return self.r_pn == 0

    def new_attack_node(self, left):
        """Find the move that proves the position, and its replies."""
        at: Position = self.at
        if at.ply == 0:
            left = self.proved_within if self.first is not None else left
        node = self.known_attack(left, True) or self.known_attack(left, False)
        if node is None:  # the table has lost it
            self.search(left, _INFINITE, _INFINITE)
            node = self.known_attack(left, False)
        if node is not None and len(node[0]) == 5 and node[0][4] != "q":
            return self.queening(node, left)
        return node

    def queening(self, node, left):
        """Return the node of a promotion to a queen where that does as well; else the one given."""
        at: Position = self.at
        for move in self.listed_forcing_first():
            if uci(move) != node[0][:4] + "q" or (at.ply == 0 and self.first is not None):
                continue
            at.make(move)
            limit = self.limit
            self.limit = min(limit, self.visited + 30_000)
            self.search(left - 1, _INFINITE, _INFINITE)
            proved = self.r_pn == 0
            self.limit = limit
            queen = self.after_attack(move, left - 1, False) if proved else None
            at.unmake(move)
            if queen is not None:
                return queen
        return node

    def known_attack(self, left, at_once):
        """Return the node of the first move that is known to reach the goal, or None."""
        at: Position = self.at
        for move in self.listed_forcing_first():
            if at.ply == 0 and self.first is not None and uci(move) not in self.first:
                continue
            at.make(move)
            node = self.after_attack(move, left - 1, at_once)
            at.unmake(move)
            if node is not None:
                return node
        return None

    def after_attack(self, move, left, at_once):
        """Return the node of a move that was made, if it reaches the goal.

        At once, where the trees are small, or as the table knows.
        """
        at: Position = self.at
        replies = at.generate(False)
        checked = at.checkers != 0
        if replies == 0:
            return [uci(move), 0, []] if checked != self.with_stalemate else None
        may_stand = self.with_gain and left >= self.gain_at and not checked
        if may_stand and self.stands(0):
            return self.standing(move, self.tail)
        if at_once:
            return None
        if left == 0 and not self.with_stalemate:
            return None
        found = self.probe(left)
        if found < 0 or self.table.pn[found] != 0:
            return None
        answers = self.all_replies(left)
        return None if answers is None else [uci(move), 0, answers]

    def all_replies(self, left):
        """Return every legal reply with its answer."""
        at: Position = self.at
        answers = []
        for move in self.listed():
            at.make(move)
            node = self.attack_node(left)
            at.unmake(move)
            if node is None:
                return None
            answers.append([uci(move), node])
        return answers

    def standing(self, move, left):
        """Return the node of a move, or None, after which the gain stands."""
        answers = self.stand_replies(left)
        return None if answers is None else [None if move is None else uci(move), 1, answers]

    def stand_replies(self, left):
        """Return the captures, promotions and checks with their answers, or None."""
        at: Position = self.at
        name = (at.key, -1 - left)
        if name in self.memo:
            return self.memo[name]
        answers = []
        for move in self.forcing():
            at.make(move)
            self.ends[at.ply] = (move >> 6) & 63
            node = self.answer(left - 1)
            at.unmake(move)
            if node is None:
                return None
            answers.append([uci(move), node])
        self.memo[name] = answers
        return answers

    def answer(self, left):
        """Return the node of an answer to a comeback, the one known to be shortest; or None."""
        move = self.known_answer(left)
        if move is None:  # the table has lost it
            self.search_stand(left, _INFINITE, _INFINITE)
            move = self.known_answer(left)
        if move is None:
            return None
        at: Position = self.at
        at.make(move)
        over = at.generate(False) == 0
        node = [uci(move), 0, []] if over else self.standing(move, left - 1)
        at.unmake(move)
        return node

    def known_answer(self, left):
        """Return the answer that keeps the gain, of those in the table the shortest; or None."""
        at: Position = self.at
        base = at.ply * _MOST_MOVES
        count = self.list_answers(left)
        best, least = None, _FOR_GOOD
        for move in [at.moves[base + number] for number in range(count)]:
            at.make(move)
            found = self.leaves.probe(at.key, left - 1)
            if found >= 0 and self.leaves.pn[found] == 0 and self.leaves.left[found] < least:
                best, least = move, self.leaves.left[found]
            at.unmake(move)
        return best

    def listed(self):
        """Return the legal moves of the position on the board as a list."""
        at: Position = self.at
        count = at.generate(False)
        base = at.ply * _MOST_MOVES
        return [at.moves[base + number] for number in range(count)]

    def forcing(self):
        """Return the captures, promotions and checks of the position on the board."""
        at: Position = self.at
        base = at.ply * _MOST_MOVES
        count = at.generate(False)
        self.rank_forcing(base, count)
        return [at.moves[base + i] for i in range(count) if at.scores[base + i] >= 0]

    def listed_forcing_first(self):
        """Return the legal moves, captures, promotions and checks first: their trees are small."""
        at: Position = self.at
        count = at.generate(False)
        base = at.ply * _MOST_MOVES
        self.rank_forcing(base, count)
        moves = [(at.scores[base + i] < 0, i, at.moves[base + i]) for i in range(count)]
        return [move for _, _, move in sorted(moves)]

    def escape(self):
        """Return a reply that refutes the goal, or None if none is found cheaply.

        At the root if the defender moves first; after the one first move that
        was asked about otherwise.
        """
        if self.status != REFUTED:
            return None
        at: Position = self.at
        if at.turn != self.attacker:
            return self.refuting_reply(self.total)
        if self.first is None or len(self.first) != 1:
            return None
        for move in self.listed():
            if uci(move) in self.first:
                at.make(move)
                reply = self.refuting_reply(self.total - 1)
                at.unmake(move)
                return reply
        return None

    def refuting_reply(self, left):
        """Return a reply after which the goal is refuted; the most telling kind first."""
        at: Position = self.at
        replies = self.listed()
        if left == 0 and self.with_gain:
            return self.breaking_reply(replies)
        for patience in _PATIENCE:
            for move in replies:
                at.make(move)
                refuted = self.is_refuted(left, patience)
                at.unmake(move)
                if refuted:
                    return uci(move)
        return None

    def is_refuted(self, left, positions):
        """Tell whether the position on the board is found refuted, the attacker to move."""
        at: Position = self.at
        count = at.generate(False)
        if count == 0:
            return not (self.with_stalemate and at.checkers == 0)
        if left == 0:
            return True
        if not self.with_gain and not self.with_stalemate and left == 1:
            return not self.mate_in_one(count)
        self.limit = self.visited + positions
        self.search(left, _INFINITE, _INFINITE)
        return self.r_dn == 0

    def breaking_reply(self, replies):
        """Return the forcing reply that has no answer, where a gain does not stand."""
        at: Position = self.at
        self.limit = self.visited + 20_000_000
        for move in self.forcing():
            at.make(move)
            self.ends[at.ply] = (move >> 6) & 63
            answered = self.is_shown(self.tail - 1, 20_000_000)
            at.unmake(move)
            if not answered:
                return uci(move)
        return uci(replies[0]) if replies else None


# -- plain functions -------------------------------------------------------------


def uci(move: int) -> str:
    """Write a move as UCI does."""
    start, end, promotion = move & 63, (move >> 6) & 63, (move >> 12) & 7
    text = f"{'abcdefgh'[start & 7]}{(start >> 3) + 1}{'abcdefgh'[end & 7]}{(end >> 3) + 1}"
    return text + " nbrq"[promotion] if promotion else text


def legal_moves(fen: str) -> list[str]:
    """Return the legal moves of a position as UCI, sorted."""
    at: Position = Position(fen)
    count: cython.int = at.generate(False)
    return sorted(uci(at.moves[number]) for number in range(count))


def captures(fen: str) -> list[str]:
    """Return the legal captures and promotions of a position as UCI, sorted."""
    at: Position = Position(fen)
    count: cython.int = at.generate(True)
    return sorted(uci(at.moves[number]) for number in range(count))


def checks(fen: str) -> list[str]:
    """Return the legal moves that give check as UCI, sorted."""
    at: Position = Position(fen)
    count: cython.int = at.generate(False)
    at.prepare_checks()
    return sorted(uci(at.moves[number]) for number in range(count) if at.checks(at.moves[number]))


def zobrist(fen: str) -> int:
    """Return a number that equal positions share: same men, side, castling, en passant.

    En passant counts only where it is legal.
    """
    at: Position = Position(fen)
    key = at.key
    if at.ep >= 0:
        count = at.generate(False)
        if not any(at.moves[number] >> 15 & 1 for number in range(count)):
            key ^= KEYS[_EP_KEYS + at.ep % 8]
    return key


def perft(fen: str, depth: int) -> int:
    """Count the lines of legal moves of a length."""
    at: Position = Position(fen)
    if depth == 0:
        return 1
    return _perft(at, depth)


@cython.cfunc
def _perft(at: Position, depth: cython.int) -> cython.longlong:
    count: cython.int = at.generate(False)
    if depth == 1:
        return count
    base: cython.int = at.ply * _MOST_MOVES
    total: cython.longlong = 0
    number: cython.int
    for number in range(base, base + count):
        move: cython.int = at.moves[number]
        at.make(move)
        total += _perft(at, depth - 1)
        at.unmake(move)
    return total
