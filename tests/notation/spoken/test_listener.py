"""Spoken moves, written down by hand as people say them, and what the doubtful ones are told.

That every move reads back as it is said is in test_writing.py, with the other forms.
"""

import itertools
import random

import chess
import pytest
from boards import random_boards

from chessnb.errors import AmbiguousMove, IllegalMove, MalformedMove, NotationError
from chessnb.notation import read_move

START = chess.STARTING_FEN
OPEN = "r3k2r/pppq1ppp/2np1n2/2b1p1B1/2B1P1b1/2NP1N2/PPPQ1PPP/R3K2R w KQkq - 6 8"
TWINS = "4k3/pp5p/8/3p4/4P3/R4N2/5PPP/RN2K2R w K - 0 1"
PROMOTION = "3r3k/4P3/8/8/8/8/8/4K3 w - - 0 1"
PASSING = "4k3/8/8/2npP3/8/8/8/4K3 w - d6 0 1"
CENTRE = "4k3/8/8/3p1p2/2P1P3/8/8/4K3 w - - 0 1"
MATES = "6k1/5ppp/8/8/8/8/5PPP/R3Q1K1 w - - 0 1"
BLACK = "r3k2r/ppp2ppp/8/8/4n3/3P4/PPP2PPP/R3K2R b KQkq - 0 1"

# (position, what is said, the move in SAN, as python-chess reads it)
SAID = [
    # a pawn's move, with letters and figures as speech recognition writes them
    (START, "e4", "e4"), (START, "pawn e4", "e4"), (START, "pawn to e4", "e4"), (START, "E4.", "e4"),
    (START, "e four", "e4"), (START, "e for", "e4"), (START, "e-four", "e4"), (START, "bee four", "b4"),
    (START, "see four", "c4"), (START, "dee four", "d4"),
    (START, "gee four", "g4"), (START, "aitch three", "h3"), (START, "eff 4", "f4"),
    (START, "a four", "a4"), (START, "a for", "a4"), (START, "the a pawn to a4", "a4"),
    (START, "e to e4", "e4"), (START, "e2 to e4", "e4"), (START, "from e2 to e4", "e4"),
    (START, "pawn on e2 to e4", "e4"), (START, "the e pawn to e4", "e4"), (START, "e-pawn to e4", "e4"),
    # pieces
    (START, "knight f3", "Nf3"), (START, "night f3", "Nf3"), (START, "nite f3", "Nf3"),
    (START, "knight to f three", "Nf3"), (START, "Knight to F3!", "Nf3"), (START, "knight goes to f3", "Nf3"),
    (START, "knight from g1 to f3", "Nf3"), (START, "knight to f3 from g1", "Nf3"),
    (START, "put the knight on f3", "Nf3"), (START, "knight g1 f3", "Nf3"), (START, "the g1 knight to f3", "Nf3"),
    (START, "g knight to f3", "Nf3"), (OPEN, "queen e2", "Qe2"), (OPEN, "king e2", "Ke2"),
    # the names of the FIDE Laws, Appendix D.2.1
    (START, "Eva vier", "e4"), (START, "Springer Felix drei", "Nf3"), (START, "Bauer Hector drei", "h3"),
    (OPEN, "lange Rochade", "O-O-O"), (OPEN, "kurze Rochade", "O-O"),
    (OPEN, "Laeufer Gustav fuenf takes Felix sechs", "Bxf6"),
    # what stands around a move
    (START, "okay, knight f3", "Nf3"), (START, "uh, e4", "e4"), (START, "and then knight f3", "Nf3"),
    (START, "so White plays e4", "e4"), (START, "I think knight f3", "Nf3"), (START, "1. e four", "e4"),
    (START, "move one, e four", "e4"), (START, "let's play Nf3", "Nf3"), (BLACK, "14... Black castles short", "O-O"),
    (OPEN, "castle king's side, please", "O-O"), (BLACK, "black's knight takes f2", "Nxf2"),
    # captures
    (OPEN, "takes f6", "Bxf6"), (OPEN, "bishop takes f6", "Bxf6"), (OPEN, "bishop captures on f6", "Bxf6"),
    (OPEN, "bishop x f6", "Bxf6"), (OPEN, "bishop takes knight", "Bxf6"), (OPEN, "capture the knight on f6", "Bxf6"),
    (OPEN, "bishop takes Black's knight", "Bxf6"), (OPEN, "knight takes", "Nxe5"), (OPEN, "knight takes the pawn", "Nxe5"),
    (OPEN, "takes on f7 with the bishop", "Bxf7+"), (OPEN, "takes f7 with check", "Bxf7+"),
    (OPEN, "bishop takes, check", "Bxf7+"), (OPEN, "knight takes e5", "Nxe5"), (OPEN, "knight eats pawn", "Nxe5"),
    (CENTRE, "c takes d5", "cxd5"), (CENTRE, "c takes d", "cxd5"), (CENTRE, "see takes dee", "cxd5"), (CENTRE, "cd", "cxd5"),
    (CENTRE, "exf", "exf5"), (CENTRE, "e takes f", "exf5"), (CENTRE, "e captures f five", "exf5"), (CENTRE, "c takes", "cxd5"),
    (CENTRE, "pawn takes f5", "exf5"), (CENTRE, "the c pawn takes", "cxd5"), (CENTRE, "takes d5 with the e pawn", "exd5"),
    (PASSING, "e takes d6 en passant", "exd6"), (PASSING, "takes en passant", "exd6"), (PASSING, "e d6 e.p.", "exd6"),
    (PASSING, "pawn takes pawn", "exd6"),
    # castling
    (OPEN, "castles short", "O-O"), (OPEN, "castle long", "O-O-O"), (OPEN, "castle kingside", "O-O"),
    (OPEN, "castles queen side", "O-O-O"), (OPEN, "castles on the king's side", "O-O"), (OPEN, "long castling", "O-O-O"),
    (OPEN, "oh oh oh", "O-O-O"), (OPEN, "zero zero", "O-O"), (TWINS, "castles", "O-O"), (OPEN, "0-0-0 check please", "O-O-O"),
    # a beginner's castle is a rook
    (OPEN, "castle to d1", "Rd1"), (TWINS, "castle takes a7", "Rxa7"),
    # which of two
    (TWINS, "knight b to d2", "Nbd2"), (TWINS, "knight f d2", "Nfd2"), (TWINS, "knight on b1 to d2", "Nbd2"),
    (TWINS, "the f knight to d2", "Nfd2"), (TWINS, "rook from a3 to a2", "R3a2"), (TWINS, "first rank rook to a2", "R1a2"),
    (TWINS, "rook on h to f1", "Rf1"), (TWINS, "rook on the h file to g1", "Rg1"), (TWINS, "third rank rook to a2", "R3a2"),
    # promotion
    (PROMOTION, "e8 queens", "e8=Q"), (PROMOTION, "pawn to e8 queens", "e8=Q"), (PROMOTION, "e8 equals queen", "e8=Q"),
    (PROMOTION, "e8 = knight", "e8=N"), (PROMOTION, "pawn e8 rook", "e8=R"), (PROMOTION, "e8 makes a bishop", "e8=B"),
    (PROMOTION, "e takes d8 queen check", "exd8=Q"), (PROMOTION, "takes the rook and promotes to a knight", "exd8=N"),
    (PROMOTION, "promotes to a knight on e8", "e8=N"), (PROMOTION, "e d queen", "exd8=Q"),
    (PROMOTION, "pawn takes rook, queen", "exd8=Q"), (PROMOTION, "e8 for a rook", "e8=R"), (PROMOTION, "e8 to a queen", "e8=Q"),
    # check and mate
    (MATES, "queen e8 checkmate", "Qe8#"), (MATES, "rook mates", "Ra8#"), (MATES, "mate with the rook", "Ra8#"),
    (MATES, "queen gives mate", "Qe8#"), (OPEN, "bishop check", "Bxf7+"), (START, "knight f3 check", "Nf3"),
]  # fmt: skip


