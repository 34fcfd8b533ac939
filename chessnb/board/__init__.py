"""The kit under everything: sides, squares, pieces, points, lines, turns and positions.

Each idea exists here once.  ``position`` reads what stands for a position,
``position_faults`` says why one cannot come about, ``playable`` which a live
board takes; ``turns`` knows a position after moves and as if the other side
moved; ``exchange`` counts what taking on one square brings.
"""
