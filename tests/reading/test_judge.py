"""What is counted as found was said, and what was not said is not counted."""

import pytest

from chessnb.findings.record import read_record
from chessnb.notebooks import code_cell, markdown_cell
from reading.judge import judged
from reading.matching import makes
from reading.points import Point, all_points
from reading.statements import Statement, plies_of_record, statements


def said(line):
    record = read_record(line)
    return Statement(plies=plies_of_record(record), place=record.place, text=line, record=record)


def told(text, ply):
    return Statement(plies=(ply,), place="", text=text)


def the_point(game, place, kind):
    (point,) = (one for one in all_points()[game] if one.place == place and one.kind == kind)
    return point


MAKES = [
    (
        "byrne_fischer",
        "16... Rfe8+",
        "phase",
        "17. | cannot castle | white | kingside | no more | rules",
    ),
    ("byrne_fischer", "25... Nxd1", "phase", "26. | material | white Q | black RBBP | rules"),
    ("morphy_allies", "16. Qb8+", "sacrifice", "16. Qb8+ | tactic | deflection | mate 2 | proved"),
    ("reti_tartakower", "10... Kc7", "mate", "10. Bg5+ | replies | 2 | mated 1: Kc7 Ke8 | proved"),
    ("edlasker_thomas", "11. Qxh7+", "mate", "11. Qxh7+ | mates | 7 | proved"),
    ("byrne_fischer", "18... Bxc4+", "tactic", "19... Ne2+ | tactic | windmill | by Ne2 | rules"),
    ("byrne_fischer", "36... Ng3+", "mate", "36... Ng3+ | mates | 5 | proved"),
    ("byrne_fischer", "18. Bxb6", "mistake", "18. Bxb6 | loses | 3 points | within 3 | proved"),
    ("byrne_fischer", "18. Bxb6", "offer_refused", "18. Bxe6 Qb5+ | mates | 4 | proved"),
    ("edlasker_thomas", "12... Kh6", "only_move", "12... Kh6 | only defence | mate 1 | proved"),
    ("edlasker_thomas", "16. Be2+", "missed_win", "16. | mates | white | 2 | proved"),
    ("steinitz_bardeleben", "14. Re1", "plan", "14. Re1 | changes | pins Ne7 | rules"),
    ("reti_tartakower", "8... Nxe4", "mistake", "8... Nxe4 | allows mate | 3 | proved"),
    (
        "rotlewi_rubinstein",
        "21... Qh4",
        "threat",
        "21... Qh4 | threatens | Qxh2# | mate 1 | proved",
    ),
    (
        "capablanca_tartakower",
        "34... gxf5",
        "structure",
        "34... gxf5 | pawns | white passed g5 | rules",
    ),
    ("saemisch_nimzowitsch", "25... h6", "tactic", "25... h6 | tactic | zugzwang | black | rules"),
]
SAYS_LESS = [
    ("byrne_fischer", "16... Rfe8+", "phase", "17. | material | white B | rules"),
    ("morphy_allies", "16. Qb8+", "sacrifice", "16. Qb8+ | mates | 2 | proved"),
    ("reti_tartakower", "10... Kc7", "mate", "11. Bd8# | checkmate | rules"),
    ("edlasker_thomas", "11. Qxh7+", "mate", "12. Nxf6+ | mates | 6 | proved"),
    ("byrne_fischer", "18... Bxc4+", "tactic", "19... Ne2+ | tactic | fork | by Ne2 | rules"),
    ("byrne_fischer", "18... Bxc4+", "tactic", "24... Ra4 | tactic | windmill | by Ra4 | rules"),
    ("byrne_fischer", "36... Ng3+", "mate", "36... Ng3+ | mates | 6 | proved"),
    ("byrne_fischer", "17... Be6", "sacrifice", "17... Be6 | changes | attacks Bc4 | rules"),
    ("byrne_fischer", "18. Bxb6", "mistake", "18. | wins | white | 3 points | within 3 | proved"),
    ("byrne_fischer", "18. Bxb6", "offer_refused", "18. Bxb6 | mates | 4 | proved"),
    ("edlasker_thomas", "12... Kh6", "only_move", "12... Kh6 | changes | rules"),
    ("edlasker_thomas", "16. Be2+", "missed_win", "16. Be2+ | mates | 3 | proved"),
    ("steinitz_bardeleben", "14. Re1", "plan", "14. Re1 | changes | pins Qd7 | rules"),
    ("reti_tartakower", "8... Nxe4", "mistake", "8... Nxe4 | loses | 3 points | within 3 | proved"),
    ("rotlewi_rubinstein", "21... Qh4", "threat", "21... Qh4 | threatens | Qxg3 | mate 2 | proved"),
    (
        "capablanca_tartakower",
        "34... gxf5",
        "structure",
        "34... gxf5 | pawns | white isolated d4 | rules",
    ),
    ("saemisch_nimzowitsch", "25... h6", "tactic", "25... h6 | tactic | none | rules"),
]


