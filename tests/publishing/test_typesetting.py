"""Whatever a text holds, it stands on paper as it is, and is never the typesetter's language."""

import io
import random
import re

import pypdf
import pytest
from thoroughness import scaled

from chessnb.notebooks import escape
from chessnb.notebooks.markdown import plain
from chessnb.publishing.copied_lesson import Words
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.student_sheet import sheet_data
from chessnb.publishing.teachers_key import key_data
from chessnb.publishing.typesetting import _template, pdf_of, pictures_of
from publishing.copies import lesson_of, page_of, told

FRAGMENTS = [
    "#", "#import \"x\": *", "#eval(\"1 + 1\")", "#{", "}", "#read(\"/etc/passwd\")", "#sys.inputs", "$", "$x^2$",
    "\\", "\\u{41}", "`", "```", "[", "]", "\"", "'", "//", "/*", "*/", "<x>", "<pages>", "@ref", "@pages", "*", "_",
    "=", "==", "- ", "+ ", "/ a: b", "~", "--", "---", "...", "(", ")", ";", ":", ",", "\n", "\n\n", "\t", "\u202e",
    "\u2066", "\u2069", "\ufeff", "\x00", "Queen", "wins", "e4", "20.", "é", "ß", "Ж", "½", "<b>", "&amp;", "http://a.b",
    "#link(\"http://a.b\")[c]", "#set page(width: 1pt)", "#pagebreak()", "\\begin{x}", "{{", "%", "^", "|", "![a](b)",
]  # fmt: skip
OPTIONS = {"size": "a4", "large": False, "columns": 1}


def hostile(count, seed):
    chance = random.Random(seed)
    return [
        "".join(chance.choice(FRAGMENTS) for _ in range(chance.randrange(1, 9)))
        for _ in range(count)
    ]


def read(pdf):
    """What can be read of a PDF, without blanks and hyphens, which setting adds."""
    return squeezed("".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages))


def squeezed(text):
    return re.sub(r"[\s\u00ad\u2010\u2011-]", "", text).replace("’", "'")


def marked(number, text):
    return f"q{number}z{text}z{number}q"


def test_hostile_comments_headings_and_names_are_read_as_they_are():
    count = scaled(2_000)
    texts = [marked(number, text) for number, text in enumerate(hostile(count, seed=18))]
    for start in range(0, count, 100):
        some = texts[start : start + 100]
        words = "\n\n".join(escape(text) for text in some[:40])
        paragraphs = [told(text=text) for text in some[40:70]] + [
            told(head=text) for text in some[70:]
        ]
        lesson = lesson_of(
            Words(source=f"# {escape(some[0])}"),
            Words(source=f"## {escape(some[1])}\n\n{words}"),
            page_of(told=paragraphs, question=some[2], caption=some[3]),
            name=f"{plain(some[4])[:40]}.ipynb".replace("/", " "),
        )
        pdf, pages = pdf_of({**key_data(lesson, Lettering("english")), **OPTIONS})
        found = read(pdf)
        for text in some:
            assert squeezed(plain(text)) in found, text
        reader = pypdf.PdfReader(io.BytesIO(pdf))
        assert len(reader.pages) == pages < 20
        assert reader.metadata.title == plain(some[0])
        assert not any("/Annots" in page for page in reader.pages), "a link has come to be"


def test_hostile_texts_reach_a_students_sheet_as_they_are():
    for start in range(0, scaled(400), 20):
        texts = [marked(number, text) for number, text in enumerate(hostile(3, seed=start))]
        lesson = lesson_of(
            Words(source=f"# {escape(texts[0])}\n\n{escape(texts[1])}"),
            page_of(question=texts[2]),
        )
        data = {**sheet_data(lesson, Lettering("english")), **OPTIONS, "columns": 2}
        found = read(pdf_of(data)[0])
        for text in texts:
            assert squeezed(plain(text)) in found, text


def test_the_template_has_no_way_from_text_to_code():
    template = _template().decode()
    assert (
        re.search(
            r"\b(?:eval|read|import|include|plugin|raw|link|label|ref)\b",
            without_comments(template),
        )
        is None
    )
    assert template.count("sys.inputs") == 2  # once in words, once where it is read


def without_comments(template):
    return "\n".join(line.split("//")[0] for line in template.splitlines())


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("columns", [1, 2])
@pytest.mark.parametrize("kind", [sheet_data, key_data])
def test_every_paper_is_set_and_the_same_bytes_each_time(size, large, columns, kind):
    lesson = lesson_of(
        Words(source="# The key\n\nTwo players.\n\n- see\n- think\n\n1. one\n2. two"),
        Words(source="## The quiet key\n\n> said\n\n`code`\n\n| a | b |\n|---|---|\n| c | d |"),
        page_of(told=[told(head="24... Rg1!", text="wins.", items=[told(text="a line")])]),
        Words(source="## What to remember"),
    )
    data = {**kind(lesson, Lettering()), "size": size, "large": large, "columns": columns}
    assert pdf_of(data) == pdf_of(data)
    box = pypdf.PdfReader(io.BytesIO(pdf_of(data)[0])).pages[0].mediabox
    assert (round(box.width), round(box.height)) == {"a4": (595, 842), "letter": (612, 792)}[size]


def test_a_page_can_be_looked_at():
    lesson = lesson_of(Words(source="# The key"), page_of())
    (picture,) = pictures_of({**sheet_data(lesson, Lettering()), **OPTIONS})
    assert picture.startswith(b"\x89PNG")


def test_no_character_is_colour():
    """One colour: all paint is black, white or the grey beneath the hatch."""
    lesson = lesson_of(Words(source="# The key"), page_of(last_move="g8h8"))
    svg = sheet_data(lesson, Lettering())["parts"][0][0]["svg"]
    assert set(re.findall(r"#[0-9a-f]{6}", svg)) <= {"#000000", "#ffffff", "#f0f0f0"}
