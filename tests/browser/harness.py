"""A page that holds live boards and no kernel: quick tests of what the browser does alone.

The model's other side is silent, like a busy kernel, unless the test speaks
for it with :func:`publish`.
"""

from __future__ import annotations

import json
from typing import Any

import chess
from playwright.sync_api import Page

from chessnb.widgets.esm import bundle, style
from chessnb.widgets.played_line import PlayedLine

_SCRIPT = """
async ({ esm, css, models }) => {
  const sheet = document.createElement("style");
  sheet.textContent = css;
  document.head.append(sheet);
  const url = URL.createObjectURL(new Blob([esm], { type: "text/javascript" }));
  const { default: make } = await import(url);
  window.models = [];
  for (const values of models) {
    const listeners = {};
    const model = {
      sent: [],
      values,
      get: (name) => values[name],
      set(name, value) { values[name] = value; model.fire(`change:${name}`); },
      save_changes() {},
      on(name, listener) { (listeners[name] ??= []).push(listener); },
      off(name, gone) { listeners[name] = (listeners[name] ?? []).filter((one) => one !== gone); },
      fire(name, given) { for (const listener of listeners[name] ?? []) listener(given); },
      send(message) { model.sent.push(message); },
    };
    const widget = await make();
    await widget.initialize?.({ model });
    const el = document.createElement("div");
    document.body.append(el);
    model.cleanup = await widget.render({ model, el });
    window.models.push(model);
  }
}
"""


def state_of(board: chess.Board) -> dict[str, Any]:
    """Return what Python publishes for a board on which nothing was played."""
    return {**PlayedLine(board).state(), "trouble": ""}


def open_boards(
    page: Page,
    *boards: chess.Board,
    html: str | None = "<!doctype html><body></body>",
    **values: Any,
) -> None:
    """Fill a page with live boards; their models stand in ``window.models``.

    Without `html` they are added to the page as it is.
    """
    if html is not None:
        page.set_content(html)
    models = [
        {
            "state": state_of(board),
            "turned": False,
            "piece_letters": "PNBRQK",
            "words": {},
            **values,
        }
        for board in boards
    ]
    page.evaluate(_SCRIPT, {"esm": bundle("board.js"), "css": style("theme.css"), "models": models})


def publish(page: Page, state: dict[str, Any], model: int = 0) -> None:
    """Publish a state, as Python does."""
    page.evaluate(
        "([model, state]) => {"
        " models[model].values.state = state; models[model].fire('change:state'); }",
        [model, state],
    )


def sent(page: Page, model: int = 0) -> list[dict[str, Any]]:
    """Return the messages that a board has sent to Python."""
    return list(json.loads(page.evaluate(f"JSON.stringify(models[{model}].sent)")))


class Python:
    """The other side of a board's model, in this process: it hears, publishes and answers.

    Parameters
    ----------
    page : Page
        A page on which :func:`open_boards` has opened a board.
    board : chess.Board
        What the board was opened with.
    """

    def __init__(self, page: Page, board: chess.Board) -> None:
        self.page = page
        self.line = PlayedLine(board)
        self.heard = 0

    def hear(self) -> None:
        """Hear all messages that have been sent since, as the kernel would."""
        messages = sent(self.page)[self.heard :]
        self.heard += len(messages)
        for message in messages:
            heard = self.line.hear(message)
            assert heard is not None, message
            publish(self.page, {**self.line.state(), "trouble": ""})
            answer = {"client": heard.client, "seq": heard.seq, "text": heard.refusal}
            self.page.evaluate(
                "(answer) => models[0].fire('msg:custom', answer)", {"kind": "answer", **answer}
            )