@pytest.mark.parametrize(("game", "place", "kind", "line"), MAKES)
def test_a_record_that_says_it_makes_the_point(game, place, kind, line):
    assert makes(said(line), the_point(game, place, kind))


@pytest.mark.parametrize(("game", "place", "kind", "line"), SAYS_LESS)
def test_a_record_that_says_something_else_does_not(game, place, kind, line):
    assert not makes(said(line), the_point(game, place, kind))


@pytest.mark.parametrize(
    ("text", "ply", "found"),
    [
        ("White lets the pawn on c3 be taken: it is a sacrifice for the king's march.", 69, True),
        ("White lets the pawn on c3 be taken: it is a sacrifice for the king's march.", 66, False),
        ("A sacrifice.", 69, False),
        ("The pawn on c3 stands well.", 69, False),
    ],
)
def test_a_sentence_needs_the_place_a_word_of_the_kind_and_what_it_is_about(text, ply, found):
    point = the_point("capablanca_tartakower", "35. Kg3", "sacrifice")
    assert makes(told(text, ply), point) is found


def test_an_opening_is_found_by_its_name():
    point = the_point("torre_lasker", "3. Bg5", "opening")
    assert makes(told("This is the Torre Attack.", 5), point)
    assert not makes(told("This is a Queen's Pawn Game.", 5), point)


def test_what_is_said_of_the_same_moves_is_near():
    point = the_point("byrne_fischer", "17... Be6", "sacrifice")
    other = said("17... Be6 | changes | attacks Bc4 | rules")
    assert judged(point, [other]) == ("near", other)
    assert judged(point, [said("16. Bc5 | changes | rules")]) == ("missed", None)


def test_a_mistake_is_not_found_in_praise():
    point = Point(
        game="", first=1, last=1, kind="mistake", move="e4", what="", known="rules", better="d4"
    )
    assert makes(told("A mistake: d4 was better.", 1), point)
    assert not makes(told("With e4 White wins a rook by force.", 1), point)


def test_statements_are_records_and_sentences_with_their_places():
    page = code_cell("page", "m.changes()")
    page["outputs"] = [
        {
            "output_type": "display_data",
            "metadata": {},
            "data": {
                "text/plain": "19... Ne2+ | position | 8/8/8/8/8/8/8/8 w - - 0 1 | rules\n"
                "20. | material | even | rules"
            },
        }
    ]
    cells = [
        markdown_cell("title", "# The windmill\n\nBlack won."),
        markdown_cell(
            "stop", "## After 19... Ne2+\n\n**19. Kg1 Ne2+**\n\nThe mill turns. It is e4!"
        ),
        page,
        markdown_cell("stop", "## Black's 36th move\n\nWhat now?"),
        markdown_cell("recap", "## What to remember\n- **41... Rc2#** — mate at last.\n"),
    ]
    found = [(one.plies, one.text) for one in statements(cells)]
    assert found == [
        ((38,), "The mill turns."),
        ((38,), "It is e4!"),
        ((38, 39), "material | even | rules"),
        ((71, 72), "What now?"),
        ((82,), "mate at last."),
    ]


def test_an_output_that_is_no_record_is_not_passed_over():
    page = code_cell("page", "1 + 1")
    page["outputs"] = [{"output_type": "display_data", "metadata": {}, "data": {"text/plain": "2"}}]
    with pytest.raises(ValueError, match="no record"):
        list(statements([page]))
