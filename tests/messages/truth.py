"""Whether the reason for a wrong move is true, by other means than it was found.

Every clause that a reason may consist of has a pattern here and a check with
python-chess or with plain arithmetic on files and ranks; it shares no code
with the package.  A clause that fits no pattern is a failure too: what is
told to teachers cannot be changed without saying here what it means.
"""

import re

import chess

SQ = r"[a-h][1-8]"
KIND = r"(?:pawn|knight|bishop|rook|queen|king)"
PIECE = rf"the {KIND} on {SQ}"
PIECES = rf"{PIECE}(?:, {PIECE})*(?: and {PIECE})?"
SIDE = r"(?:White|Black)"
LIST = rf"{SQ}(?:, {SQ})*(?: and {SQ})?"

CLAUSES = []


class Tried:
    """What was tried: the position, the text, and what can be read off the text alone."""

    def __init__(self, board, text):
        self.board = board
        self.text = text
        self.goal = squares(text)[-1] if squares(text) else None
        self.clause = ""
        self.mover = None  # the square of the piece of which the first clause speaks


def clause(pattern):
    def register(check):
        CLAUSES.append((re.compile(pattern), check))
        return check

    return register


def check_reason(board, text, reason):
    """Check every clause of a reason; return the names of the checks that it passed."""
    tried = Tried(board.copy(), text)
    told = [check_clause(tried, one) for one in reason.split("; ")]
    assert not any(move_fits(board, text, move) for move in board.legal_moves), "it is legal"
    return told


def check_clause(tried, text):
    for pattern, check in CLAUSES:
        if match := pattern.fullmatch(text):
            tried.clause = text
            check(tried, **match.groupdict())
            return check.__name__
    raise AssertionError(f"nothing here says what this means: {text!r}")


def move_fits(board, text, move):
    """Tell whether a legal move is what a text says to the letter (SAN or UCI)."""
    return text in (board.san(move).rstrip("+#"), move.uci())


# -- reading the words ---------------------------------------------------------


def squares(text):
    return [chess.parse_square(name) for name in re.findall(SQ, text)]


def side(name):
    return name == "White"


def kind(name):
    return chess.PIECE_NAMES.index(name)


def pieces(board, text, color=None):
    """Return the squares of the pieces that a text names, after looking that they stand there."""
    found = []
    for name, square in re.findall(rf"({KIND}) on ({SQ})", text):
        piece = board.piece_at(chess.parse_square(square))
        assert piece is not None, f"{square} is empty"
        assert piece.piece_type == kind(name)
        assert color in (None, piece.color)
        found.append(chess.parse_square(square))
    assert found
    return found


def piece_named(text):
    """Return the piece that a text names; None where it names none (two squares, castling)."""
    if re.match(rf"O|{SQ}{SQ}", text):
        return None
    letter = re.match(r"[KQRBN]?", text)[0]
    return chess.PIECE_SYMBOLS.index(letter.lower()) if letter else chess.PAWN


def file_rank(square):
    return square % 8, square // 8


