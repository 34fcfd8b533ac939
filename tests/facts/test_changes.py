import random

import chess
import pytest
from boards import random_boards
from thoroughness import is_thorough, scaled

from chessnb.errors import IllegalMove, MalformedMove
from chessnb.facts import Changes, Piece, castling, changes, exchange, files, pawns, pressure

Compared = list[tuple[chess.Board, chess.Board, Changes]]
"""Positions before and after a move, with what was found."""


def played(fen: str, san: str) -> Changes:
    board = chess.Board(fen)
    return changes(board, board.parse_san(san))


def some_moves(board: chess.Board, chance: random.Random) -> set[chess.Move]:
    """Choose any two moves, and a check and a capture if there are any."""
    moves = list(board.legal_moves)
    kinds = [
        moves,
        moves,
        [move for move in moves if board.gives_check(move)],
        [move for move in moves if board.is_capture(move)],
    ]
    return {chance.choice(kind) for kind in kinds if kind}


@pytest.fixture(scope="module")
def random_changes() -> Compared:
    chance = random.Random(20)
    found = []
    for before in random_boards(scaled(400, least=40), seed=20):
        for move in sorted(some_moves(before, chance), key=chess.Move.uci):
            after = before.copy()
            after.push(move)
            found.append((before, after, changes(before, move)))
    return found


def square(piece: Piece) -> chess.Square:
    return chess.parse_square(piece.square)


def origin(found: Changes, piece: Piece) -> chess.Square:
    """Return where a piece stood before the move, found from the move alone."""
    if piece == found.piece:
        return found.move.from_square
    if piece in found.moved:  # the rook in castling
        rank = 0 if found.side else 56
        return (chess.H1 if piece.square[0] == "f" else chess.A1) + rank
    return square(piece)


def may_take(board: chess.Board, start: chess.Square, end: chess.Square) -> bool:
    """Say whether a piece could take on a square were its side to move and not in check."""
    attacked = end in board.attacks(start)
    side = board.color_at(start)
    if not attacked or side is None:
        return False
    return end in board.pin(side, start)


def test_an_illegal_move_is_refused() -> None:
    with pytest.raises(IllegalMove, match="the pawn on e2 cannot reach e5"):
        changes("start", chess.Move.from_uci("e2e5"))
    with pytest.raises(MalformedMove, match="a pass is no move of chess"):
        changes("start", chess.Move.null())


def test_a_move_is_taken_in_every_form() -> None:
    wanted = changes("start", chess.Move.from_uci("e2e4"))
    for given in ("e4", "e2-e4", "e2e4", "pawn to e4"):
        assert changes("start", given) == wanted


def test_pieces_are_where_the_fields_say(random_changes: Compared) -> None:
    for _, after, found in random_changes:
        pieces = [
            *found.moved,
            *found.checkers,
            *(attack.target for attack in (*found.attacks, *found.uncovered)),
            *(attack.by for attack in (*found.attacks, *found.uncovered)),
            *(defence.piece for defence in found.defends),
            *found.stops_attacking,
            *found.stops_defending,
            *found.newly_attacked,
            *found.no_longer_attacked,
            *found.newly_defended,
            *found.left_undefended,
            *found.exposed,
            *found.relieved,
            *found.parries,
            *(gain.piece for gain in (*found.threatens, *found.offers)),
            *(pin.piece for pin in (*found.pins, *found.releases)),
            *(pin.piece for pin in (*found.gets_pinned, *found.frees)),
            *found.passed,
            *found.isolated,
            *found.doubled,
            *found.backward,
        ]
        for piece in pieces:
            assert after.piece_at(square(piece)) == chess.Piece.from_symbol(piece.letter), found


def test_what_it_attacks_it_attacks_now_and_did_not_before(random_changes: Compared) -> None:
    attacks = 0
    for before, after, found in random_changes:
        for attack in found.attacks:
            assert attack.by in found.moved
            assert attack.target.color != found.side
            assert may_take(after, square(attack.by), square(attack.target))
            start, end = origin(found, attack.by), square(attack.target)
            kept_off = before.king(found.side) == start and before.is_attacked_by(
                not found.side, end
            )
            assert kept_off or not may_take(before, start, end), found
            attacks += 1
        for attack in found.uncovered:
            assert attack.by not in found.moved
            assert may_take(after, square(attack.by), square(attack.target))
    assert attacks > scaled(150)


