"""What a claim says is made from its record, for every kind and whatever became of it."""

from functools import partial

import chess
import pytest
from boards import random_boards

from chessnb import claims
from chessnb.claims.sentences import sentence_of
from chessnb.errors import ChessnbError
from chessnb.findings.record import RecordError, read_record

SENTENCES = [
    ("20... Nf3+ | mates | 6 | proved", "Black mates in 6 with 20... Nf3+"),
    ("21. | mates | black | 2 | wrong", "Black mates in 2"),
    ("21. | fastest mate | white | 3 | searched", "White's fastest mate is in 3"),
    ("14. Nd5 | wins | 5 points | within 1 | proved", "White wins at least 5 within 1 move with 14. Nd5"),
    ("14... | wins | white | 3 points | within 4 | not proved", "White wins at least 3 within 4 moves"),
    ("14. | mates or wins | white | mate 2 | 5 points | within 3 | proved",
     "White mates in 2 or wins at least 5 within 3 moves"),
    ("30... Qg1+ | perpetual | proved", "Black has perpetual check with 30... Qg1+"),
    ("30. | forces stalemate | white | within 2 | proved", "White forces stalemate within 2 moves"),
    ("20. | forced | black | 20. Qh7+ Kf8 21. Qh8+ | within 3 | wrong",
     "20... Kf8 is forced: nothing else is legal, or with anything else Black is mated within 3 moves"),
    ("20. | forced | black | 20. Qh7+ Kf8 21. Qh8+ Ke7 | within 1 | not proved",
     "from 20. Qh7+ to 21... Ke7 every move of Black is forced: nothing else is legal, or with"
     " anything else Black is mated within 1 move"),
    ("20. | forced | black | 20. Qh7+ Kf8 21. Qh8# | mate 2 | others mated 1 | proved",
     "20... Kf8 is forced: with anything else Black is mated no later; White mates in 2"),
    ("20... | forced | white | 20... Qh2+ 21. Kf1 Qh1+ 22. Ke2 | within 2 | others mated 2 | searched",
     "from 20... Qh2+ to 22. Ke2 both moves of White are forced: with anything else in place of"
     " any of them White is mated within 2 moves"),
    ("1. | forced | black | " + " ".join(f"{n}. Ra{n % 2 + 1} Kh{n % 2 + 7}" for n in range(1, 13))
     + " | within 2 | only moves 9 | others mated 3 | searched",
     "from 1. Ra2 to 12... Kh7 all 12 moves of Black are forced: nine are the only legal ones, and"
     " with anything else in place of the other three Black is mated within 2 moves"),
    ("20... | threatens | Qh7# | mate 1 | proved", "White threatens Qh7# (mate)"),
    ("20. | threatens | Rxe1 | 5 points | within 1 | proved",
     "Black threatens Rxe1 (a gain of at least 5 within 1 move)"),
    ('20... | threatens | "Qh7" | wrong', "White threatens Qh7"),
    ("20... h6 | parries | mate 2 | searched", "20... h6 parries the threat of mate in 2"),
    ("20... h6 | parries | Re8# | mate 1 | searched", "20... h6 parries Re8# (mate)"),
    ("20... h6 | parries | wrong", "20... h6 parries the threat"),
    ("20... Rh6 | only defence | mate 3 | searched", "20... Rh6 is the only defence against mate in 3"),
    ("20... Rh6 | only defence | mate 3 | 2 points | within 1 | wrong",
     "20... Rh6 is the only defence against mate in 3 or the loss of 2 within 1 move"),
    ("20. | must check | mate 3 | searched",
     "White must give check: after anything else Black mates in 3"),
    ("20... | must check | mate 1 | wrong",
     "Black must give check: after anything else White mates at once"),
    ("20. Nxd6 | loses | 4 points | within 4 | proved", "20. Nxd6 loses at least 4"),
    ("20. Nxd6 | allows mate | 5 | proved", "20. Nxd6 allows mate in 5"),
    ("40... | zugzwang | mate 3 | 1 points | within 3 | searched", "Black is in zugzwang"),
    ("21. | attacked | Pd5 | attackers 2 | defenders 1 | rules",
     "the pawn on d5 is attacked by 2, defended by 1"),
    ("21. | attacked | d4 | white | wrong", "d4 is attacked"),
    ("21. | defended | Nc6 | defenders 1 | rules", "the knight on c6 is defended by 1"),
    ("21. | pinned | Nc6 | to Ke8 | by Bb5 | rules",
     "the knight on c6 is pinned to the king on e8 by the bishop on b5"),
    ("21. | pinned | c6 | wrong", "c6 is pinned"),
    ("21. | trapped | Ba2 | within 3 | proved", "the bishop on a2 is trapped"),
    ("21. | pawn | Pd5 | passed | rules", "the pawn on d5 is passed"),
    ("1. d5 | shows | absolute pin | proved", "1. d5 shows an absolute pin"),
    ("1. Bxc6 | shows | removing the defender | proved", "1. Bxc6 shows removing the defender"),
    ("1. d5 | shows | pin | wrong", "1. d5 shows a pin"),
    ("1. Nf3 | legal | rules", "1. Nf3 is legal"),
    ('1. | legal | "Nf4" | wrong', "Nf4 is legal"),
    ('1. | illegal | "Nf4" | rules', "Nf4 is not legal"),
    ('24. | refuted | "mates \\| white \\| 3" | searched', "White has no mate in 3"),
    (
        '12. | refuted | "wins \\| black \\| 1 points \\| within 1" | searched',
        "Black wins nothing within 1 move",
    ),
    (
        '12. | refuted | "wins \\| white \\| 3 points \\| within 2" | searched',
        "it is wrong that White wins at least 3 within 2 moves",
    ),
    ("24. Kh3 | only legal move | rules", "24. Kh3 is the only legal move"),
    ("9. | can castle | black | queenside | wrong", "Black can castle queenside"),
    ("9. | cannot castle | white | kingside | rules", "White cannot castle kingside"),
    ("9. | cannot castle | white | kingside | not now | rules",
     "White cannot castle kingside now, but still has the right to"),
    ("9. | cannot castle | black | queenside | no more | wrong",
     "Black has lost the right to castle queenside for good"),
    ("30... | checkmate | rules", "Black is checkmated"),
    ("60. | drawn | stalemate | dead position | rules",
     "the game is drawn: stalemate; dead position, neither side has the material to mate"),
    ("60. | drawn | fifty moves | wrong", "the game is drawn by fifty moves"),
    ("60... | may claim draw | repeating Ng8 Rd8 | rules",
     "Black may claim a draw: by writing down Ng8 or Rd8, which repeats a position the third time"),
    ("1. | material | even | wrong", "material is even"),
    ('1. | material | "White is up a pawn" | wrong', "material: White is up a pawn"),
    ("1. | material | even | bishop pair white | rules", "material: level"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "sentence"), SENTENCES)
