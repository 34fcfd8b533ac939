"""What a card says and shows, read from its HTML."""

from chessnb import Lesson, facts
from chessnb.diagrams import diagram
from chessnb.publishing.card_text import card_of


def test_a_finding_says_on_paper_what_its_card_says():
    lesson = Lesson.from_text("1. e4 d5 2. exd5 *")
    finding = facts.material(lesson.end)
    card = card_of(finding._repr_mimebundle_()["text/html"])
    assert any("White is a pawn ahead" in text for text in card.paragraphs)


def test_a_picture_is_shown_in_black_and_white_with_its_words():
    (picture,) = card_of(diagram("start").img()).pictures
    assert picture.words.startswith("White to move.")
    assert 'fill="#22303c"' not in picture.svg
    assert 'fill="#000000"' in picture.svg


def test_neither_scripts_nor_styles_nor_foreign_pictures_come_along():
    card = card_of(
        "<style>p {}</style><script>alert(1)</script><p>one<br>two</p><table><tr><td>3</td><td>4</td></tr></table>"
        "<img src='http://a.b/c.png'><img src='data:image/svg+xml;base64,%%'>"
        "<img src='data:image/svg+xml;base64,PHN2Zz48aW1hZ2UgaHJlZj0iL2V0Yy9wYXNzd2QiLz48L3N2Zz4='>"
    )
    assert card.paragraphs == ("one two", "3 4")
    assert card.pictures == ()
