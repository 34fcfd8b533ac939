"""Questions whose answers are computed: asked of a position, and graded with a reason.

==================  ==========================================  ===================================
question            what it asks                                an example
==================  ==========================================  ===================================
ahead               who is ahead, and by how much               ahead(m)
captures            every capture                               captures(m)
castling            whether a side may castle, and where        castling(m, side="Black")
checks              every check                                 checks(m)
count               how many attack a square and defend it      count(m, "d5")
find_line           a whole mate, against the best resistance   find_line(m, mate=3)
find_move           a move that mates, wins or saves the game   find_move(m, hints=True)
hanging             which pieces hang                           hanging(m)
legal_moves         every legal move                            legal_moves(m)
name_tactic         which tactic a move is                      name_tactic(m, "Nc7+")
overloaded          which piece has two things to defend        overloaded(m)
pinned              which pieces are pinned                     pinned(m)
purpose             what a move was for                         purpose(m, "Nc3")
threatened          what the side that waits threatens          threatened(m)
true_or_false       whether a claim is true                     true_or_false(claims.mates, m, …)
why_not_take        why something may not be taken              why_not_take(m, "e5")
==================  ==========================================  ===================================

They are written ``questions.checks(m)``; ``m`` is a position: one of the
lesson, a board, or a FEN.  ``questions.answer(question, "Nf3")`` grades an
answer, ``questions.collect(lessons, motif="fork")`` makes a sheet of them.
A question whose answer is wrong is refused with a :class:`QuestionError`.
"""

from chessnb.mistakes import introduce
from chessnb.teaching.questions.all_kinds import names
from chessnb.teaching.questions.answering import answer
from chessnb.teaching.questions.kinds.captures_to_list import captures
from chessnb.teaching.questions.kinds.castling_asked import castling
from chessnb.teaching.questions.kinds.checks_to_list import checks
from chessnb.teaching.questions.kinds.claim_to_judge import true_or_false
from chessnb.teaching.questions.kinds.forces_counted import count
from chessnb.teaching.questions.kinds.hanging_pieces import hanging
from chessnb.teaching.questions.kinds.line_to_find import find_line
from chessnb.teaching.questions.kinds.material_counted import ahead
from chessnb.teaching.questions.kinds.move_to_find import find_move
from chessnb.teaching.questions.kinds.overloaded_pieces import overloaded
from chessnb.teaching.questions.kinds.pinned_pieces import pinned
from chessnb.teaching.questions.kinds.poisoned_capture import why_not_take
from chessnb.teaching.questions.kinds.purpose_of_move import purpose
from chessnb.teaching.questions.kinds.replies_to_list import legal_moves
from chessnb.teaching.questions.kinds.tactic_to_name import name_tactic
from chessnb.teaching.questions.kinds.threats_to_see import threatened
from chessnb.teaching.questions.question_values import (
    AnswerError,
    Graded,
    Hint,
    Question,
    QuestionError,
    Right,
)
from chessnb.teaching.questions.sheets import Sheet, collect

__all__ = [
    "AnswerError",
    "Graded",
    "Hint",
    "Question",
    "QuestionError",
    "Right",
    "Sheet",
    "ahead",
    "answer",
    "captures",
    "castling",
    "checks",
    "collect",
    "count",
    "find_line",
    "find_move",
    "hanging",
    "legal_moves",
    "name_tactic",
    "names",
    "overloaded",
    "pinned",
    "purpose",
    "threatened",
    "true_or_false",
    "why_not_take",
]

introduce(__name__)
del introduce