@pytest.mark.parametrize(("position", "said", "san"), SAID)
def test_what_is_said_is_the_move_that_was_meant(position, said, san):
    board = chess.Board(position)
    before = board.fen()
    assert read_move(board, said) == board.parse_san(san)
    assert board.fen() == before


def test_there_are_a_hundred_of_them():
    assert len(SAID) >= 100
    assert len({(position, said) for position, said, _ in SAID}) == len(SAID)


# (position, what is said, kind of error, words of the reason that a teacher would look for)
DOUBTFUL = [
    # several moves fit: all are said
    (OPEN, "castles", AmbiguousMove, ["castles short", "castles long"]),
    (OPEN, "king castles", AmbiguousMove, ["castles short", "castles long"]),
    (OPEN, "bishop takes", AmbiguousMove, ["bishop takes f6", "bishop takes f7, check"]),
    (OPEN, "takes with the bishop", AmbiguousMove, ["bishop takes f6", "bishop takes f7, check"]),
    (OPEN, "takes", AmbiguousMove, ["bishop takes f6", "knight takes e5"]),
    (OPEN, "takes a pawn", AmbiguousMove, ["bishop takes f7, check", "knight takes e5"]),
    (TWINS, "knight d2", AmbiguousMove, ["knight b to d2", "knight f to d2"]),
    (TWINS, "rook a2", AmbiguousMove, ["rook from a1 to a2", "rook from a3 to a2"]),
    (CENTRE, "pawn takes d5", AmbiguousMove, ["c takes d5", "e takes d5"]),
    (CENTRE, "takes", AmbiguousMove, ["three moves", "c takes d5", "e takes d5", "e takes f5"]),
    (CENTRE, "pawn takes pawn", AmbiguousMove, ["three moves"]),
    (PROMOTION, "e8", AmbiguousMove, ["becomes a piece"]),
    (PROMOTION, "pawn to e8", AmbiguousMove, ["makes a bishop", "makes a knight", "makes a queen", "makes a rook"]),
    (PROMOTION, "promotes to a queen", AmbiguousMove, ["pawn to e8 makes a queen", "e takes d8 makes a queen"]),
    (MATES, "mate", AmbiguousMove, ["queen to e8, checkmate", "rook to a8, checkmate"]),
    (START, "a pawn", AmbiguousMove, ["pawn to a3", "pawn to a4"]),
    (START, "knight to", MalformedMove, ['missing after "to"']),
    (START, "knight from b1", AmbiguousMove, ["knight to a3", "knight to c3"]),
    (START, "e pawn", AmbiguousMove, ["pawn to e3", "pawn to e4"]),
    # no move fits: the reason is the rules'
    (START, "bishop g5", IllegalMove, ["bishop on c1", "pawn on d2 is in the way"]),
    (START, "takes", IllegalMove, ["White cannot take anything"]),
    (START, "castles", IllegalMove, ["king's side", "queen's side", "f1"]),
    (START, "castle kingside", IllegalMove, ["the bishop on f1 and the knight on g1 are in the way"]),
    (START, "queen takes d5", IllegalMove, ["queen on d1", "pawn on d2"]),
    (START, "e takes d", IllegalMove, ["pawn on e2", "d-file"]),
    (START, "black plays e5", IllegalMove, ["it is White's move"]),
    (START, "Black's knight to f6", IllegalMove, ["it is White's move"]),
    (START, "black's Nf6", IllegalMove, ["it is White's move"]),
    (START, "rook f to d1", IllegalMove, ["f-file"]),
    (START, "check", IllegalMove, ["White cannot give check"]),
    (OPEN, "knight takes queen", IllegalMove, ["no knight of White's can take a queen"]),
    (OPEN, "bishop takes rook on f6", IllegalMove, ["no rook stands on f6", "knight on f6"]),
    (OPEN, "takes the pawn on a3", IllegalMove, ["no pawn stands on a3", "empty"]),
    (OPEN, "queen takes", IllegalMove, ["queen on d2 cannot take anything"]),
    (CENTRE, "c takes d6", IllegalMove, ["pawn on c4", "d6"]),
    (CENTRE, "queen to d2", IllegalMove, ["White has no queen"]),
    (CENTRE, "castles", IllegalMove, ["right"]),
    (CENTRE, "c4 en passant", IllegalMove, ["no pawn can be taken in passing on c4"]),
    (PROMOTION, "e8 king", IllegalMove, ["a pawn cannot become a king"]),
    (PROMOTION, "king takes", IllegalMove, ["king on e1 cannot take anything"]),
    ("4r1k1/8/8/8/8/8/4N3/4K3 w - - 0 1", "knight to c3", IllegalMove, ["pinned", "rook on e8"]),
    ("4r1k1/8/8/8/8/2p5/4N3/4K3 w - - 0 1", "knight takes", IllegalMove, ["pinned", "rook on e8"]),
    ("7k/5KQ1/8/8/8/8/8/8 b - - 0 1", "king takes queen", IllegalMove, ["checkmate"]),
    ("7k/5K2/6Q1/8/8/8/8/8 b - - 0 1", "castles", IllegalMove, ["stalemate"]),
    # no move was said
    (START, "knight", MalformedMove, ["the square is missing"]),
    (START, "knight f", MalformedMove, ["the square is missing"]),
    (START, "knight f9", MalformedMove, ["there is no square f9"]),
    (START, "knight f3 or knight c3", MalformedMove, ['"or"']),
    (START, "not knight f3", MalformedMove, ['"not"']),
    (START, "you can't play e4", MalformedMove, ["can't"]),
    (START, "knight f3 knight c6", MalformedMove, ["one move at a time"]),
    (OPEN, "bishop takes f6 takes f6", MalformedMove, ["one move at a time"]),
    (OPEN, "bishop takes f6 knight", MalformedMove, ["name the piece before the square"]),
    (START, "hello", MalformedMove, ["this is not a move"]),
    (START, "what a nice day", MalformedMove, []),
    (OPEN, "castles long short", MalformedMove, ["castles short", "castles long"]),
    (OPEN, "queen castles", MalformedMove, ["castles short"]),
    (OPEN, "short queen", MalformedMove, ["castles short", "castles long"]),
    (OPEN, "castles with the bishop", MalformedMove, ["castles short"]),
]  # fmt: skip


