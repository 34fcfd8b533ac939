"""Every sentence of a tag agrees with the line beneath it: pieces, points, mate, and the end."""

import random
import re
from collections import Counter
from pathlib import Path

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb import Lesson, motifs
from chessnb.motifs.told_gain import with_a_queen
from chessnb.notation import read_line
from chessnb.proof import Gain, Mate
from motifs.gold_rest import NEW_YORK_1956, OPERA, TORRE_LASKER

GAME = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
WORTH = {"pawn": 1, "knight": 3, "bishop": 3, "rook": 5, "queen": 9}
MANY = {"a": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8}
TOLD = re.compile(
    r"^It (?P<how>wins|mates|leads to mate, or wins)(?: in (?P<moves>\d+))?"
    r"(?: (?P<least>at least )?(?P<points>\d+) points?(?P<more> beyond what could be taken at "
    r"once)?(?: \((?P<pieces>[^),]*(?:, [^),]*)*?)"
    r"(?:, counting (?P<made>[^)]*))?\))?)?: (?P<line>.+)\.$"
)


def some_tags():
    """Tag any captures and checks of random positions, and the moves of some games."""
    chance = random.Random(56)
    for board in random_boards(scaled(260, least=40), seed=56):
        moves = [
            one for one in board.legal_moves if board.is_capture(one) or board.gives_check(one)
        ]
        for move in chance.sample(moves, min(2, len(moves))):
            yield from motifs.tag(board, move, budget=20_000)
        yield from motifs.tags(board, budget=20_000)
    for led in (NEW_YORK_1956, OPERA, TORRE_LASKER):
        board, sans = chess.Board(), led.split()
        for number, san in enumerate(sans):
            move = board.parse_san(san)
            if number > 10:
                yield from motifs.tag(board, move, line=" ".join(sans[number + 1 :]), budget=20_000)
            board.push(move)
    for moment in Lesson.read(GAME).moments():
        if moment.move:
            yield from motifs.tag(moment, budget=20_000)


@pytest.fixture(scope="module")
def tags():
    return [tag for tag in some_tags() if tag.sound and isinstance(tag.proof.goal, Gain | Mate)]


def told(tag):
    found = TOLD.match(tag.paragraphs[1])
    assert found is not None, tag.paragraphs
    return found


def played(tag):
    board = tag.proof.board
    for move in read_line(board, told(tag)["line"]):
        board.push(move)
    return board


def count(board, side):
    return sum(
        worth * (len(board.pieces(kind, side)) - len(board.pieces(kind, not side)))
        for kind, worth in zip(range(1, 6), (1, 3, 3, 5, 9), strict=True)
    )


def worth_of(words):
    """Return the points of "rook and two pawns" or "a queen"; a new queen counts less its pawn."""
    total = 0
    for part in re.split(r", | and ", words):
        many, new, name = re.fullmatch(r"(?:(\w+) )??(new )?(\w+?)s?", part).groups()
        total += MANY.get(many or "a", 0) * (WORTH[name] - bool(new))
    return total


def test_there_are_some_hundred(tags):
    assert len(tags) > scaled(150)
    kinds = Counter(told(tag)["how"] for tag in tags)
    assert kinds["wins"] > scaled(100)
    assert kinds["mates"] >= scaled(8)
    assert sum(bool(told(tag)["pieces"]) for tag in tags) > kinds["wins"] * 0.7


def test_points_are_those_of_the_pieces_and_of_the_line(tags):
    for tag in tags:
        found = told(tag)
        if not found["pieces"]:
            continue
        start = tag.proof.board
        if found["made"]:
            start = chess.Board(tag.proof.goal.measure.fen)
            read_line(start, found["made"])
        won = count(played(tag), tag.side) - count(start, tag.side)
        assert won == int(found["points"]), tag.paragraphs
        gained, _, given = found["pieces"].partition(" for ")
        extra = [part for part in re.split(r", | and ", given) if " new " in f" {part}"]
        lost = [part for part in re.split(r", | and ", given) if part and part not in extra]
        points = worth_of(gained) + sum(map(worth_of, extra)) - sum(map(worth_of, lost))
        assert points == won, tag.paragraphs


def test_without_pieces_the_line_wins_no_less(tags):
    for tag in tags:
        found = told(tag)
        if found["least"] and found["how"] == "wins":
            assert not found["pieces"]
            assert not played(tag).is_checkmate()


def test_what_is_announced_as_mate_mates_and_nothing_else_does(tags):
    for tag in tags:
        found, board = told(tag), played(tag)
        assert board.is_checkmate() == (found["how"] != "wins"), tag.paragraphs
        if found["how"] == "mates":
            moves = (len(read_line(tag.proof.board, found["line"])) + 1) // 2
            assert moves <= int(found["moves"] or 1)


def test_the_bracket_and_the_paragraph_say_the_same(tags):
    for tag in tags:
        assert tag.words.endswith(f"({tag.gain})")
        found = told(tag)
        assert (found["points"] or "") in tag.gain
        assert ("mate" in tag.gain) == (found["how"] != "wins")


def test_no_line_ends_while_what_was_won_hangs(tags):
    ends = 0
    for tag in tags:
        found, board = told(tag), played(tag)
        if not found["pieces"] or board.turn == tag.side:
            continue
        line, last = read_line(tag.proof.board, found["line"]), board.peek().to_square
        for take in [move for move in board.legal_moves if move.to_square == last]:
            # It is taken back, or the proof shows what taking it costs elsewhere.
            assert takes_back(board, take) or tag.proof.answer((*line, take)), tag.paragraphs
            ends += 1
    assert ends > scaled(5)


def takes_back(board, move):
    after = board.copy()
    after.push(move)
    return any(answer.to_square == move.to_square for answer in after.legal_moves)


def test_a_line_promotes_to_a_queen():
    for fen, move, wanted in (
        ("4k3/8/8/8/8/8/K6p/8 b - - 0 1", "h2h1b", "h2h1q"),
        ("8/8/8/8/8/8/K1k4p/8 b - - 0 1", "h2h1n", "h2h1q"),
        ("7k/5P2/6K1/8/8/8/8/8 w - - 0 1", "f7f8r", "f7f8q"),  # a queen mates as well
        ("8/5P1k/5K2/8/8/8/8/8 w - - 0 1", "f7f8r", "f7f8r"),  # a queen would stalemate
        ("5n1k/4P1p1/6Np/8/8/8/8/4K3 w - - 0 1", "e7f8n", "e7f8q"),
    ):
        board = chess.Board(fen)
        (made,) = with_a_queen(board, (chess.Move.from_uci(move),), board.turn)
        assert made.uci() == wanted


def test_a_pawn_that_runs_becomes_a_queen():
    fen = "8/5k2/p4p2/1p5p/6r1/PP2P2p/4K3/2B5 b - - 0 43"
    tags = motifs.tag(fen, "h2", geometric=True)
    assert not any("=B" in text or "=N" in text for tag in tags for text in tag.paragraphs)


def test_a_queen_and_a_pawn_are_ten_points():
    fen = "2r4k/1p1b2rB/4p3/2Pp2Q1/8/p7/5PP1/4R1K1 b - - 0 1"
    (tag,) = motifs.tag(fen, "Rxg5")
    assert tag.gain == "10 points (a queen and a pawn)"


def test_what_is_won_back_is_counted():
    (tag,) = motifs.tag("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")
    assert tag.gain == "2 points (rook for knight)"
    assert tag.paragraphs[1].endswith("4. h4 Kxa8.")