def test_every_new_attack_of_the_moved_piece_is_found(random_changes: Compared) -> None:
    for before, after, found in random_changes:
        piece = found.piece
        if piece.name == "king" or len(found.moved) > 1:
            continue
        for end in chess.SquareSet(after.occupied_co[not found.side]):
            if after.piece_type_at(end) == chess.KING:
                continue
            now = may_take(after, square(piece), end)
            then = may_take(before, found.move.from_square, end)
            listed = end in {square(attack.target) for attack in found.attacks}
            assert listed == (now and not then), found
            stopped = end in {square(gone) for gone in found.stops_attacking}
            assert stopped == (then and not now), found


def test_undefended_is_without_a_defender_that_counts(random_changes: Compared) -> None:
    undefended = 0
    for _, after, found in random_changes:
        for attack in (*found.attacks, *found.uncovered):
            assert attack.undefended == (pressure(after, attack.target.square).defended_by == 0)
            undefended += attack.undefended
    assert undefended > scaled(20)


def test_defenders_and_the_loss_of_them(random_changes: Compared) -> None:
    left = 0
    for before, after, found in random_changes:
        for defence in found.defends:
            assert defence.piece.color == found.side
            assert square(defence.piece) in after.attacks(square(defence.by))
        for piece in found.left_undefended:
            assert pressure(before, origin(found, piece)).defended_by > 0
            assert pressure(after, square(piece)).defended_by == 0
            left += 1
        for piece in found.newly_defended:
            assert pressure(before, origin(found, piece)).defended_by == 0
            assert pressure(after, square(piece)).defended_by > 0
        for piece in found.exposed:
            assert after.is_attacked_by(not found.side, square(piece))
            assert pressure(before, origin(found, piece)).attacked_by == 0
        for piece in found.relieved:
            assert pressure(before, origin(found, piece)).attacked_by > 0
            assert pressure(after, square(piece)).attacked_by == 0
        for piece in found.newly_attacked:
            assert pressure(before, square(piece)).attacked_by == 0
            assert pressure(after, square(piece)).attacked_by > 0
        for piece in found.no_longer_attacked:
            assert pressure(before, square(piece)).attacked_by > 0
            assert pressure(after, square(piece)).attacked_by == 0
    assert left > scaled(100)


def test_lines_are_those_that_line_pieces_see_more_or_less_of(random_changes: Compared) -> None:
    opened = closed = 0
    for before, after, found in random_changes:
        groups = (
            (found.opened, after, before, found.side),
            (found.opened_to_enemy, after, before, not found.side),
            (found.closed, before, after, found.side),
            (found.closed_to_enemy, before, after, not found.side),
        )
        for lines, seen, unseen, color in groups:
            for line in lines:
                start = square(line.by)
                squares = chess.SquareSet(map(chess.parse_square, line.squares))
                assert line.by.color == color
                assert line.by not in found.moved
                assert set(squares) <= set(seen.attacks(start))
                assert not squares & unseen.attacks(start)
                assert {square(piece) for piece in (*line.attacks, *line.defends)} <= set(squares)
        opened += len(found.opened)
        closed += len(found.closed)
        # Every square that a line piece at rest sees newly is on one of the lines.
        total = sum(len(line.squares) for line in (*found.opened, *found.opened_to_enemy))
        assert total == sum(
            len(after.attacks(piece) - before.attacks(piece))
            for piece in chess.SquareSet(after.bishops | after.rooks | after.queens)
            if before.piece_at(piece) == after.piece_at(piece) and piece != found.move.to_square
        )
    assert opened > scaled(100)
    assert closed > scaled(100)


def test_check_is_that_of_python_chess(random_changes: Compared) -> None:
    seen: set[str] = set()
    for _, after, found in random_changes:
        assert bool(found.check) == after.is_check()
        assert (found.check == "checkmate") == after.is_checkmate()
        assert found.stalemate == after.is_stalemate()
        assert {square(piece) for piece in found.checkers} == set(after.checkers())
        if found.check == "discovered check":
            assert not {*found.checkers} & {*found.moved}
        seen.add(found.check)
    assert {"", "check", "discovered check"} <= seen
    assert not is_thorough or "checkmate" in seen


def test_pins_are_those_of_python_chess(random_changes: Compared) -> None:
    pins = 0
    for before, after, found in random_changes:
        for pin in found.pins:
            assert after.is_pinned(not found.side, square(pin.piece))
            assert not before.is_pinned(not found.side, square(pin.piece))
            # Without the piece that pins there is no pin.
            without = after.copy(stack=False)
            without.remove_piece_at(square(pin.by))
            assert not without.is_pinned(not found.side, square(pin.piece))
            pins += 1
        for pin in found.frees:
            assert before.is_pinned(found.side, origin(found, pin.piece))
            assert not after.is_pinned(found.side, square(pin.piece))
            assert before.piece_at(square(pin.by)) == chess.Piece.from_symbol(pin.by.letter)
    assert pins > scaled(10)