def test_a_sentence(line, sentence):
    assert sentence_of(read_record(line), chess.Board()) == sentence


def test_every_kind_is_said():
    from chessnb.claims.sentences import _SENTENCES

    assert {read_record(line).kind for line, _ in SENTENCES} == {*_SENTENCES, "material"}


SQUARES = ("e4", "d5", "a1", chess.H8)
MOVES = ("e4", "Nf3", "O-O", "Qxf7#", "e2e4", chess.Move.from_uci("g1f3"))

ASKED = [
    *((name, (square,), {}) for name in ("attacked", "defended", "pinned") for square in SQUARES),
    *(("pinned", (square,), {"to": to}) for square in SQUARES for to in ("d8", "queen", "e4")),
    *(("attacked", (square,), {"by": 0, "defended_by": 3, "side": "Black"}) for square in SQUARES),
    *(("pawn", (square,), {"is_": "passed"}) for square in SQUARES),
    *((name, (move,), {}) for name in ("legal", "illegal", "only_legal_reply") for move in MOVES),
    *(("can_castle", (wing,), {"side": side}) for wing in ("kingside", "O-O-O") for side in ("w", "b")),
    *(("cannot_castle", (wing,), {}) for wing in ("short", "queenside")),
    *(("cannot_castle", ("short",), {"for_good": for_good}) for for_good in (True, False)),
    *(("drawn", (), {"rule": rule}) for rule in (None, "stalemate", "repetition", "fifty moves")),
    ("checkmate", (), {}),
    *(("material", (says,), {}) for says in ("even", "White is a pawn ahead", 'a "|" b')),
    *(("mates", (), {"within": 1, "side": side}) for side in (None, "White", "Black")),
    *(("threatens", (move,), {"mate": 1, "within": 1, "budget": 500}) for move in MOVES),
    *(("parries", (move,), {"mate": 1, "within": 1, "budget": 500}) for move in MOVES),
    *(("loses", (move,), {"mate": 1, "within": 1, "budget": 500}) for move in MOVES),
    *(("trapped", (square,), {"within": 1, "budget": 500}) for square in SQUARES),
    ("zugzwang", (), {"mate": 1, "within": 1, "budget": 500}),
    *(("forced", ([move],), {"mate": 1, "budget": 500}) for move in MOVES),
    ("must_check", (), {"mate": 1, "budget": 500}),
    ("wins_material", (), {"at_least": 1, "within": 1, "budget": 500}),
    ("mates_or_wins", (), {"mate": 1, "at_least": 1, "within": 1, "budget": 500}),
    ("perpetual", (), {"budget": 500}),
    ("forces_stalemate", (), {"within": 1, "budget": 500}),
]  # fmt: skip


