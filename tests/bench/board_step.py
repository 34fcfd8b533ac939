"""How long the browser is at work for one step of the live board: a move played, the board updated.

Run by hand, with Playwright and a Chromium::

    PYTHONPATH=. python tests/bench/board_step.py [CHROMIUM]

Random games are played on a board without a kernel, each move as a step of
the conversation with Python (sent, shown, its caption and its 64 labels
written), and then its acknowledgement; of both the time spent in scripts is
measured, and besides the time until style and layout are done too.  A frame
at 60 a second has 16 ms.  The same games are played three times: the least
time of a step leaves out what other programs took of the machine, and the
largest of all shows it.
"""

from __future__ import annotations

import random
import statistics
import sys
from pathlib import Path
from typing import Any

import chess

sys.path.insert(0, str(Path(__file__).parents[1]))

from browser.harness import open_boards

STEPS = 200
RUNS = 3
FRAME_MS = 16
_PLAY = """
(moves) => {
  const [model] = models;
  const board = document.querySelector(".chessnb-live").shadowRoot;
  const cell = (name) => board.querySelector(`[data-square=${name}]`);
  const measured = (act) => {
    const started = performance.now();
    act();
    const scripted = performance.now();
    void board.querySelector("figure").offsetHeight; // style and layout
    return [scripted - started, performance.now() - started];
  };
  return moves.map((uci, ply) => {
    cell(uci.slice(0, 2)).click();
    const move = measured(() => {
      cell(uci.slice(2, 4)).click();
      if (uci[4]) board.querySelector(`[data-choice=${uci[4]}]`).click();
    });
    const { client, seq, line } = model.sent.at(-1);
    if (model.sent.length !== ply + 1) throw new Error(`${uci} was not played`);
    const state = { ...model.values.state, moves: moves.slice(0, ply + 1), ply: ply + 1, acks: { [client]: seq } };
    const acknowledged = measured(() => model.set("state", state));
    return [move, acknowledged];
  });
}
"""


def game(chance: random.Random, longest: int) -> list[str]:
    """Return the moves of a random game."""
    board = chess.Board()
    while len(board.move_stack) < longest and (moves := list(board.legal_moves)):
        board.push(chance.choice(moves))
    return [move.uci() for move in board.move_stack]


def measure(page: Any, steps: int) -> list[list[list[float]]]:
    """Play random games on fresh boards and return the times of each step, in ms."""
    chance = random.Random(20)
    times: list[list[list[float]]] = []
    while len(times) < steps:
        open_boards(page, chess.Board())
        times += page.evaluate(_PLAY, game(chance, longest=80))
    return times[:steps]


def report(name: str, runs: list[list[float]]) -> float:
    """Print a line of figures, and return the largest of the steps' least times."""
    least = [min(times) for times in zip(*runs, strict=True)]
    print(
        f"{name:<32} median {statistics.median(least):5.2f} ms   largest {max(least):5.2f} ms"
        f"   (in any run {max(map(max, runs)):5.2f} ms)"
    )
    return max(least)


def main(chromium: str = "/usr/bin/chromium") -> None:
    """Measure, print, and fail if a step takes longer than a frame."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=chromium, args=["--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page(viewport={"width": 800, "height": 900})
        runs = [measure(page, STEPS) for _ in range(RUNS)]
        browser.close()
    print(f"{STEPS} steps, {RUNS} times")
    parts = [
        ("a move is played: script", 0, 0),
        ("… with style and layout", 0, 1),
        ("it is acknowledged: script", 1, 0),
        ("… with style and layout", 1, 1),
    ]
    script, *_ = [
        report(name, [[step[part][kind] for step in times] for times in runs])
        for name, part, kind in parts
    ]
    if script > FRAME_MS:
        raise SystemExit(f"a step took more than {FRAME_MS} ms")


if __name__ == "__main__":
    main(*sys.argv[1:])
