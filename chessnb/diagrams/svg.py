"""The SVG of a board: paper, squares, letters, pieces, marks, in that order.

The markup is made of plain pieces of text and whole or one-decimal numbers, so
that a live board can build the very same string from ``ink.json``.  From the
bottom to the top: the card of paper; the tint and the hatch of the dark
squares, from a8 to h1 as seen; the frame; ranks, then files, from the top left;
the square of the side to move; underlines of the last move; the double ring of
a check; dots, dashed strokes, ticks and rings; the pieces in the order of the
squares as seen; lines of force.
"""

from __future__ import annotations

import html
from collections.abc import Iterable, Sequence

import chess

from chessnb.diagrams.ink import INK, number
from chessnb.diagrams.marks import Mark, event, over_pieces, under_pieces
from chessnb.diagrams.pen import Pen

NAMESPACE = "http://www.w3.org/2000/svg"


def board_svg(
    board: chess.Board,
    *,
    pen: Pen,
    size: int,
    title: str,
    words: str,
    last_move: chess.Move | None = None,
    marks: Sequence[Mark] = (),
) -> str:
    """Return a board as one SVG element.

    Parameters
    ----------
    board : chess.Board
        The position; also one that could not be played on.
    pen : Pen
        Theme and side of view.
    size : int
        Width and height, in CSS pixels.
    title, words : str
        The picture's name and its description, for those who do not see it.
    last_move : chess.Move or None
        The move to underline.
    marks : sequence of Mark
        What is drawn on it.
    """
    width, height = INK["board"]["width"], INK["board"]["height"]
    pieces = [(square, piece) for square in _as_seen(pen) if (piece := board.piece_at(square))]
    return (
        f'<svg xmlns="{NAMESPACE}" role="img" width="{size}" height="{size}"'
        f' viewBox="0 0 {width} {height}">'
        f"<title>{escaped(title)}</title><desc>{escaped(words)}</desc>{pen.style()}"
        f"{definitions(pen, {piece.symbol() for _, piece in pieces})}"
        f'<rect width="{width}" height="{height}"{pen.paint(fill="paper")}/>'
        f"{_squares(pen)}{_letters(pen)}{_side_to_move(pen, board.turn)}"
        '<g stroke-linecap="round" stroke-linejoin="round">'
        f"{_events(pen, board, last_move)}{under_pieces(pen, marks)}"
        f"{''.join(_piece(pen, square, piece) for square, piece in pieces)}"
        f"{over_pieces(pen, marks)}</g></svg>"
    )


def figurine_svg(letter: str) -> str:
    """Return White's piece as a sign for a line of text: its foot is the lower edge.

    Parameters
    ----------
    letter : str
        The piece by its English letter.

    Examples
    --------
    >>> figurine_svg("N")[:62]
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="6 1.5 33 38.9'
    """
    pen = Pen(theme="print")
    shapes = definitions(pen, {letter.upper()})
    return (
        f'<svg xmlns="{NAMESPACE}" viewBox="6 1.5 33 38.9">{shapes}'
        '<g stroke-linecap="round" stroke-linejoin="round">'
        f'<use href="#{pen.name(piece_key(letter.upper()))}"/></g></svg>'
    )


def escaped(text: str) -> str:
    """Escape a text for HTML and XML, dropping characters that XML 1.0 forbids.

    Examples
    --------
    >>> escaped("<b> & 'c'" + chr(0))
    '&lt;b&gt; &amp; &#x27;c&#x27;'
    """
    return html.escape("".join(filter(_allowed, text)), quote=True)


def _allowed(character: str) -> bool:
    """Follow production 2 of the XML 1.0 recommendation."""
    code = ord(character)
    return (
        code in (0x9, 0xA, 0xD)
        or 0x20 <= code <= 0xD7FF
        or 0xE000 <= code <= 0xFFFD
        or code >= 0x10000
    )


def _as_seen(pen: Pen) -> list[chess.Square]:
    """Return the squares from the top left to the bottom right."""
    squares = [chess.square(file, rank) for rank in range(7, -1, -1) for file in range(8)]
    return squares[::-1] if pen.turned else squares


def definitions(pen: Pen, symbols: Iterable[str]) -> str:
    """Return the ``defs`` element: the hatch, and each kind of piece once.

    The contour of a kind is written once and inked by each side that has it.

    Parameters
    ----------
    pen : Pen
        Whose theme it is; the ids follow from it.
    symbols : iterable of str
        The pieces wanted, as in a FEN; they are written in the order of ``ink.json``.
    """
    wanted = {piece_key(symbol) for symbol in symbols}
    contours = "".join(
        f'<path id="{pen.name(kind)}" d="{path}"/>'
        for kind, path in INK["contours"].items()
        if wanted & {f"w{kind}", f"b{kind}"}
    )
    pieces = "".join(
        f'<g id="{pen.name(key)}">{"".join(_shape(pen, key[1], shape) for shape in shapes)}</g>'
        for key, shapes in INK["pieces"].items()
        if key in wanted
    )
    return f"<defs>{_hatch(pen)}{contours}{pieces}</defs>"