def outcome(ask):
    """Return a claim, or the error that it raises instead."""
    try:
        return ask()
    except ChessnbError as error:
        return error


@pytest.mark.thorough
def test_whatever_is_claimed_has_a_record_that_reads_back_and_a_sentence():
    became: dict[str, int] = {}
    for board in random_boards(6, seed=21):
        for name, given, options in ASKED:
            found = outcome(partial(getattr(claims, name), board, *given, **options))
            assert not isinstance(found, RecordError), (name, given, options)
            if not hasattr(found, "record"):
                continue  # a move that cannot be read, or a claim without a meaning
            assert read_record(str(found)) == found.record
            assert sentence_of(found.record, board)
            if isinstance(found, Exception):
                assert found.__notes__ == [f"{found.shown[:-1]} [{board.fen()}]"]
            became[found.record.status] = became.get(found.record.status, 0) + 1
    assert {"wrong", "rules"} <= set(became)
    assert became["wrong"] > 100


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("mates", {"within": "soon"}),
        ("mates", {"within": 1.5}),
        ("fastest_mate", {"within": True}),
        ("wins_material", {"at_least": "a rook", "within": 2}),
        ("mates_or_wins", {"mate": None, "at_least": 1, "within": 2}),
        ("forces_stalemate", {"within": -1}),
        ("zugzwang", {"within": "3"}),
        ("attacked", {"square": "e4", "by": "three"}),
        ("defended", {"square": "e4", "by": 1.0}),
        ("trapped", {"square": "e4", "within": "now"}),
        ("only_defence", {"move": "e4", "against": "loss", "within": ()}),
        ("loses", {"move": "e4", "at_least": "much"}),
    ],
)
def test_what_is_no_number_is_told_by_its_name_and_not_as_a_record(name, options):
    with pytest.raises(ChessnbError) as caught:
        getattr(claims, name)("start", **options)
    assert not isinstance(caught.value, RecordError)
    assert "whole number" in str(caught.value) or "number of pieces" in str(caught.value)
