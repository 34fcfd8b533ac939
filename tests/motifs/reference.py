"""The reference notebook of the tactics, made from the modules' own examples.

``PYTHONPATH=tests python -m motifs.reference`` writes it again.
"""

import json
from pathlib import Path
from typing import Any

from chessnb import motifs
from chessnb.motifs import Example, Motif
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, run_notebook, write_notebook
from motifs.scoring import UNPROVED

PLACE = Path(__file__).parents[2] / "notebooks" / "motifs.ipynb"

INTRODUCTION = """\
# Tactics, one by one

Each section says what counts as a tactic of that name, shows one example that is proved, and one near miss: a
move that a hasty reader would give the same name, with the part of the definition that fails."""


IMPORTS = """\
import chess

from chessnb import claims, motifs"""


def fresh() -> Any:
    """Return the notebook without outputs."""
    cells = [
        markdown_cell("title", INTRODUCTION),
        code_cell("import", IMPORTS, collapsed=False),
    ]
    for motif in motifs.MOTIFS:
        if motif.examples:
            cells += section(motif)
    keys = [cell["metadata"]["chessnb"]["cell"] for cell in cells]
    return new_notebook(cells, notes={"cells": keys})


def section(motif: Motif) -> list[Any]:
    """Return a motif's cells: its definition, an example, a near miss."""
    name = motif.name
    cells = [markdown_cell(f"{name}: definition", f"## {name.capitalize()}\n\n{motif.definition}")]
    shown = next(one for one in motif.examples if one.shows)
    missed = next(one for one in motif.examples if not one.shows)
    for key, title, example in (("example", "An example", shown), ("miss", "A near miss", missed)):
        words = f"*{title}: {example.why}.*"
        cells.append(markdown_cell(f"{name}: {key} in words", words))
        cell = code_cell(f"{name}: {key}", source(motif, example), collapsed=False)
        if not example.shows and motif.name not in UNPROVED:
            cell["metadata"]["tags"] = ["raises-exception"]
        cells.append(cell)
    return cells


def source(motif: Motif, example: Example) -> str:
    """Return the claim of an example; what is never proved to win is only looked for."""
    fen, line = json.dumps(example.fen), json.dumps(example.moves)
    if motif.name in UNPROVED:
        asked = f"motifs.tag(\n    {fen},\n    line={line},\n    geometric=True,\n)"
        return f'{asked}.named("{motif.name}")'
    board, before = fen, ""
    if example.led:
        pushed = "".join(f'board.push_san("{san}")\n' for san in example.led.split())
        board, before = "board", f"board = chess.Board({fen})\n{pushed}"
    return f'{before}claims.shows(\n    {board},\n    "{motif.name}",\n    line={line},\n)'


def main() -> None:
    """Write the notebook with its outputs."""
    write_notebook(run_notebook(fresh(), folder=PLACE.parent), PLACE)


if __name__ == "__main__":
    main()
