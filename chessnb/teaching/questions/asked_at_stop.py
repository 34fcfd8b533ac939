"""What a drafted page asks about what it tells: the kind of question that fits."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

import chess

from chessnb.findings.gathering import aside
from chessnb.lessons import Moment
from chessnb.teaching.questions.kinds.pinned_pieces import pinned
from chessnb.teaching.questions.kinds.poisoned_capture import why_not_take
from chessnb.teaching.questions.kinds.threats_to_see import threatened
from chessnb.teaching.questions.question_values import Question, QuestionError
from chessnb.verdicts.offer import offer_of

Made = tuple[str, tuple[str, ...]]
"""The name of a question, and what it takes beside the position."""


def question_at(moment: Moment, kinds: Iterable[str]) -> Made | None:
    """Return the question that fits a position, by what was found there; None if none does.

    A question is made before it is asked, so that none is refused in a class:
    what is threatened where a threat is told, which piece is pinned, why what
    was left may not be taken.

    Parameters
    ----------
    moment : Moment
        The position.
    kinds : iterable of str
        The kinds of what was found, the weightiest first.

    Notes
    -----
    Some tenths of a second for a threat.
    """
    with aside():
        for kind in kinds:
            made = _BY_KIND.get(kind, _none)(moment)
            if made is not None:
                return made
    return None


def _none(moment: Moment) -> Made | None:
    return None


def _of_threat(moment: Moment) -> Made | None:
    return _if_made("threatened", lambda: threatened(moment))


def _of_pin(moment: Moment) -> Made | None:
    return _if_made("pinned", lambda: pinned(moment))


def _of_what_is_left(moment: Moment) -> Made | None:
    before, move = moment.node.parent, moment.move
    if before is None or not move:
        return None
    square = chess.square_name(offer_of(before.board(), move).square)
    return _if_made("why_not_take", lambda: why_not_take(moment, square), square)


def _if_made(name: str, make: Callable[[], Question], *given: str) -> Made | None:
    try:
        question = make()
    except QuestionError:
        return None
    return (name, given) if question.right else None


_BY_KIND: Mapping[str, Callable[[Moment], Made | None]] = {
    "threat": _of_threat,
    "pin": _of_pin,
    "left": _of_what_is_left,
}
