"""How fast the explorer is: the first paint of a long lesson, a step, a verdict on a try.

Run it with ``PYTHONPATH=tests python tests/bench/explorer.py``.  Painted is
from the arrival of the data to the frame after which the page stands; a step
is the script's time for one move on the board and in the text.
"""

import random
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import chess
import chess.pgn
from browser.conftest import CHROMIUM, CHROMIUM_FLAGS
from browser.exploring import open_explorer
from playwright.sync_api import sync_playwright

from chessnb import Lesson
from chessnb.search import compiled
from chessnb.search.proof_book import ProofBook
from chessnb.teaching.kept_verdicts import verdict_data
from chessnb.teaching.tries import answer
from chessnb.verdicts.judge import verdict
from chessnb.widgets.branch_explorer import TRY_DEPTH, BranchExplorer

GAME = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
MOVES = 500
MAIN_LINE = 80
STEPS = 200
STEP = """
(count) => {
  const on = document.querySelector(".chessnb-live").shadowRoot.querySelector("[data-action=on]");
  const back = document.querySelector(".chessnb-live").shadowRoot.querySelector("[data-action=back]");
  const times = [];
  for (let step = 0; step < count; step++) {
    const button = step % 20 < 10 ? on : back;
    const begun = performance.now();
    button.click();
    times.push(performance.now() - begun);
  }
  return times;
}
"""


def long_lesson() -> Lesson:
    """Return a lesson of 500 moves in branches, the same each time."""
    chance = random.Random(20)
    game = chess.pgn.Game()
    nodes: list[chess.pgn.GameNode] = [game]
    while len(nodes) <= MOVES:
        on = len(nodes) <= MAIN_LINE or chance.random() < 0.9
        node = nodes[-1] if on else chance.choice(nodes)
        free = [move for move in node.board().legal_moves if not node.has_variation(move)]
        if free:
            comment = "Said of it." if len(nodes) % 5 == 0 else ""
            nodes.append(node.add_variation(chance.choice(free), comment=comment))
    return Lesson(game, title="Five hundred moves")


def told(name: str, times: list[float], limit: float, unit: str) -> None:
    """Print the median and the worst of some times, and what they may be at most."""
    median = statistics.median(times)
    print(
        f"{name:42} median {median:7.1f} {unit}, worst {max(times):7.1f} {unit}, limit {limit} {unit}"
    )


def in_browser() -> None:
    """Measure painting and stepping in Chromium."""
    lesson = long_lesson()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_FLAGS)
        page = browser.new_context(viewport={"width": 1300, "height": 900}).new_page()
        explorer = BranchExplorer(lesson)
        x = open_explorer(page, explorer, silent=True)
        paints = []
        for _ in range(7):
            x.load()
            paints.append(page.evaluate("window.painted"))
        told(f"paint of {len(explorer.tree['nodes']) - 1} moves", paints, 200, "ms")
        told("script of a step", page.evaluate(STEP, STEPS), 16, "ms")
        browser.close()


def tries() -> None:
    """Measure answers to tries at some positions of the demo's game, searched and from kept verdicts."""
    lesson = Lesson.read(GAME)
    chance = random.Random(21)
    moments = [moment for moment in lesson.moments() if moment.is_main_line and moment.next][::4]
    searched, kept, settled = [], [], 0
    for moment in moments:
        board, own = moment.board, moment.next.move
        move = chance.choice([move for move in board.legal_moves if move != own])
        begun = time.perf_counter()
        said = answer(board, move, lesson_move=own, depth=TRY_DEPTH).sentence
        settled += said != "Not proved either way: ask your teacher."
        searched.append(1000 * (time.perf_counter() - begun))
        book = ProofBook(Path("/nowhere/at.all"))
        data = {
            one.uci(): verdict_data(verdict(board, one, depth=TRY_DEPTH)) for one in (move, own)
        }
        book.keep_verdicts(board, data)
        begun = time.perf_counter()
        answer(board, move, lesson_move=own, book=book, depth=TRY_DEPTH)
        kept.append(1000 * (time.perf_counter() - begun))
    how = "compiled" if compiled else "not compiled"
    told(f"verdict on a try, searched ({how})", searched, 1000, "ms")
    told("verdict on a try, kept", kept, 300, "ms")
    print(f"{settled} of {len(searched)} tries settled by search")


if __name__ == "__main__":
    in_browser()
    tries()
