import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.facts import Changes, changes
from chessnb.facts._phrases import AND_MORE, LINE_LENGTH, minor_phrases, telling_phrases


def played(fen: str, san: str) -> Changes:
    board = chess.Board(fen)
    return changes(board, board.parse_san(san))


SENTENCES = [
    (
        "r1b2rk1/ppp1qppp/2n2b2/8/4P3/2N2N2/PP2BPPP/2RQ1RK1 w - - 0 14",
        "Nd5",
        "14. Nd5: attacks the queen on e7 and the bishop on f6; lets Black gain 1 point on b2 or 1 "
        "point on e4; and more",
    ),
    (
        "rnbqkbnr/ppp1pppp/8/3pP3/8/8/PPPP1PPP/RNBQKBNR b KQkq - 0 2",
        "f5",
        "2... f5: a quiet move; nothing of note attacked, defended, opened or left undefended",
    ),
    (
        "rnbqkbnr/ppp1p1pp/8/3pPp2/8/8/PPPP1PPP/RNBQKBNR w KQkq f6 0 3",
        "exf6",
        "3. exf6: takes the pawn on f5 en passant; leaves the pawns on f2 and f6 doubled; half-"
        "opens the e-file",
    ),
    (
        "rnbqkbnr/ppp2ppp/8/3pp3/8/4P3/PPPP1PPP/RNBQKBNR w KQkq - 0 3",
        "Bb5+",
        "3. Bb5+: gives check; leaves the pawn on g2 undefended",
    ),
    (
        "r1bqkbnr/ppp2ppp/2np4/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R w KQkq - 0 4",
        "Bb5",
        "4. Bb5: attacks the knight on c6; pins the knight on c6 to the king; leaves the pawn on g2"
        " undefended",
    ),
    (
        "rnbqk1nr/pppp1ppp/8/4p3/1b6/2N1P3/PPPP1PPP/R1BQKBNR w KQkq - 0 3",
        "d3",
        "3. d3: leaves the knight on c3 pinned by Black's bishop on b4; closes the f1-a6 "
        "diagonal for the bishop on f1",
    ),
    (
        "4k3/8/8/8/4N3/8/8/4RK2 w - - 0 30",
        "Nd6+",
        "30. Nd6+: gives double check from the rook on e1 and the knight on d6",
    ),
    (
        "4k3/4p3/8/8/4N3/8/8/4RK2 w - - 0 30",
        "Nd6+",
        "30. Nd6+: gives check; leaves the pawn on e7 pinned by the rook on e1; opens the e-file"
        " for the rook on e1 against the pawn on e7",
    ),
    (
        "3qk3/8/8/8/4N3/8/8/4RK2 w - - 0 30",
        "Nc5+",
        "30. Nc5+: gives discovered check from the rook on e1",
    ),
    (
        "4k3/8/8/8/4B3/8/8/4RK2 w - - 0 30",
        "Bc6+",
        "30. Bc6+: gives double check from the rook on e1 and the bishop on c6",
    ),
    (
        "r1bqk2r/pppp1ppp/2n2n2/2b1p3/2B1P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 6 5",
        "O-O",
        "5. O-O: castles kingside; leaves the pawn on f2 pinned by Black's bishop on c5; defends "
        "the pawn on g2",
    ),
    (
        "r3kb1r/ppp2ppp/8/8/8/8/PPP2PPP/R3KB1R b KQkq - 0 11",
        "O-O-O",
        "11... O-O-O: castles queenside; leaves the pawns on a7 and f7 undefended; defends "
        "the pawns on b7 and c7",
    ),
    (
        "6k1/P7/8/8/8/8/8/6K1 w - - 0 50",
        "a8=Q+",
        "50. a8=Q+: gives check; promotes to a queen; opens the a-file",
    ),
    (
        "5k2/5P2/5K2/8/8/8/4P3/8 w - - 0 60",
        "e4",
        "60. e4: stalemates",
    ),
    (
        "7k/8/6K1/8/8/5Q2/8/8 w - - 0 60",
        "Qf7",
        "60. Qf7: stalemates",
    ),
    (
        "6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 30",
        "Ra8#",
        "30. Ra8#: mates",
    ),
    (
        "4k3/8/8/8/8/8/8/4K2R w K - 0 1",
        "Kf1",
        "1. Kf1: gives up castling kingside",
    ),
    (
        "rnbqk2r/pppp1ppp/5n2/4p3/1b2P3/2N5/PPPPBPPP/R1BQK1NR b KQkq - 3 4",
        "Bxc3",
        "4... Bxc3: takes the knight on c3; pins the pawn on d2 to the king; could next gain 1 "
        "point on e4; defends the pawn on e5",
    ),
    (
        "rnbqkbnr/p1pppp1p/1p4p1/8/8/1P4P1/PBPPPPBP/RN1QK1NR w KQkq - 0 4",
        "Bxh8",
        "4. Bxh8: takes the rook on h8; ends Black's right to castle kingside",
    ),
    (
        "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2",
        "a3",
        "2. a3: a quiet move; nothing of note attacked, defended, opened or left undefended",
    ),
    (
        "4r1k1/5ppp/8/8/8/8/3B1PPP/6K1 w - - 0 20",
        "Bc3",
        "20. Bc3: a quiet move; nothing of note attacked, defended, opened or left undefended",
    ),
    (
        "4r1k1/5ppp/8/8/8/8/3B1PPP/4R1K1 w - - 0 20",
        "Be3",
        "20. Be3: leaves the rook on e1 undefended; closes the e-file to Black's rook on "
        "e8; closes the e-file for the rook on e1",
    ),
    (
        "6k1/5ppp/8/8/8/8/4NPPP/r5K1 w - - 0 20",
        "Nc1",
        "20. Nc1: answers the check from the rook on a1; lets Black gain 3 points on c1; walks "
        "into a pin by Black's rook on a1; and more",
    ),
    (
        "r2q1rk1/1b2bppp/p1np1n2/1p2p3/4P3/1BN1BN1P/PP3PP1/R2Q1RK1 w - - 0 13",
        "Bd5",
        "13. Bd5: attacks the knight on c6; closes the d-file for the queen on d1",
    ),
    (
        "4k3/pp3ppp/8/3p4/8/8/PP3PPP/3RK3 b - - 0 20",
        "d4",
        "20... d4: a quiet move; nothing of note attacked, defended, opened or left undefended",
    ),
    (
        "4k3/1p6/8/P1p5/1P6/8/8/4K3 w - - 0 40",
        "bxc5",
        "40. bxc5: takes the pawn on c5; leaves the pawn on a5 undefended; brings the pawn "
        "out of attack; leaves the pawns on a5, b7 and c5 isolated; and more",
    ),
    (
        "4k3/8/4n3/8/1b6/2N5/3P4/4K3 w - - 0 20",
        "d3",
        "20. d3: lets Black gain 3 points on c3; leaves the knight on c3 pinned by Black's "
        "bishop on b4",
    ),
    (
        "4k3/4r3/8/8/1b2B3/2N5/8/4K3 w - - 0 20",
        "Kf1",
        "20. Kf1: leaves the knight on c3 to be taken; parries the attack on the bishop on e4; "
        "frees the knight on c3 from the pin by Black's bishop on b4; and more",
    ),
    (
        "2r3k1/8/8/2n5/8/2P5/2R5/6K1 w - - 0 20",
        "c4",
        "20. c4: a quiet move; nothing of note attacked, defended, opened or left undefended",
    ),
    (
        "r1bqkb1r/pppp1ppp/2n2n2/4p3/2B1P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 4 4",
        "Ng5",
        "4. Ng5: attacks the undefended pawn on f7; defends the pawn on e4",
    ),
    (
        "r1bqkb1r/pppp1ppp/2n2n2/4p1N1/2B1P3/8/PPPP1PPP/RNBQK2R b KQkq - 5 4",
        "d5",
        "4... d5: attacks the undefended bishop on c4 and the pawn on e4; opens the h3-c8 diagonal for "
        "the bishop on c8; could next gain 1 point on e4; and more",
    ),
    (
        "rnbqkb1r/pp3ppp/4pn2/2pp4/2PP4/2N2N2/PP2PPPP/R1BQKB1R w KQkq - 0 5",
        "Bg5",
        "5. Bg5: attacks the knight on f6; leaves the pawn on b2 undefended",
    ),
    (
        "r3k3/8/5q2/8/2N5/8/8/3K2R1 w - - 0 14",
        "Nb6",
        "14. Nb6: attacks the undefended rook on a8; lets Black gain 3 points on b6",
    ),
    (
        "3r2k1/5ppp/8/8/8/8/3R1PPP/4K3 w - - 0 20",
        "Rd5",
        "20. Rd5: lets Black gain 5 points on d5; closes the d-file to Black's rook on d8",
    ),
    (
        "r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R w KQkq - 2 3",
        "Bc4",
        "3. Bc4: leaves the pawn on g2 undefended",
    ),
]


