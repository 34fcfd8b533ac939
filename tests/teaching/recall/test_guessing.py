"""Guess the next move: judged by what the guess does, and not by whether the game has it."""

import pytest
from quizzes import OPERA, VIENNA

from chessnb import Lesson, recall
from chessnb.errors import IllegalMove, LessonError

TWO_MATES = Lesson.from_text('[FEN "k7/8/1K6/8/8/8/2Q5/6Q1 w - - 0 1"]\n\n1. Qc8#')
BLUNDER = Lesson.from_text(
    '[FEN "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"]\n\n1. Rb3 Ra1+ 2. Rb1 Rxb1#'
)


def test_a_move_that_does_as_much_is_as_good_as_the_games():
    told = recall.guess(TWO_MATES).answer("Qgg8#")
    assert (told.result, told.credit, told.is_the_games) == ("right", 1.0, False)
    assert told.sentence == (
        "As good as the lesson's move: checkmate. In the game White played Qc8#."
    )


def test_the_games_own_mistake_is_a_mistake():
    told = recall.guess(BLUNDER, side="White").answer("Rb3")
    assert (told.result, told.credit, told.is_the_games) == ("wrong", 0.0, True)
    assert told.sentence == "After Rb3 White is mated in 2. That is the game’s move."


def test_a_slower_mate_is_right_in_part():
    told = recall.guess(TWO_MATES).answer("Qa2+")
    assert (told.result, told.credit) == ("part", 0.5)


def test_what_is_not_proved_is_not_counted():
    game = recall.guess(OPERA, side="White")
    told = game.answer("d4")
    assert (told.result, told.credit) == ("not proved", None)
    assert "Nobody has proved that it is good." in told.sentence
    assert told.sentence.endswith("In the game White played e4.")
    assert game.words == "1 guess: 0 of 0 that could be judged, 0 as in the game."


def test_the_game_goes_on_with_its_own_move_whatever_was_guessed():
    game = recall.guess(VIENNA.before("9. Qd8+"), side="White")
    prompts, results = [], []
    for move in ("Qe3", "Bg5+", "Bd8#"):
        prompts.append(game.prompt)
        results.append(game.answer(move).result)
    assert prompts == [
        "Black has played 8... Nxe4. What does White play?",
        "Black has played 9... Kxd8. What does White play?",
        "Black has played 10... Kc7. What does White play?",
    ]
    assert results[1:] == ["right", "right"]
    assert game.stop is None
    assert game.words.startswith("3 guesses: ")
    with pytest.raises(LessonError, match="the game has ended"):
        game.answer("Kb1")


def test_what_cannot_be_played_is_no_guess():
    game = recall.guess(OPERA)
    with pytest.raises(IllegalMove):
        game.answer("Ke2")
    assert game.guesses == []
