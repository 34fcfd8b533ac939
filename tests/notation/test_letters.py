"""Piece letters of other languages, by the table of the PGN standard, section 17."""

import re

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.errors import IllegalMove, MalformedMove
from chessnb.notation import read_line, read_move, write_line, write_move
from chessnb.notation.letters import _OWN_NAMES, LETTERS, UnknownLanguage, in_language, letters_of

# The table as it stands there: pawn, knight, bishop, rook, queen, king.
TABLE = """
Czech        P J S V D K
Danish       B S L T D K
Dutch        O P L T D K
English      P N B R Q K
Estonian     P R O V L K
Finnish      P R L T D K
French       P C F T D R
German       B S L T D K
Hungarian    G H F B V K
Icelandic    P R B H D K
Italian      P C A T D R
Norwegian    B S L T D K
Polish       P S G W H K
Portuguese   P C B T D R
Romanian     P C N T D R
Spanish      P C A T D R
Swedish      B S L T D K
"""


def test_the_letters_are_the_standard_s():
    rows = [line.split() for line in TABLE.strip().splitlines()]
    assert {row[0].lower(): "".join(row[1:]) for row in rows} == dict(LETTERS)
    assert len(LETTERS) == 17


def test_no_language_uses_a_letter_twice():
    assert all(len(set(letters)) == len(chess.PIECE_TYPES) for letters in LETTERS.values())


@pytest.fixture(scope="module")
def boards():
    # Without their histories, which no move needs, they are copied faster.
    return [board.copy(stack=False) for board in random_boards(scaled(500), seed=81)]


@pytest.mark.parametrize("language", LETTERS)
def test_every_legal_move_reads_back(language, boards):
    for board in boards:
        for move in board.legal_moves:
            san = board.san(move)
            for form in ("san", "long"):
                text = write_move(board, move, form=form, language=language)
                assert read_move(board, text, language=language) == move, (text, san, board.fen())
            # UCI has no language, though its letters mean other pieces in some.
            assert read_move(board, move.uci(), language=language) == move


@pytest.mark.parametrize("language", LETTERS)
def test_only_the_letters_differ_from_the_reference_library_s(language, boards):
    """Letter by letter: the position in the alphabet of the language, else the same sign."""
    english = LETTERS["english"]
    for board in boards[:60]:
        for move in board.legal_moves:
            ours = write_move(board, move, language=language)
            for sign, other in zip(board.san(move), ours, strict=True):
                where = english.find(sign)
                assert other == (sign if where < 0 else LETTERS[language][where])


