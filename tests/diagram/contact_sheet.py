"""Print the contact sheet: every man, board and mark, to be looked at by eye.

Run by hand, with Playwright and a Chromium::

    python tests/diagram/contact_sheet.py FOLDER [CHROMIUM]

It writes ``pieces.png``, ``boards.png``, ``marks.png`` and their pages.
"""

from __future__ import annotations

import sys
from pathlib import Path

from chessnb.diagram import Diagram, Mark
from chessnb.diagram.ink import INK
from chessnb.diagram.pen import Pen, Theme
from chessnb.diagram.svg import definitions, piece_key

PAGES = {"light": "#ffffff", "dark": "#111111", "print": "#ffffff"}
MIDDLEGAME = "r1b2rk1/pp2qppp/2n1pn2/2bp4/2P5/P1NBPN2/1PQ2PPP/R1B2RK1 b - - 0 10"
MARKED = Diagram(
    fen="r3k2r/pppq1Npp/2n2n2/2b1p1B1/2BpP1b1/3P1N2/PPP2PPP/R2QK2R b KQkq - 0 1",
    last_move="g5f7",
    marks=(
        Mark(role="actor", square="f7"),
        Mark(role="target", square="d8"),
        Mark(role="target", square="h8"),
        Mark(role="force", square="f7", to="h8"),
        Mark(role="force", square="f7", to="d8"),
        Mark(role="force", square="c4", to="f7"),
        Mark(role="blocked", square="g4", to="d1"),
        Mark(role="lure", square="e6"),
        Mark(role="lure", square="h3"),
        Mark(role="force", square="e2", to="e3"),
    ),
)
CHECKED = Diagram(fen="4k3/8/8/4R3/1b6/8/3P4/4K3 b - - 0 1", last_move="e2e5", turned=True)


def strip(theme: Theme, side: int) -> str:
    """Return all twelve men on both squares, in squares of so many pixels."""
    pen, square = Pen(theme=theme), INK["board"]["square"]
    rows = ""
    for row in range(2):
        for column, symbol in enumerate("KQRBNPkqrbnp"):
            x, y = column * square, row * square
            if (row + column) % 2:
                box = f'<rect x="{x}" y="{y}" width="{square}" height="{square}"'
                rows += f'{box}{pen.paint(fill="tint")}/>{box} fill="url(#{pen.name("hatch")})"/>'
            rows += f'<use href="#{pen.name(piece_key(symbol))}" x="{x}" y="{y}"/>'
    return (
        f'<svg style="display:block;margin:6px" width="{12 * side}" height="{2 * side}"'
        f' viewBox="0 0 {12 * square} {2 * square}" stroke-linejoin="round"'
        f' stroke-linecap="round">{definitions(pen, "KQRBNPkqrbnp")}'
        f'<rect width="100%" height="100%"{pen.paint(fill="paper")}/>{rows}</svg>'
    )


def page(*bands: tuple[str, str]) -> str:
    """Return a page of coloured bands."""
    text = "".join(
        f"<div style='background:{PAGES[theme]};padding:8px'>{band}</div>" for theme, band in bands
    )
    return f"<!doctype html><meta charset='utf-8'><body style='margin:0'>{text}"


def boards(diagrams: list[Diagram], sizes: list[int]) -> list[tuple[str, str]]:
    """Return the diagrams at these sizes, in every theme."""
    return [
        (theme, " ".join(d.svg(size=size, theme=theme) for d in diagrams for size in sizes))
        for theme in PAGES
    ]


def main(folder: str, chromium: str = "/usr/bin/chromium") -> None:
    """Write the pages and their pictures."""
    from playwright.sync_api import sync_playwright

    target = Path(folder)
    target.mkdir(parents=True, exist_ok=True)
    large = [(theme, Diagram(fen=MIDDLEGAME).svg(size=900, theme=theme)) for theme in PAGES]
    pages = {
        "pieces": page(
            *((theme, strip(theme, 90) + strip(theme, 45) + strip(theme, 20)) for theme in PAGES)
        ),
        "boards": page(*boards([Diagram(fen=MIDDLEGAME)], [160, 360]), *large),
        "marks": page(*boards([MARKED, CHECKED], [360, 160])),
    }
    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=chromium, args=["--no-sandbox", "--disable-gpu"]
        )
        view = browser.new_page(viewport={"width": 1120, "height": 400})
        for name, text in pages.items():
            (target / f"{name}.html").write_text(text, encoding="utf-8")
            view.set_content(text)
            view.screenshot(path=target / f"{name}.png", full_page=True)
        browser.close()


if __name__ == "__main__":
    main(*sys.argv[1:])
