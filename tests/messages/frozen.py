"""The frozen messages: text files of questions and answers, word for word.

A block begins with what stands at the margin (a position, a command).  Under
it, indented, stands in quotation marks what was written, and under that,
indented further, the answer.  Lines that begin with ``#`` are headings.

``PYTHONPATH=tests python -m messages.frozen`` writes the answers again; look at the
difference before it is committed.
"""

import json
from dataclasses import dataclass
from pathlib import Path

import chess

FOLDER = Path(__file__).parent


@dataclass(frozen=True)
class Frozen:
    """One message, as the file has it."""

    heading: str
    margin: str
    written: str
    answer: str


def read(name):
    """Return the messages of a file, in its order."""
    entries, heading, margin, written = [], "", "", None
    for line in (FOLDER / name).read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            heading = line.strip("# ")
        elif line.startswith("    "):
            entries.append(Frozen(heading, margin, json.loads(written), line.strip()))
        elif line.startswith("  "):
            written = line.strip()
        elif line:
            margin = line
    return entries


def write(name, answer):
    """Write a file again, with the answers that are given now."""
    lines, margin, written = [], "", None
    for line in (FOLDER / name).read_text(encoding="utf-8").splitlines():
        if line.startswith("    "):
            continue
        lines.append(line)
        if line.startswith("  "):
            written = json.loads(line.strip())
            lines.append(f"    {answer(margin, written)}")
        elif line and not line.startswith("#"):
            margin = line
    (FOLDER / name).write_text("\n".join(lines) + "\n", encoding="utf-8")


def position_of(margin):
    """Return the position at the margin: ``start`` or a FEN, and moves after a bar."""
    fen, _, moves = margin.partition(" | ")
    board = chess.Board() if fen == "start" else chess.Board(fen)
    for san in moves.split():
        board.push_san(san)
    return board


def answer_to_move(margin, written):
    """Return the error that reading a move raises, its kind first."""
    from chessnb.errors import NotationError
    from chessnb.notation import read_move

    try:
        move = read_move(position_of(margin), written)
    except NotationError as error:
        return f"{type(error).__name__}: {error.reason}"
    return f"no error, it is read as {move.uci()}"


def answer_to_position(_, written):
    """Return the error that a text given as a position raises."""
    from chessnb.board.position import read_position
    from chessnb.errors import PositionError

    try:
        read_position(written)
    except PositionError as error:
        return f"{error.reason}: write {error.instead}" if error.instead else error.reason
    return "no error, it is a position"


if __name__ == "__main__":
    from messages import provoked

    write("moves.txt", answer_to_move)
    write("positions.txt", answer_to_position)
    write("others.txt", provoked.answer)