# (language, position, text, move): letters that mean another piece in English, or are a file.
CLASHES = [
    ("german", "start", "Be4", "e2e4"),  # B is the Bauer, a pawn
    ("danish", "start", "Bb4", "b2b4"),
    ("dutch", "start", "Oe4", "e2e4"),  # O also begins castling
    ("dutch", "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "O-O", "e1g1"),
    ("hungarian", "4k3/8/8/8/8/8/8/B2RK3 w - - 0 1", "Bd5", "d1d5"),  # B is the rook
    ("hungarian", "4k3/8/8/8/8/8/8/B2RK3 w - - 0 1", "Fd4", "a1d4"),
    ("icelandic", "4k3/8/8/8/8/8/8/N2RK3 w - - 0 1", "Rb3", "a1b3"),  # R is the knight
    ("romanian", "4k3/8/8/8/8/8/8/B2NK3 w - - 0 1", "Ne5", "a1e5"),  # N is the bishop
    ("french", "4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "Re2", "e1e2"),  # R is the king
    # a small letter is a file first, a piece only where no pawn's move fits
    ("german", "4k3/8/8/8/2p5/3P4/2Q5/4K3 w - - 0 1", "dxc4", "d3c4"),
    ("german", "4k3/8/8/2p5/8/3P4/2Q5/4K3 w - - 0 1", "dxc5", "c2c5"),
    ("german", "start", "sf3", "g1f3"),
    ("french", "4k3/8/8/3p4/2P5/5N2/8/4K3 w - - 0 1", "cd5", "c4d5"),
    ("french", "4k3/8/8/8/8/5N2/8/4K3 w - - 0 1", "cd4", "f3d4"),
    ("danish", "4k3/8/8/8/2p5/1P6/4B3/4K3 w - - 0 1", "bxc4", "b3c4"),
    ("hungarian", "4k3/8/8/8/8/8/8/3NK3 w - - 0 1", "d1c3", "d1c3"),
    # promotions
    ("german", "7k/4P3/8/8/8/8/8/4K3 w - - 0 1", "e8=D", "e7e8q"),
    ("german", "7k/4P3/8/8/8/8/8/4K3 w - - 0 1", "e8d", "e7e8q"),
    ("hungarian", "7k/4P3/8/8/8/8/8/4K3 w - - 0 1", "e8B", "e7e8r"),
    ("hungarian", "7k/4P3/8/8/8/8/8/4K3 w - - 0 1", "e7e8b", "e7e8b"),  # UCI
    # figurines are for everyone
    ("german", "start", "♘f3", "g1f3"),
    ("spanish", "7k/4P3/8/8/8/8/8/4K3 w - - 0 1", "e8=♕", "e7e8q"),
    # what is said is English in every language
    ("german", "start", "knight to f3", "g1f3"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "position", "text", "uci"), CLASHES)
def test_letters_that_clash(language, position, text, uci):
    assert read_move(position, text, language=language).uci() == uci


# English letters, which in the language are no letter of a piece, or another piece's.
@pytest.mark.parametrize(
    ("language", "text", "kind", "words"),
    [
        ("german", "Nf3", MalformedMove, "N stands for no piece: the letters in German are S knight"),
        ("english", "Sf3", MalformedMove, "S stands for no piece: the letters in English are N knight"),
        ("german", "Be5", IllegalMove, "the pawn on e4"),
        ("french", "Rf3", IllegalMove, "king on e1"),
        ("german", "hello", MalformedMove, "write it like Sf3, exd5, O-O or e8=D"),
        ("german", "S", MalformedMove, "write it like Sf3"),
    ],
)  # fmt: skip
def test_english_letters_are_not_understood_elsewhere(language, text, kind, words):
    board = chess.Board("rnbqkbnr/pppp1ppp/8/4p3/4P3/2P5/PP1P1PPP/RNBQKBNR w KQkq - 0 3")
    with pytest.raises(kind) as caught:
        read_move(board, text, language=language)
    assert words in caught.value.reason


def test_a_reason_speaks_in_the_letters_of_the_language():
    with pytest.raises(IllegalMove) as caught:
        read_move("start", "Sd4", language="german")
    assert not re.search(r"\bN[a-h]", caught.value.reason)
    with pytest.raises(IllegalMove) as caught:
        read_move("start", "knight to d4", language="german")
    assert not re.search(r"\bN[a-h]", caught.value.reason)
    board = "4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1"
    with pytest.raises(ValueError, match=r"Sbd2 or Sfd2"):
        read_move(board, "Sd2", language="german")


def test_only_moves_change_in_a_sentence():
    sentence = "the king on e1 may not: Kd1, Qxe7+, exd8=Q, Ng1-f3, O-O; say Q or N"
    assert in_language(sentence, "french") == (
        "the king on e1 may not: Rd1, Dxe7+, exd8=D, Cg1-f3, O-O; say D or C"
    )
    assert in_language("Black's Queen stands, King's side, R's", "german") == (
        "Black's Queen stands, King's side, R's"
    )


def test_lines_are_written_in_a_language():
    line = read_line("start", "1. Nf3 e5 2. Nxe5")
    assert write_line("start", line, language="polish") == "1. Sf3 e5 2. Sxe5"
    assert write_line("start", line, form="figurine", language="polish") == "1. ♘f3 e5 2. ♘xe5"


def test_an_unknown_language_is_told_with_the_nearest():
    with pytest.raises(UnknownLanguage, match="did you mean 'german'") as caught:
        letters_of("Germn")
    assert caught.value.given == "Germn"
    for form in ("san", "uci", "figurine", "spoken"):
        with pytest.raises(UnknownLanguage, match="The languages are czech, danish"):
            write_move("start", chess.Move.from_uci("e2e4"), form=form, language="klingon")
    with pytest.raises(UnknownLanguage):
        read_move("start", "e4", language="")


@pytest.mark.parametrize(
    ("own", "english"),
    [
        ("deutsch", "german"),
        ("Deutsch", "german"),
        ("français", "french"),
        ("FRANÇAIS", "french"),
        ("francais", "french"),
        ("español", "spanish"),
        ("português", "portuguese"),
        ("română", "romanian"),
        ("čeština", "czech"),
        ("nederlands", "dutch"),
    ],
)
def test_a_language_may_be_named_as_it_names_itself(own, english):
    assert letters_of(own) == LETTERS[english]


def test_every_language_has_its_own_name():
    assert set(_OWN_NAMES.values()) | {"english"} == set(LETTERS)
    assert read_move("start", "Sf3", language="Deutsch") == chess.Move.from_uci("g1f3")


def test_a_misspelt_own_name_leads_to_the_right_language():
    with pytest.raises(UnknownLanguage, match=r"did you mean 'german'\? The languages are czech"):
        letters_of("deutch")
