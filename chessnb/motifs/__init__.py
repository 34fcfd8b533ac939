"""Tactic motifs with evidence: name the tactic, show why, and stay silent when there is none."""

from chessnb.mistakes import introduce
from chessnb.motifs.collection import MOTIFS
from chessnb.motifs.evidence import Tag
from chessnb.motifs.glossary import explain, names
from chessnb.motifs.lesson_scan import Ranked, scan
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.move_tags import tag
from chessnb.motifs.position_tags import tags

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
