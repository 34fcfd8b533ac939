"""Print the contact sheets: every piece, mark and board, and a page, to be looked at by eye.

Run by hand, with Playwright and a Chromium::

    python tests/diagrams/contact_sheet.py FOLDER [CHROMIUM]

It writes, each with the page it was taken of:

``pieces``
    All pieces on both squares at 90, 45 and 20 pixels, in every theme.
``small``
    The pieces at 20 pixels, every pixel drawn eight times as large.
``marks``
    Every mark on free squares and on pieces, strokes across strokes, a check,
    the last move, from White's side and from Black's.
``boards``, ``large``
    A middlegame at 160 and 360 pixels, and at 900.
``page``
    A printed page in one colour: the PDF, and its picture (as ``pdftoppm``
    sees it where that is installed, else as Chromium shows it for print).
"""

from __future__ import annotations

import base64
import io
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import chess.pgn

from chessnb.diagrams import Diagram, Mark
from chessnb.diagrams.ink import INK
from chessnb.diagrams.pen import Pen, Theme
from chessnb.diagrams.svg import definitions, escaped, piece_key

GAME = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
PAGES: dict[Theme, str] = {"light": "#ffffff", "dark": "#111111", "print": "#ffffff"}
PIECES = "KQRBNPkqrbnp"
MIDDLEGAME = "r1b2rk1/pp2qppp/2n1pn2/2bp4/2P5/P1NBPN2/1PQ2PPP/R1B2RK1 b - - 0 10"


def strokes(role: str, *ways: str) -> tuple[Mark, ...]:
    """Return marks of one role, each written as its squares ("e4" or "e2e4")."""
    return tuple(Mark(role=role, square=way[:2], to=way[2:] or None) for way in ways)  # type: ignore[arg-type]


MARKED = (
    # A fork, with everything on it.
    Diagram(
        fen="r3k2r/pppq1Npp/2n2n2/2b1p1B1/2BpP1b1/3P1N2/PPP2PPP/R2QK2R b KQkq - 0 1",
        last_move="g5f7",
        marks=(
            *strokes("actor", "f7"),
            *strokes("target", "d8", "h8"),
            *strokes("force", "f7h8", "f7d8", "c4f7", "e2e3"),
            *strokes("blocked", "g4d1"),
            *strokes("lure", "e6", "h3"),
        ),
    ),
    # Each mark on free squares and on each side's pieces, on light and dark.
    Diagram(
        fen="k7/8/QqNn4/8/RrBb4/8/PpKk4/8 w - - 0 1",
        marks=(
            *strokes("actor", "a6", "b6", "c6", "d6", "f6", "g6"),
            *strokes("target", "a4", "b4", "c4", "d4", "f4", "g4"),
            *strokes("lure", "a2", "b2", "c2", "d2", "f2", "g2"),
        ),
    ),
    # All three on one square; strokes of both kinds across each other, the pieces and the dots.
    Diagram(
        fen="r2qk2r/8/2N2n2/3pP3/3Pp3/2n2N2/8/R2QK2R w - - 0 1",
        marks=(
            *strokes("actor", "d5", "c3"),
            *strokes("target", "d5", "f6"),
            *strokes("lure", "d5", "e4"),
            *strokes("force", "a1h8", "h1a8", "d1d8", "f3d4", "c6e5", "b7b8"),
            *strokes("blocked", "a4h4", "e1e8", "a8a1", "c3b5", "g2g3"),
        ),
    ),
    Diagram(fen="4k3/8/8/4R3/1b6/8/3P4/4K3 b - - 0 1", last_move="e2e5"),
)


def hatched(pen: Pen, x: int, y: int) -> str:
    """Return a dark square."""
    side = INK["board"]["square"]
    return (
        f'<rect x="{x}" y="{y}" width="{side}" height="{side}"{pen.paint(fill="tint")}/>'
        f'<use href="#{pen.name("hatch")}" x="{x}" y="{y}"/>'
    )


def strip(theme: Theme, side: int) -> str:
    """Return all twelve pieces on both squares, in squares of so many pixels."""
    pen, square = Pen(theme=theme), INK["board"]["square"]
    rows = ""
    for row in range(2):
        for column, symbol in enumerate(PIECES):
            x, y = column * square, row * square
            rows += hatched(pen, x, y) if (row + column) % 2 else ""
            rows += f'<use href="#{pen.name(piece_key(symbol))}" x="{x}" y="{y}"/>'
    return (
        f'<svg style="display:block;margin:6px" width="{12 * side}" height="{2 * side}"'
        f' viewBox="0 0 {12 * square} {2 * square}" stroke-linejoin="round"'
        f' stroke-linecap="round">{definitions(pen, PIECES)}'
        f'<rect width="100%" height="100%"{pen.paint(fill="paper")}/>{rows}</svg>'
    )


