"""The live chart: what a page is given, and the still form that stays."""

import json
import re

import chess

from chessnb import Lesson, charts
from chessnb.findings import typeset
from chessnb.findings.seal import is_sealed
from chessnb.widgets import LiveChart
from chessnb.widgets.display import COMES_ALIVE

GAME = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. Nxe5 Qd4 *")


def test_the_moves_of_the_points_lead_to_the_positions_of_their_moments():
    for chart in (
        charts.material(GAME),
        charts.pressure_on("e5", start=GAME.after("2. Nf3"), end=GAME.end),
        charts.mobility("f1", start=GAME.after("1. e4"), end=GAME.end),
    ):
        table = LiveChart(chart).table
        board = chess.Board(table["fen"])
        for number, point in enumerate(table["points"]):
            if number:
                board.push_uci(point["move"])
            moment = GAME.start if point["address"] == "start" else GAME.at(point["address"])
            assert board.fen() == moment.board.fen()


def test_the_places_are_those_of_the_drawing():
    chart = charts.material(GAME)
    path = max(re.findall(r'd="(M[^"]*V[^"]*)"', chart.svg()), key=len)
    drawn = [tuple(map(float, pair)) for pair in re.findall(r"H([\d.]+)V([\d.]+)", path)]
    assert list(chart.places[1:]) == drawn


def test_a_chart_of_two_lines_has_two_values_and_two_places_a_point():
    table = LiveChart(charts.pressure_on("e5", start=GAME.start, end=GAME.end)).table
    assert {len(point["values"]) for point in table["points"]} == {2}
    assert {len(point["place"]) for point in table["points"]} == {3}
    json.dumps(table)


def test_the_still_form_stays_as_it_is():
    chart = charts.material(GAME)
    bundle, _ = LiveChart(chart, letters="german")._repr_mimebundle_()
    still = chart._repr_mimebundle_()
    kept = bundle["text/html"].replace(typeset(f"<p><i>{COMES_ALIVE}</i></p>"), "")
    assert bundle["text/plain"] == still["text/plain"]
    assert kept.partition("<!--seal")[0] == still["text/html"].partition("<!--seal")[0]
    assert is_sealed(bundle["text/plain"], bundle["text/html"])
    assert LiveChart(chart, letters="german").piece_letters == "BSLTDK"