@pytest.mark.parametrize(("fen", "san", "line"), SENTENCES)
def test_the_line(fen: str, san: str, line: str) -> None:
    assert played(fen, san).words == line


def test_the_sentences_tell_the_line_and_then_the_rest() -> None:
    found = played("r1b2rk1/ppp1qppp/2n2b2/8/4P3/2N2N2/PP2BPPP/2RQ1RK1 w - - 0 14", "Nd5")
    assert found.paragraphs == (
        "14. Nd5 attacks the queen on e7 and the bishop on f6, and lets Black gain 1 point on b2 "
        "or 1 point on e4.",
        "It also opens the c-file for the rook on c1 against the knight on c6, leaves the pawn on "
        "a2 undefended, opens the a1-h8 diagonal to Black's bishop on f6 against the pawn on "
        "b2, closes the d-file for the queen on d1, attacks the pawn on c7, which is defended, and no "
        "longer defends the queen on d1 and the bishop on e2.",
    )


def test_a_quiet_move_says_so_honestly() -> None:
    found = played(chess.STARTING_FEN, "a3")
    assert (
        found.words
        == "1. a3: a quiet move; nothing of note attacked, defended, opened or left undefended"
    )
    assert found.paragraphs == (
        "1. a3 is a quiet move: it attacks, defends and opens nothing of note, and leaves nothing undefended.",
    )