@pytest.mark.parametrize(("position", "said", "kind", "words"), DOUBTFUL)
def test_a_wrong_or_doubtful_phrase_is_told_why(position, said, kind, words):
    with pytest.raises(NotationError) as caught:
        read_move(position, said)
    assert type(caught.value) is kind, caught.value
    assert caught.value.text == said
    for word in words:
        assert word in caught.value.reason


def test_a_doubtful_phrase_carries_every_move_that_fits():
    with pytest.raises(AmbiguousMove) as caught:
        read_move(CENTRE, "takes")
    assert caught.value.candidates == ("cxd5", "exd5", "exf5")


def test_taking_back_is_on_the_square_of_the_last_move():
    board = chess.Board()
    for san in ("e4", "d5", "exd5", "Nf6", "Nc3"):
        board.push_san(san)
    assert board.san(read_move(board, "knight takes d5")) == "Nxd5"
    board.push_san("Nxd5")
    assert board.san(read_move(board, "takes back")) == "Nxd5"
    assert board.san(read_move(board, "knight recaptures")) == "Nxd5"
    board.push_san("a3")
    with pytest.raises(IllegalMove, match="a3"):
        read_move(board, "takes back")


def test_an_article_is_no_file_and_a_file_no_article():
    board = "4k3/8/8/1p6/P1P5/8/8/N3K3 w - - 0 1"
    assert read_move(board, "the a pawn takes b5").uci() == "a4b5"
    assert read_move(board, "a takes b5").uci() == "a4b5"
    with pytest.raises(AmbiguousMove):
        read_move(board, "a pawn takes b5")
    assert read_move(board, "a knight to b3").uci() == "a1b3"
    assert read_move(board, "knight a to b3").uci() == "a1b3"