def test_gains_are_those_of_the_exchange(random_changes: Compared) -> None:
    threats = offers = parries = 0
    for before, after, found in random_changes:
        for gain in found.threatens:
            assert exchange(after, gain.piece.square, side=found.side).gain == gain.points
            assert exchange(before, gain.piece.square).gain < gain.points
            threats += 1
        for gain in found.offers:
            assert exchange(after, gain.piece.square).gain == gain.points
            offers += 1
        for piece in found.parries:
            start = chess.square_name(origin(found, piece))
            if not before.is_check():
                assert exchange(before, start, side=not found.side).gain > 0
            assert exchange(after, piece.square).gain == 0
            parries += 1
        if after.is_check():
            assert found.threatens == ()
    assert min(threats, offers, parries) > scaled(20)


def test_an_even_trade_offers_nothing() -> None:
    found = played("4k3/8/4p3/3n4/8/2N5/8/4K3 w - - 0 1", "Nxd5")
    assert found.offers == ()
    assert played("4k3/8/4p3/3p4/8/2N5/8/4K3 w - - 0 1", "Nxd5").offers[0].points == 3


def test_rights_to_castle_go_as_the_laws_say(random_changes: Compared) -> None:
    # FIDE Laws, article 3.8.2.1.
    lost = 0
    for before, after, found in random_changes:
        had = {(wing.side, wing.wing) for wing in castling(before).wings if not wing.lost}
        has = {(wing.side, wing.wing) for wing in castling(after).wings if not wing.lost}
        assert set(found.castling_lost) == had - has
        lost += len(had - has)
    assert lost > scaled(10)


@pytest.mark.thorough
def test_pawns_and_files_are_those_of_the_pawn_facts(random_changes: Compared) -> None:
    for before, after, found in random_changes:
        for kind in ("passed", "isolated", "doubled", "backward"):
            listed = {piece.square for piece in getattr(found, kind)}
            old, new = pawns(before), pawns(after)
            now = {*getattr(new.white, kind), *getattr(new.black, kind)}
            then = {*getattr(old.white, kind), *getattr(old.black, kind)}
            assert listed <= now
            end = chess.square_name(found.move.to_square)
            start = chess.square_name(found.move.from_square)
            if end in now and found.piece.name == "pawn":
                assert (end in listed) == (start not in then)
            assert listed - {end} == now - then - {end}
        assert set(found.files_opened) == set(files(after).open) - set(files(before).open)


