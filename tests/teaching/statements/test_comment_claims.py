"""What a comment states and is proved becomes claims."""

from chessnb import Lesson
from chessnb.teaching.statements.comment_claims import claims_of_comment


def test_what_a_comment_states_and_is_proved_becomes_a_claim_of_its_page():
    lesson = Lesson.from_text(
        "1. e4 e5 2. Nf3 Nc6 3. Bb5 $1 d6 $2 {The knight on c6 is pinned to the king. Black has a "
        "mate in two. The knight on f3 is undefended. Perhaps White is a queen ahead.} 4. d4 *"
    )
    moment = lesson.after("3... d6")
    assert list(claims_of_comment(moment)) == ["claims.pinned(lesson.after('3... d6'), 'c6')"]