def test_of_king_and_rook_one_takes_over_what_the_other_gives_up() -> None:
    found = played("r1bqk2r/pppp1ppp/2n2n2/2b1p3/2B1P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 6 5", "O-O")
    assert "the queen on d1" not in " ".join(found.paragraphs)


def test_a_pin_whose_piece_was_taken_is_told_by_that_piece() -> None:
    found = played("4k3/3n4/8/1B6/8/8/8/4K2R b - - 0 20", "Ke7")
    assert "frees the knight on d7 from the pin by White's bishop on b5" in found.words
    taken = played("4k3/2pn4/2B5/8/8/8/8/4K2R b - - 0 20", "Ke7")
    assert "White's bishop on c6" in taken.words


def test_lines_keep_within_their_length_and_say_when_there_is_more() -> None:
    cut = 0
    for board in random_boards(scaled(120), seed=12):
        for move in list(board.legal_moves)[:3]:
            found = changes(board, move)
            assert len(found.words) <= LINE_LENGTH or found.words.count(";") <= 1
            told = found.words.split(": ", 1)[1].removesuffix(AND_MORE).split("; ")
            phrases = list(telling_phrases(found))
            if phrases:
                assert told == phrases[: len(told)]
                assert found.words.endswith(AND_MORE) == (len(told) < len(phrases))
                cut += len(told) < len(phrases)
    assert cut > scaled(5)


def test_nothing_is_left_out_of_the_paragraphs() -> None:
    for board in random_boards(scaled(100), seed=13):
        for move in list(board.legal_moves)[:3]:
            found = changes(board, move)
            text = " ".join(found.paragraphs)
            for phrase in (*telling_phrases(found), *minor_phrases(found)):
                assert phrase in text


def test_after_mate_nothing_else_matters() -> None:
    # 1. f3 e5 2. g4: the queen's mate leaves the bishop on c8 undefended.
    board = chess.Board()
    for text in ("f3", "e5", "g4"):
        board.push_san(text)
    found = changes(board, board.parse_san("Qh4#"))
    assert found.left_undefended
    assert found.words == "2... Qh4#: mates"
    assert found.paragraphs == ("2... Qh4# mates.",)