def page(*bands: tuple[Theme, str]) -> str:
    """Return a page of coloured bands."""
    text = "".join(
        f"<div style='background:{PAGES[theme]};padding:8px'>{band}</div>" for theme, band in bands
    )
    return f"<!doctype html><meta charset='utf-8'><body style='margin:0'>{text}"


def boards(diagrams: tuple[Diagram, ...], *sizes: int) -> list[tuple[Theme, str]]:
    """Return the diagrams at these sizes, in every theme."""
    return [
        (theme, " ".join(d.svg(size=size, theme=theme) for d in diagrams for size in sizes))
        for theme in PAGES
    ]


def both_sides(diagram: Diagram) -> tuple[Diagram, Diagram]:
    """Return the diagram from White's side and from Black's."""
    seen = Diagram(fen=diagram.fen, turned=True, last_move=diagram.last_move, marks=diagram.marks)
    return diagram, seen


def printed_page() -> str:
    """Return a page for print: the demo's game in six diagrams, then the marks."""
    game = chess.pgn.read_game(io.StringIO(GAME.read_text(encoding="utf-8")))
    assert game is not None
    nodes = list(game.mainline())
    stills = [
        Diagram(
            fen=node.board().fen(),
            last_move=node.move.uci(),
            caption=f"After {(node.ply() + 1) // 2}{'.' if node.ply() % 2 else '…'} {node.san()}",
        )
        for node in nodes[7 :: max(1, (len(nodes) - 7) // 6)][:6]
    ]
    figures = "".join(
        f"<figure>{still.svg(size=220, theme='print')}<figcaption>{escaped(still.caption)}"
        "</figcaption></figure>"
        for still in [*stills, *MARKED[:3]]
    )
    return (
        "<!doctype html><meta charset='utf-8'><style>@page{size:A4;margin:15mm}"
        "body{font:11pt Georgia,serif;margin:0}"
        "figure{display:inline-block;margin:0 4pt 8pt 0;text-align:center}"
        "figcaption{font-style:italic;margin-top:2pt}</style>"
        f"<h1 style='font-size:16pt'>{escaped(game.headers['Event'])}</h1>{figures}"
    )


def photograph(browser: Any, target: Path, text: str, *, width: int, scale: int = 1) -> None:
    """Save a page and its picture."""
    target.with_suffix(".html").write_text(text, encoding="utf-8")
    view = browser.new_page(viewport={"width": width, "height": 100}, device_scale_factor=scale)
    view.set_content(text)
    view.screenshot(path=target, full_page=True)
    view.close()


def magnify(browser: Any, target: Path, *, times: int) -> None:
    """Replace a picture by one whose pixels are so many times as large."""
    data = base64.b64encode(target.read_bytes()).decode("ascii")
    view = browser.new_page(viewport={"width": 260 * times, "height": 100})
    view.set_content(
        "<body style='margin:0'><img style='width:100%;image-rendering:pixelated'"
        f" src='data:image/png;base64,{data}'>"
    )
    view.screenshot(path=target, full_page=True)
    view.close()


def print_page(browser: Any, folder: Path) -> None:
    """Save the printed page as a PDF, and a picture of it."""
    view = browser.new_page(viewport={"width": 680, "height": 400}, device_scale_factor=2)
    view.set_content(printed_page())
    view.emulate_media(media="print")
    view.pdf(path=folder / "page.pdf", prefer_css_page_size=True)
    if program := shutil.which("pdftoppm"):
        options = ["-gray", "-r", "150", "-png", "-singlefile"]
        subprocess.run([program, *options, folder / "page.pdf", folder / "page"], check=True)
    else:
        view.screenshot(path=folder / "page.png", full_page=True)
    view.close()


def main(folder: str, chromium: str = "/usr/bin/chromium") -> None:
    """Write the sheets."""
    from playwright.sync_api import sync_playwright

    target = Path(folder)
    target.mkdir(parents=True, exist_ok=True)
    middlegame = (Diagram(fen=MIDDLEGAME),)
    rows = [band for diagram in MARKED for band in boards(both_sides(diagram), 360, 160)]
    pieces = [(theme, "".join(strip(theme, side) for side in (90, 45, 20))) for theme in PAGES]
    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=chromium, args=["--no-sandbox", "--disable-gpu"]
        )
        photograph(browser, target / "pieces.png", page(*pieces), width=1120)
        small = page(*((theme, strip(theme, 20)) for theme in PAGES))
        photograph(browser, target / "small.png", small, width=260)
        magnify(browser, target / "small.png", times=8)
        photograph(browser, target / "marks.png", page(*rows), width=1080)
        photograph(browser, target / "boards.png", page(*boards(middlegame, 160, 360)), width=560)
        photograph(browser, target / "large.png", page(*boards(middlegame, 900)), width=920)
        print_page(browser, target)
        browser.close()


if __name__ == "__main__":
    main(*sys.argv[1:])
