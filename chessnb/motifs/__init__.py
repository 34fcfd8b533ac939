"""Tactic motifs with evidence: name the tactic, show why, and stay silent when there is none."""

from chessnb.mistakes import introduce
from chessnb.motifs.evidence import Example, Motif, Tag
from chessnb.motifs.registry import MOTIFS, Ranked, explain, names, scan, tag, tags

__all__ = [
    "MOTIFS",
    "Example",
    "Motif",
    "Ranked",
    "Tag",
    "explain",
    "names",
    "scan",
    "tag",
    "tags",
]

introduce(__name__)
del introduce
