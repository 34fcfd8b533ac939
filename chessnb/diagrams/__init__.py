"""Still diagrams: ink on paper, with the project's own pieces and marks.

A :class:`Diagram` is a value (a FEN, a side of view, marks, a caption) that
shows itself as a printed diagram; :func:`diagram` makes one of any position.

The modules: ``ink`` (measures, colours, shapes), ``pen`` (from names to
paint), ``marks``, ``svg`` (the board), ``words`` (the board read out), and
``still`` (the value).
"""

from chessnb.diagrams.marks import Mark
from chessnb.diagrams.still import Diagram, diagram

__all__ = ["Diagram", "Mark", "diagram"]