def test_what_was_taken_in_passing_is_named_by_its_own_square() -> None:
    # FIDE Laws, article 3.7.3.1.
    found = played("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "exd6")
    assert found.captured == Piece(letter="p", square="d5")


def test_castling_moves_two_pieces() -> None:
    found = played("r3k3/8/8/8/8/8/8/4K2R b Kq - 0 1", "O-O-O")
    assert found.moved == (Piece(letter="k", square="c8"), Piece(letter="r", square="d8"))


def test_the_board_is_left_alone() -> None:
    board = chess.Board()
    board.push_san("e4")
    before = board.copy()
    changes(board, chess.Move.from_uci("e7e5"))
    assert board == before
    assert board.move_stack == before.move_stack


def test_the_picture_shows_the_actor_its_targets_and_the_lines() -> None:
    found = played("r1b2rk1/ppp1qppp/2n2b2/8/4P3/2N2N2/PP2BPPP/2RQ1RK1 w - - 0 14", "Nd5")
    assert found.picture.last_move == "c3d5"
    marks = {(mark.role, mark.square, mark.to) for mark in found.picture.marks}
    assert marks == {
        ("actor", "d5", None),
        ("target", "c6", None),
        ("target", "e7", None),
        ("target", "f6", None),
        ("force", "d5", "e7"),
        ("force", "d5", "f6"),
        ("force", "c1", "c6"),
    }
    opened = played(chess.STARTING_FEN, "e4").picture.marks
    assert {(mark.square, mark.to) for mark in opened if mark.role == "force"} == {
        ("f1", "a6"),
        ("d1", "h5"),
    }


def told(found: Changes) -> str:
    return " ".join(found.paragraphs)


CHECK_AND_MATE = "r7/4bQ2/2nk1p2/B3p3/2p2prP/3p1q2/3N3K/1R2R3 b - - 0 1"
SKEWERED = "3rk3/1p3q2/6p1/p3pB2/P1P1P1pP/2bP4/6R1/1r3K1Q w - - 0 1"
NEW_YORK_1956 = "r3r1k1/pp3pbp/1qp3p1/2B5/2BP2b1/Q1n2N2/P4PPP/3R1K1R b - - 3 17"
"""After 17. Kf1 in Byrne-Fischer, New York 1956: the queen on b6 is attacked."""


def test_a_check_does_not_parry_what_hangs_behind_every_reply() -> None:
    found = played(CHECK_AND_MATE, "Rg2+")
    assert found.parries == ()
    assert "parries" not in told(found)
    # Nor does it where nothing is mated: the knight is attacked as before.
    checked = played("4k3/8/8/2p5/3N4/8/8/Q5K1 w - - 0 1", "Qa4+")
    assert checked.parries == ()
    # A check that takes what attacked parries the attack.
    taken = played("5k2/8/8/2p5/3N4/8/8/2Q3K1 w - - 0 1", "Qxc5+")
    assert [piece.square for piece in taken.parries] == ["d4"]


def test_nothing_parried_by_check_hangs_behind_a_reply(random_changes: Compared) -> None:
    checks = 0
    for _, after, found in random_changes:
        for piece in found.parries if after.is_check() else ():
            for reply in after.legal_moves:
                behind = after.copy(stack=False)
                behind.push(reply)
                behind.turn, behind.ep_square = not behind.turn, None
                still = behind.piece_at(square(piece)) == chess.Piece.from_symbol(piece.letter)
                if still and behind.is_valid():
                    assert exchange(behind, piece.square).gain == 0, found
            checks += 1
    assert checks > scaled(1)


def test_what_hung_before_a_check_is_left_and_not_let_go() -> None:
    found = played(SKEWERED, "Kf2")
    assert found.offers == ()
    assert [gain.piece.square for gain in found.leaves] == ["h1", "f5", "d3"]
    assert "leaves the queen on h1 and the bishop on f5 to be taken" in found.words


def test_a_defender_that_answers_a_check_lets_go_what_it_defended() -> None:
    kept = played("2r1r1k1/8/8/8/8/2N5/3Q4/4K3 w - - 0 1", "Kf2")
    assert (kept.offers, kept.leaves) == ((), ())
    found = played("2r1r1k1/8/8/8/8/2N5/3Q4/4K3 w - - 0 1", "Qe2")
    assert [(gain.piece.square, gain.points) for gain in found.offers] == [("e2", 4), ("c3", 3)]
    assert found.leaves == ()


def test_a_queen_that_a_move_ignores_is_left_to_be_taken() -> None:
    found = played(NEW_YORK_1956, "Be6")
    assert [gain.piece.square for gain in found.leaves] == ["b6", "c3"]
    assert "leaves the queen on b6 and the knight on c3 to be taken" in found.words
    assert "leaves Qb6 6 points" in str(found)


def test_who_mates_next_lets_nothing_go() -> None:
    quiet = played("7k/5Q2/8/6N1/8/q7/8/6K1 w - - 0 1", "Nf3")
    assert not quiet.forces_mate
    found = played(CHECK_AND_MATE, "Rg2+")
    assert found.forces_mate
    assert "forces mate on the next move" in found.words
    assert "to be taken" not in told(found)
    assert " gain " not in told(found)


@pytest.mark.thorough
def test_mate_on_the_next_move_is_so_after_every_reply(random_changes: Compared) -> None:
    for _, after, found in random_changes:
        escapes = [reply for reply in after.legal_moves if not mates_after(after, reply)]
        assert found.forces_mate == (not escapes and any(after.legal_moves)), found


def mates_after(board: chess.Board, reply: chess.Move) -> bool:
    behind = board.copy(stack=False)
    behind.push(reply)
    for move in behind.legal_moves:
        behind.push(move)
        mated = behind.is_checkmate()
        behind.pop()
        if mated:
            return True
    return False


def test_what_is_left_can_be_taken_before_and_after(random_changes: Compared) -> None:
    left = 0
    for before, after, found in random_changes:
        for gain in found.leaves:
            assert exchange(after, gain.piece.square).gain == gain.points
            if not before.is_check():
                start = chess.square_name(origin(found, gain.piece))
                assert exchange(before, start, side=not found.side).gain > 0
            left += 1
        assert not {gain.piece for gain in found.leaves} & {gain.piece for gain in found.offers}
    assert left > scaled(100)