def piece_key(symbol: str) -> str:
    """Return the name in ``ink.json`` of a piece of a FEN.

    Examples
    --------
    >>> piece_key("N"), piece_key("p")
    ('wN', 'bP')
    """
    return ("w" if symbol.isupper() else "b") + symbol.upper()


def _hatch(pen: Pen) -> str:
    """Hatch one square, and a row of four of them.

    Lines and not an SVG pattern: when they print, browsers turn a pattern
    into a coarse picture.
    """
    ink, side = INK["hatch"], INK["board"]["square"]
    path = ""
    for line in range(ink["lines"]):
        reach = 2 * side * (line + 0.5) / ink["lines"]
        near = number(max(0, reach - side) + ink["trim"])
        far = number(min(side, reach) - ink["trim"])
        path += f"M{near} {far}L{far} {near}"
    row = "".join(
        f'<use href="#{pen.name("hatch")}" x="{number(2 * side * place)}"/>' for place in range(4)
    )
    return (
        f'<path id="{pen.name("hatch")}" d="{path}"'
        f'{pen.paint(stroke="ink", width=ink["width"])} stroke-opacity="{ink["opacity"]}"/>'
        f'<g id="{pen.name("row")}">{row}</g>'
    )


def _shape(pen: Pen, kind: str, shape: dict[str, str]) -> str:
    """Ink a path, or the contour of the kind where the shape has no path of its own."""
    what = f'path d="{shape["d"]}"' if "d" in shape else f'use href="#{pen.name(kind)}"'
    return f"<{what}{pen.paint(**INK['roles'][shape['role']])}/>"


def _squares(pen: Pen) -> str:
    ink = INK["board"]
    side = number(ink["square"])
    path = "".join(
        f"M{number(x)} {number(y)}h{side}v{side}h-{side}Z"
        for x, y in (
            pen.corner(s) for s in _as_seen(pen) if chess.BB_SQUARES[s] & chess.BB_DARK_SQUARES
        )
    )
    # The dark squares of a row are in the same places from either side.
    rows = "".join(
        f'<use href="#{pen.name("row")}" x="{number(ink["left"] + ink["square"] * (row % 2 == 0))}"'
        f' y="{number(ink["top"] + ink["square"] * row)}"/>'
        for row in range(8)
    )
    half, whole = ink["frame"] / 2, number(8 * ink["square"] + ink["frame"])
    return (
        f'<path d="{path}"{pen.paint(fill="tint")}/>{rows}'
        f'<rect x="{number(ink["left"] - half)}" y="{number(ink["top"] - half)}"'
        f' width="{whole}" height="{whole}"{pen.paint(stroke="ink", width=ink["frame"])}/>'
    )


def _letters(pen: Pen) -> str:
    """Set the coordinates: ranks upright, files in italics, as books do."""
    ink, side = INK["letters"], INK["board"]["square"]
    seen = _as_seen(pen)
    ranks = "".join(
        f'<text x="{number(ink["rank"])}"'
        f' y="{number(INK["board"]["top"] + side * (row + 0.5) + ink["drop"])}">'
        f"{chess.RANK_NAMES[chess.square_rank(seen[8 * row])]}</text>"
        for row in range(8)
    )
    files = "".join(
        f'<text x="{number(INK["board"]["left"] + side * (column + 0.5))}"'
        f' y="{number(ink["file"])}">'
        f"{chess.FILE_NAMES[chess.square_file(seen[column])]}</text>"
        for column in range(8)
    )
    return (
        f'<g font-family="{ink["family"]}" font-size="{number(ink["size"])}"'
        f' text-anchor="middle"{pen.paint(fill="ink")}>{ranks}'
        f'<g font-style="italic">{files}</g></g>'
    )


def _side_to_move(pen: Pen, turn: chess.Color) -> str:
    """Draw a small square at that side's edge: hollow for White, filled for Black."""
    ink, board = INK["turn"], INK["board"]
    below = bool(turn) != pen.turned
    half = ink["width"] / 2
    drop = 8 * board["square"] - ink["side"] - half if below else half
    return (
        f'<rect x="{number(ink["left"])}" y="{number(board["top"] + drop)}"'
        f' width="{number(ink["side"])}" height="{number(ink["side"])}"'
        f"{pen.paint(fill='piece' if turn else 'ink', stroke='ink', width=ink['width'])}/>"
    )


def _events(pen: Pen, board: chess.Board, last_move: chess.Move | None) -> str:
    """Draw what the position itself says: the last move and the check."""
    text = ""
    if last_move is not None:
        text += event(pen, "last", last_move.from_square) + event(pen, "last", last_move.to_square)
    king = board.king(board.turn)
    if king is not None and board.is_check():
        text += event(pen, "check", king)
    return text


def _piece(pen: Pen, square: chess.Square, piece: chess.Piece) -> str:
    x, y = pen.corner(square)
    return f'<use href="#{pen.name(piece_key(piece.symbol()))}" x="{number(x)}" y="{number(y)}"/>'