def captured(board, move):
    if board.is_en_passant(move):
        return chess.PAWN
    return board.piece_type_at(move.to_square) if board.is_capture(move) else None


def half_phrases(board):
    """Phrases that say only part of a move, with all legal moves that they may mean."""
    moves = list(board.legal_moves)
    takes = [move for move in moves if board.is_capture(move)]
    yield "takes", takes
    yield "castles", [move for move in moves if board.is_castling(move)]
    for kind in chess.PIECE_TYPES:
        name = chess.piece_name(kind)
        own = [move for move in takes if board.piece_type_at(move.from_square) == kind]
        yield f"{name} takes", own
        yield f"takes with the {name}", own
        yield f"takes the {name}", [move for move in takes if captured(board, move) == kind]
        for victim in chess.PIECE_TYPES[:5]:
            wanted = [move for move in own if captured(board, move) == victim]
            yield f"{name} takes {chess.piece_name(victim)}", wanted
    for start, goal in itertools.product(range(8), repeat=2):
        pawns = [
            move
            for move in takes
            if board.piece_type_at(move.from_square) == chess.PAWN
            and (chess.square_file(move.from_square), chess.square_file(move.to_square))
            == (start, goal)
        ]
        yield f"{chess.FILE_NAMES[start]} takes {chess.FILE_NAMES[goal]}", pawns


@pytest.mark.thorough
def test_half_a_phrase_is_never_guessed():
    """The moves that fit are found a second time, by plain rules, from python-chess alone."""
    chance = random.Random(72)
    seen = dict.fromkeys((0, 1, 2), 0)
    for board in random_boards(60, seed=73):
        if not any(board.legal_moves):
            continue
        for said, wanted in chance.sample(list(half_phrases(board)), 25):
            seen[min(len(wanted), 2)] += 1
            if len(wanted) == 1:
                assert read_move(board, said) == wanted[0], (said, board.fen())
                continue
            with pytest.raises(NotationError) as caught:
                read_move(board, said)
            if wanted:
                assert isinstance(caught.value, AmbiguousMove), (said, board.fen())
                assert set(caught.value.candidates) == {board.san(move) for move in wanted}
            else:
                assert isinstance(caught.value, IllegalMove), (said, board.fen())
    assert all(count > 20 for count in seen.values()), seen


HEAP = "knight bishop pawn a e d4 f3 takes to on from with castles short check the queen makes two"


@pytest.mark.thorough
def test_any_heap_of_words_gives_a_legal_move_or_a_teacher_s_error():
    chance, words = random.Random(74), HEAP.split()
    boards = [board for board in random_boards(40, seed=75) if any(board.legal_moves)]
    heard, reasons = 0, set()
    for _ in range(4_000):
        board = chance.choice(boards)
        said = " ".join(chance.choices(words, k=chance.randrange(1, 7)))
        try:
            move = read_move(board, said)
        except NotationError as error:
            reasons.add(error.reason)
        else:
            heard += 1
            assert move in board.legal_moves
    assert heard > 50
    assert len(reasons) > 50
    assert all(reason and "None" not in reason for reason in reasons)
