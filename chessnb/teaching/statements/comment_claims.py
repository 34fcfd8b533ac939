"""The claims that prove what a comment states of its position."""

from __future__ import annotations

import re
from collections.abc import Iterator

from chessnb.lessons import Moment
from chessnb.teaching.statements.reader import read_statements
from chessnb.teaching.statements.settle import settle


def claims_of_comment(moment: Moment) -> Iterator[str]:
    """Yield the claims, as code, that prove what the annotator's comment states of a position.

    What is wrong, not proved, or about another position is left to the check of the prose.

    Examples
    --------
    >>> from chessnb.lessons import Lesson
    >>> game = "1. e4 e5 2. Nf3 Nc6 3. Bb5 d6 {The knight on c6 is pinned.}"
    >>> list(claims_of_comment(Lesson.from_text(game).after("3... d6")))
    ["claims.pinned(lesson.after('3... d6'), 'c6')"]
    """
    for said in read_statements(moment.comment, moment):
        if said.at not in (moment, moment.back) or said.past:
            continue
        settled = settle(said)
        if settled.status == "proved" and settled.code.startswith("claims."):
            yield from re.split(r"\n(?=claims\.)", settled.code)