def steps(start, end):
    """Return the squares strictly between two squares of a line, by arithmetic."""
    (file, rank), (to_file, to_rank) = file_rank(start), file_rank(end)
    across, up = to_file - file, to_rank - rank
    assert across == 0 or up == 0 or abs(across) == abs(up), "not on a line"
    length = max(abs(across), abs(up))
    return [start + i * (across // length + 8 * (up // length)) for i in range(1, length)]


def reaches(piece_type, start, end):
    (file, rank), (to_file, to_rank) = file_rank(start), file_rank(end)
    across, up = abs(to_file - file), abs(to_rank - rank)
    return {
        chess.KNIGHT: {across, up} == {1, 2},
        chess.BISHOP: across == up,
        chess.ROOK: across == 0 or up == 0,
        chess.QUEEN: across == up or across == 0 or up == 0,
        chess.KING: max(across, up) == 1,
    }[piece_type]


def attackers(board, color, square):
    """Return who attacks a square, piece by piece."""
    return {a for a in chess.SquareSet(board.occupied_co[color]) if square in board.attacks(a)}


def king_of(board):
    return board.king(board.turn)


# -- the game, the side, the piece -----------------------------------------------


@clause(rf"(?P<who>{SIDE}) has no legal move: it is (?P<what>checkmate|stalemate)")
def game_over(tried, who, what):
    board = tried.board
    assert board.turn == side(who)
    assert board.is_checkmate() if what == "checkmate" else board.is_stalemate()


def where_they_are(tried, name, names):
    if name is not None:
        own = tried.board.pieces(kind(name.removesuffix("s")), tried.board.turn)
        assert set(own) == set(squares(names))


@clause(rf"(?P<square>{SQ}) is empty(?:: the (?P<name>{KIND}s?) (?:is|are) on (?P<names>{LIST}))?")
def empty(tried, square, name, names):
    assert tried.board.piece_at(chess.parse_square(square)) is None
    assert square in tried.text
    where_they_are(tried, name, names)


@clause(rf"(?P<piece>{PIECE}) is (?P<who>{SIDE})'s, and it is (?P<mover>{SIDE})'s move")
def not_yours(tried, piece, who, mover):
    assert tried.board.turn == side(mover) != side(who)
    (square,) = pieces(tried.board, piece, side(who))
    assert chess.square_name(square) in tried.text


@clause(
    rf"no (?P<one>{KIND}) of (?P<who>{SIDE})'s stands "
    rf"(?:on the (?P<file>[a-h])-file|on rank (?P<rank>[1-8])): "
    rf"the (?P<name>{KIND}s?) (?:is|are) on (?P<names>{LIST})"
)
def none_there(tried, one, who, file, rank, name, names):
    assert side(who) == tried.board.turn
    assert kind(one) == kind(name.removesuffix("s"))
    where_they_are(tried, name, names)
    assert (file or rank) in tried.text
    assert not [name for name in re.findall(SQ, names) if (file or rank) in name]


@clause(
    rf"a (?P<other>{KIND}) stands on (?P<square>{SQ}), no (?P<one>{KIND}): "
    rf"the (?P<name>{KIND}s?) (?:is|are) on (?P<names>{LIST})"
)
def another_piece(tried, other, square, one, name, names):
    assert tried.board.piece_type_at(chess.parse_square(square)) == kind(other) != kind(one)
    where_they_are(tried, name, names)


@clause(rf"(?:it is (?P<mover>{SIDE})'s move, and )?(?P<who>{SIDE}) has no (?P<one>{KIND})")
def no_such_piece(tried, mover, who, one):
    assert tried.board.turn == side(who)
    assert not tried.board.pieces(kind(one), side(who))
    assert bool(tried.board.pieces(kind(one), not side(who))) == (mover is not None)
    assert piece_named(tried.text) in (None, kind(one))


@clause(
    rf"it is (?P<mover>{SIDE})'s move, and it is (?P<who>{SIDE})'s "
    rf"(?P<piece>{KIND} on {SQ}) that can (?:go to|take on) (?P<goal>{SQ})"
)
def other_sides_move(tried, mover, who, piece, goal):
    board = tried.board
    assert board.turn == side(mover) != side(who)
    (start,) = pieces(board, piece, side(who))
    fen = board.fen().replace(f" {'w' if board.turn else 'b'} ", f" {'b' if board.turn else 'w'} ")
    passed = chess.Board(re.sub(r"( [wb] \S+) \S+", r"\1 -", fen))
    goals = {move.to_square for move in passed.legal_moves if move.from_square == start}
    assert chess.parse_square(goal) in goals


@clause(rf"(?P<piece>{PIECE}) stands there already")
def already(tried, piece):
    assert pieces(tried.board, piece, tried.board.turn) == [tried.goal]
    tried.mover = tried.goal


@clause(rf"(?P<who>{SIDE})'s king stands on (?P<square>{SQ}), and a king is never taken")
def takes_king(tried, who, square):
    assert tried.board.king(side(who)) == chess.parse_square(square) == tried.goal
    assert tried.board.turn != side(who)


# -- promotion and taking ------------------------------------------------------


@clause(r"a pawn cannot (?P<wrong>become a king|stay a pawn on the last rank): say Q, R, B or N")
def wrong_promotion(tried, wrong):
    assert tried.text.rstrip("+#").endswith("K" if "king" in wrong else "P")


@clause(rf"(?P<piece>{PIECE}) is no pawn: only a pawn is promoted")
def no_pawn(tried, piece):
    (tried.mover,) = pieces(tried.board, piece, tried.board.turn)
    assert tried.board.piece_type_at(tried.mover) != chess.PAWN


@clause(rf"(?P<piece>{PIECE}) is promoted on the last rank only, and (?P<goal>{SQ}) is not on it")
def not_the_last_rank(tried, piece, goal):
    (tried.mover,) = pieces(tried.board, piece, tried.board.turn)
    assert goal[1] != ("8" if tried.board.turn else "1")


@clause(
    rf"there is nothing to take on (?P<goal>{SQ})(?: for (?P<piece>{PIECE})|: say (?P<moves>.+))"
)
def nothing_to_take(tried, goal, piece, moves):
    assert tried.board.piece_at(chess.parse_square(goal)) is None
    if piece is not None:
        (tried.mover,) = pieces(tried.board, piece, tried.board.turn)
    for move in re.split(r", | or ", moves) if moves else ():
        assert tried.board.parse_san(move).to_square == tried.goal


@clause(rf"to take on (?P<goal>{SQ}) with a pawn, say (?P<moves>.+)")
def say_the_file(tried, goal, moves):
    for text in re.split(r", | or ", moves):
        move = tried.board.parse_san(text)
        assert tried.board.is_capture(move)
        assert tried.board.piece_type_at(move.from_square) == chess.PAWN
        assert chess.square_name(move.to_square) == goal


# -- ways ------------------------------------------------------------------------


def speaks_of(tried, names):
    """Take in the pieces whose way is spoken of: one, or several of a kind."""
    board = tried.board
    if found := re.fullmatch(rf"the ({KIND})s on ({LIST})", names):
        starts = squares(found[2])
        assert {board.piece_type_at(s) for s in starts} == {kind(found[1])}
        assert {board.color_at(s) for s in starts} == {board.turn}
        return starts
    (tried.mover,) = pieces(board, names, board.turn)
    return [tried.mover]


NAMES = rf"(?:{PIECE}|the {KIND}s on {LIST})"


@clause(rf"(?P<names>{NAMES}) cannot reach (?P<goal>{SQ}): (?P<piece>{PIECE}) is in the way")
def in_the_way(tried, names, goal, piece):
    (blocker,) = pieces(tried.board, piece)
    assert chess.parse_square(goal) == tried.goal
    for start in speaks_of(tried, names):
        pawn = tried.board.piece_type_at(start) == chess.PAWN
        assert blocker in [*steps(start, tried.goal), *([tried.goal] if pawn else [])]


@clause(
    rf"(?P<names>{NAMES}) cannot reach (?P<goal>{SQ}): (?P<who>{SIDE})'s own (?P<own>{KIND}) stands there"
)
def own_piece(tried, names, goal, who, own):
    board = tried.board
    piece = board.piece_at(chess.parse_square(goal))
    assert piece == chess.Piece(kind(own), board.turn)
    assert chess.parse_square(goal) == tried.goal
    assert side(who) == board.turn
    for start in speaks_of(tried, names):
        assert chess.parse_square(goal) in board.attacks(start)


@clause(
    rf"(?P<names>{NAMES}) cannot reach (?P<goal>{SQ}): a (?P<one>{KIND}) moves "
    rf".*(?:elsewhere|further away|none of its own|neither of its two)"
)
def off_its_way(tried, names, goal, one):
    for start in speaks_of(tried, names):
        assert tried.board.piece_type_at(start) == kind(one)
        assert not reaches(kind(one), start, chess.parse_square(goal))


@clause(
    rf"(?P<names>{NAMES}) cannot reach (?P<goal>{SQ}): a bishop on a (?P<own>light|dark) square "
    rf"stays on (?:light|dark) squares, and {SQ} is a (?P<other>light|dark) one"
)
def other_shade(tried, names, goal, own, other):
    shades = {"dark": 0, "light": 1}  # a1 is dark
    assert sum(file_rank(chess.parse_square(goal))) % 2 == shades[other] != shades[own]
    for start in speaks_of(tried, names):
        assert tried.board.piece_type_at(start) == chess.BISHOP
        assert sum(file_rank(start)) % 2 == shades[own]


# -- pawns -----------------------------------------------------------------------


@clause(
    rf"(?P<piece>the pawn on {SQ}) cannot reach (?P<goal>{SQ}): a pawn "
    r"(?P<how>never moves sideways|never moves backwards|steps one square straight ahead, .*)"
)
def off_a_pawns_way(tried, piece, goal, how):
    (tried.mover,) = pieces(tried.board, piece, tried.board.turn)
    (file, rank), (to_file, to_rank) = map(file_rank, (tried.mover, chess.parse_square(goal)))
    ahead = (to_rank - rank) * (1 if tried.board.turn else -1)
    if "sideways" in how:
        assert ahead == 0
    elif "backwards" in how:
        assert ahead < 0
    else:
        assert ahead > 0
        assert (abs(to_file - file), ahead) not in [(0, 1), (0, 2), (1, 1)]


@clause(rf"(?P<piece>the pawn on {SQ}) takes one square ahead on the next file, not straight on")
def takes_straight_on(tried, piece):
    (tried.mover,) = pieces(tried.board, piece, tried.board.turn)
    assert tried.mover % 8 == tried.goal % 8


@clause(rf"(?P<piece>the pawn on {SQ}) has left its first square and steps one square at a time")
def left_its_first_square(tried, piece):
    (tried.mover,) = pieces(tried.board, piece, tried.board.turn)
    assert tried.mover // 8 != (1 if tried.board.turn else 6)
    assert abs(tried.goal - tried.mover) == 16


@clause(
    rf"(?P<piece>the pawn on {SQ}) cannot take (?P<own>{PIECE}), which is (?P<who>{SIDE})'s own"
)
def takes_its_own(tried, piece, own, who):
    (tried.mover,) = pieces(tried.board, piece, tried.board.turn)
    assert pieces(tried.board, own, side(who)) == [tried.goal]
    assert tried.goal in tried.board.attacks(tried.mover)
    assert side(who) == tried.board.turn


@clause(
    rf"(?P<who>{SIDE}) has no pawn (?:on rank (?P<rank>[1-8]) )?that can "
    rf"(?P<verb>go to|take on) (?P<goal>{SQ})"
)
def no_pawn_can(tried, who, rank, verb, goal):
    board = tried.board
    assert side(who) == board.turn
    assert chess.parse_square(goal) == tried.goal
    assert piece_named(tried.text) == chess.PAWN
    for start in board.pieces(chess.PAWN, board.turn):
        if rank is not None and start // 8 + 1 != int(rank):
            continue
        if verb == "go to":
            assert start % 8 != chess.parse_square(goal) % 8
        else:
            assert chess.parse_square(goal) not in board.attacks(start)


@clause(
    rf"(?P<piece>the pawn on {SQ}) cannot take (?P<other>the pawn on {SQ}) in passing: that is allowed only "
    rf"(?:at once, (?:after its double step|and it made its double step at move (?P<double>\d+))|"
    rf"after a double step, and it came from (?P<start>{SQ}) at move (?P<single>\d+))"
)
def too_late(tried, piece, other, double, start, single):
    board = tried.board
    (tried.mover,) = pieces(board, piece, board.turn)
    (victim,) = pieces(board, other, not board.turn)
    assert board.ep_square != tried.goal
    assert {victim, tried.goal} == {victim, victim + (8 if board.turn else -8)}
    arrivals = arrivals_on(board, victim)
    assert bool(arrivals) == bool(double or single)
    if arrivals:
        move, number = arrivals[-1]
        assert number == int(double or single)
        assert (abs(move.to_square - move.from_square) == 16) == (double is not None)
        assert start in (None, chess.square_name(move.from_square))


def arrivals_on(board, square):
    """Walk a game backwards and list the moves to a square with their numbers, the first first."""
    back, found = board.copy(), []
    while back.move_stack:
        move = back.pop()
        if move and move.to_square == square:
            found.insert(0, (move, back.fullmove_number))
    return found


# -- the king's safety -----------------------------------------------------------


@clause(rf"(?P<piece>{PIECE}) is pinned to the king on (?P<king>{SQ}) by (?P<by>{PIECE})")
def pinned(tried, piece, king, by):
    board = tried.board
    (tried.mover,) = pieces(board, piece, board.turn)
    (pinner,) = pieces(board, by, not board.turn)
    assert chess.parse_square(king) == king_of(board)
    assert board.is_pinned(board.turn, tried.mover)
    assert pinner in board.pin(board.turn, tried.mover)
    assert tried.goal not in board.pin(board.turn, tried.mover)


@clause(rf"(?P<who>{SIDE}) is in check from (?P<by>{PIECES}) at once, so only the king can move")
def double_check(tried, who, by):
    board = tried.board
    assert side(who) == board.turn
    assert set(pieces(board, by)) == attackers(board, not board.turn, king_of(board))
    assert len(pieces(board, by)) == 2
    assert {move.from_square for move in board.legal_moves} == {king_of(board)}


@clause(rf"(?P<who>{SIDE}) is in check from (?P<by>{PIECES}), and this does not stop it")
def check_stays(tried, who, by):
    board = tried.board
    assert side(who) == board.turn
    assert set(pieces(board, by)) == attackers(board, not board.turn, king_of(board))
    tries = [move for move in board.pseudo_legal_moves if may_mean(tried, move)]
    assert tries
    for move in tries:
        after = board.copy()
        after.push(move)
        assert attackers(after, not board.turn, king_of(board))
    stays = [move for move in tries if not board.is_pinned(board.turn, move.from_square)]
    assert not stays or set(pieces(board, by)) <= {
        m for move in stays for m in still_there(board, move)
    }


def still_there(board, move):
    after = board.copy()
    after.push(move)
    return attackers(after, not board.turn, king_of(board))


def may_mean(tried, move):
    """Tell whether a text may mean a pseudo-legal move: by the letter of the piece and the goal."""
    start = squares(tried.text)[0] if re.match(rf"{SQ}{SQ}", tried.text) else None
    piece = tried.board.piece_type_at(move.from_square)
    meant = move.from_square == start if start is not None else piece == piece_named(tried.text)
    return meant and move.to_square == tried.goal


@clause(
    rf"(?P<piece>the pawn on {SQ}) cannot take in passing: with both pawns gone, "
    rf"the king on (?P<king>{SQ}) would be in check from (?P<by>{PIECES})"
)
def both_pawns_gone(tried, piece, king, by):
    board = tried.board
    (tried.mover,) = pieces(board, piece, board.turn)
    assert chess.parse_square(king) == king_of(board)
    assert board.ep_square == tried.goal
    emptied = board.copy()
    emptied.remove_piece_at(tried.mover)
    emptied.remove_piece_at(tried.goal + (-8 if board.turn else 8))
    emptied.set_piece_at(tried.goal, chess.Piece(chess.PAWN, board.turn))
    assert set(pieces(board, by)) == attackers(emptied, not board.turn, king_of(board))


@clause(rf"the king may not (?:go to {SQ}|take (?P<piece>{PIECE})): (?P<why>.+)")
def king_into_attack(tried, piece, why):
    board, other = tried.board, not tried.board.turn
    tried.mover = king_of(board)
    assert reaches(chess.KING, tried.mover, tried.goal)
    assert (piece is not None) == (board.color_at(tried.goal) == other)
    gone = board.copy()
    gone.remove_piece_at(tried.mover)
    told = set()
    for part in re.findall(
        rf"{PIECES} (?:attacks?|defends?) (?:{SQ}|it)(?: once the king has left {SQ})?|it would .*",
        why,
    ):
        if found := re.fullmatch(rf"it would stand next to ({SIDE})'s king on ({SQ})", part):
            assert board.king(side(found[1])) == chess.parse_square(found[2])
            told.add(chess.parse_square(found[2]))
            continue
        who = pieces(board, part, other)
        told |= set(who)
        behind = "once the king has left" in part
        assert all((tried.goal in board.attacks(one)) != behind for one in who)
    assert told == attackers(gone, other, tried.goal)


# -- castling --------------------------------------------------------------------


CORNERS = {"kingside": "h", "queenside": "a"}


@clause(
    rf"(?P<who>{SIDE}) has no right to castle (?P<wing>kingside|queenside): "
    rf"(?:(?P<given>the position was given without it, as if the king or that rook had moved)|"
    rf"(?P<king>{SIDE}'s king is not on e[18])|(?P<rook>there is no rook of {SIDE}'s on [ah][18])|"
    rf"(?P<before>it had gone before the moves that are known)|"
    rf"(?P<event>the king moved|{SIDE} castled|the rook on [ah][18] (?:moved|was taken)) at move (?P<number>\d+))"
)
def right_lost(tried, who, wing, given, king, rook, before, event, number):
    board, color = tried.board, side(who)
    assert color == board.turn
    if "O" in tried.text:
        assert wing == ("kingside" if tried.text.count("O") == 2 else "queenside")
    rights = "KQ" if color else "kq"
    flag = rights[wing == "queenside"]
    first = board.root().fen().split()[2]
    home = chess.parse_square(f"e{1 if color else 8}")
    corner = chess.parse_square(f"{CORNERS[wing]}{1 if color else 8}")
    at_home = board.king(color) == home, board.piece_at(corner) == chess.Piece(chess.ROOK, color)
    if event:
        assert flag in first
        check_event(board, flag, event, int(number), corner)
        return
    assert flag not in first
    assert bool(before) == bool(board.move_stack)
    if not before:
        assert (king is not None) == (not at_home[0])
        assert (rook is not None) == (at_home[0] and not at_home[1])
        assert (given is not None) == all(at_home)


def check_event(board, flag, event, number, corner):
    """Walk back to the move that took the flag out of the FEN, and compare it."""
    back, move = board.copy(), None
    while flag not in back.fen().split()[2]:
        move = back.pop()
    assert back.fullmove_number == number
    mover = back.piece_type_at(move.from_square)
    if "was taken" in event:
        assert move.to_square == corner
        assert back.turn != board.turn
    elif "rook" in event:
        assert move.from_square == corner
    else:
        assert mover == chess.KING
        assert back.is_castling(move) == ("castled" in event)


@clause(
    r"(?:castling (?P<wing>kingside|queenside) is prevented: )?"
    rf".*(?:in the way|in check from {PIECES}|king would pass|king would land)"
)
def castling_prevented(tried, wing):
    board, color, text = tried.board, tried.board.turn, tried.clause
    if "O" not in tried.text:
        assert tried.goal in (king_of(board) + 2, king_of(board) - 2)
    short = tried.text.count("O") == 2 or (tried.goal or 0) == king_of(board) + 2
    assert wing in (None, "kingside" if short else "queenside")
    text = text.partition(": ")[2] if wing else text
    home = king_of(board)
    landing, passing = (home + 2, home + 1) if short else (home - 2, home - 1)
    corner = home + 3 if short else home - 4
    between = {s for s in steps(home, corner) if board.piece_at(s)}
    found = re.match(r"(.+?) (?:is|are) in the way", text)
    assert (set(pieces(board, found[1])) if found else set()) == between
    checkers = attackers(board, not color, home)
    assert (f"{'White' if color else 'Black'} is in check from " in text) == bool(checkers)
    mentioned = between | checkers
    for square, words in (
        (passing, "which the king would pass"),
        (landing, "where the king would land"),
    ):
        enemies = attackers(board, not color, square)
        said = f"{chess.square_name(square)}, {words}" in text
        assert said == bool(enemies)
        mentioned |= enemies | ({square} if enemies else set())
    assert set(squares(text)) == mentioned


@clause(
    rf"the king cannot take its own rook on (?P<square>{SQ}): castling is written (?P<how>O-O(?:-O)?)"
)
def own_rook(tried, square, how):
    assert tried.board.piece_at(chess.parse_square(square)) == chess.Piece(
        chess.ROOK, tried.board.turn
    )
    assert (square[0] == "h") == (how == "O-O")
    assert square in tried.text


@clause(rf"(?P<piece>the pawn on {SQ}) cannot take anything on the (?P<file>[a-h])-file")
def nothing_on_the_file(tried, piece, file):
    board = tried.board
    (tried.mover,) = pieces(board, piece, board.turn)
    assert file in tried.text
    for square in board.attacks(tried.mover):
        assert chess.square_name(square)[0] != file or board.color_at(square) in (None, board.turn)


# -- what can be played ------------------------------------------------------------


@clause(
    rf"(?:(?P<who>{SIDE}) is in check from (?P<by>{PIECES}), and )?"
    r"(?:(?P<whose>its|the) legal moves? (?:is|are) (?P<moves>.+)|it has no legal move)"
)
def legal_moves(tried, who, by, whose, moves):
    board = tried.board
    if who:
        assert set(pieces(board, by)) == attackers(board, not board.turn, king_of(board))
    if whose != "the":
        assert tried.mover is not None
    legal = {
        board.san(m) for m in board.legal_moves if whose == "the" or m.from_square == tried.mover
    }
    told = moves.split(", ") if moves else []
    if told and (more := re.fullmatch(r"and (\d+) more", told[-1])):
        del told[-1]
        assert len(legal) == len(told) + int(more[1])
        assert set(told) < legal
    else:
        assert set(told) == legal
