"""Which cells of a lesson are answers: what proves a claim, or is marked as the teacher's."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

TEACHERS_TAGS = frozenset({"answer", "teacher"})
"""Cell tags that mark a cell as the teacher's own."""

_PROVING = re.compile(r"\b(?:claims\.\w+|reply_table|ReplyExplorer|motifs\.\w+|MotifTags)\s*\(")
_OPINION = re.compile(r"\bclaims\.judgement\s*\(")


def proves(cell: Mapping[str, Any]) -> bool:
    """Tell whether a cell proves something: a claim, a reply table, a motif; no judgement.

    Examples
    --------
    >>> proves({"cell_type": "code", "source": "claims.mates(m, within=3)"})
    True
    """
    if cell["cell_type"] != "code":
        return False
    return bool(_PROVING.search(_OPINION.sub("", str(cell["source"]))))


def is_answer(cell: Mapping[str, Any]) -> bool:
    """Tell whether a student should not see a cell: it proves, judges, or is tagged so."""
    tags = set(cell.get("metadata", {}).get("tags", ()))
    judges = cell["cell_type"] == "code" and bool(_OPINION.search(str(cell["source"])))
    return bool(tags & TEACHERS_TAGS) or judges or proves(cell)
