"""A lesson as one file: what can be read in it, what it allows, and that text stays text."""

import base64
import hashlib
import json
import random
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from searching import found_in, secrets_of
from thoroughness import scaled

from chessnb import Lesson
from chessnb.errors import NotebookError
from chessnb.notebooks import escape
from chessnb.notebooks.markdown import plain
from chessnb.publishing.copied_lesson import Words
from chessnb.publishing.one_file_page import one_file, page_copied, page_lesson
from chessnb.teaching.sealed_lesson import unseal
from publishing.copies import GAME, recorded_lesson
from publishing.test_typesetting import FRAGMENTS


class Reading(HTMLParser):
    """The elements of a page, and the text outside scripts and styles."""

    def __init__(self, html):
        super().__init__(convert_charrefs=True)
        self.tags, self.attributes, self.texts, self.scripts, self._in = [], [], [], [], ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [(tag, name) for name, _ in attrs]
        self._in = tag
        if tag == "script":
            self.scripts.append([dict(attrs), ""])

    def handle_endtag(self, tag):
        self._in = ""

    def handle_data(self, data):
        if self._in == "script":
            self.scripts[-1][1] += data
        elif self._in != "style":
            self.texts.append(data)


@pytest.fixture(scope="module")
def lesson():
    return recorded_lesson()


def parts_of(html):
    return json.loads(Reading(html).scripts[0][1])


def test_the_same_lesson_is_the_same_file(lesson):
    assert one_file(lesson) == one_file(recorded_lesson())


def test_one_script_is_allowed_by_its_hash_and_nothing_may_be_fetched(lesson):
    html = one_file(lesson)
    (data, _), (module, text) = Reading(html).scripts
    assert (data["type"], module) == ("application/json", {"type": "module"})
    allowed = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', html)[1]
    assert policy.split("; ") == [
        "default-src 'none'", f"script-src 'sha256-{allowed}'", "style-src 'unsafe-inline'", "img-src data:",
        "base-uri 'none'", "form-action 'none'",
    ]  # fmt: skip
    assert not re.search(r"\b(?:src|href)=.?https?:|@import|url\(", html.replace(text, ""))
    assert "<!--" not in text
    assert "</script" not in text


def test_no_move_can_be_read_before_it_is_asked_for(lesson):
    html = one_file(lesson)
    data = Reading(html).scripts[0][1]
    game = Lesson.from_text(GAME)
    secrets = secrets_of(game, [])
    assert len(secrets) > 5
    # The module is the same text for every lesson, and has examples of moves.
    assert found_in(html.replace(Reading(html).scripts[1][1], "").encode(), secrets) == set()
    for sealed in json.loads(data)["parts"].values():
        assert found_in(sealed.encode(), secrets) == set()
    assert "calm one" not in html


def test_the_first_step_opens_without_the_move_that_it_asks_for(lesson):
    parts = parts_of(one_file(lesson))["parts"]
    first = json.dumps(unseal("step 1", parts["step 1"]))
    assert "Black's 3rd move" in first or "Black&#x27;s 3rd move" in first
    for secret in ("Nf6", "g8f6", "Qxf7", "calm one", "Mate."):
        assert secret not in first
    answers = unseal("answers 1", parts["answers 1"])
    assert len(answers) == Lesson.from_text(GAME).before("3... Nf6").board.legal_moves.count()
    assert answers["g7g6"]["kind"] != "refuted"
    assert answers["g8f6"]["kind"] == "lesson"
    told = json.dumps(unseal("told 1", parts["told 1"]))
    assert "calm one" in told


def test_what_the_title_page_tells_too_early_comes_behind_the_first_question(lesson):
    first, rest = "For the club.", "Black will play Nf6."
    telling = replace(
        lesson,
        parts=(Words(source=f"# The quick mate\n\n{first}\n\n{rest}"), *lesson.parts[1:]),
        late=(rest,),
    )
    html = one_file(telling)
    parts = parts_of(html)["parts"]
    assert first in html
    assert [
        rest in unseal(f"step {number}", parts[f"step {number}"])["html"] for number in (1, 2, 3)
    ] == [False, True, False]


def test_names_are_cut_everywhere_if_that_is_wanted(lesson):
    for initials in (False, True):
        html = one_file(lesson, initials=initials)
        parts = parts_of(html)["parts"]
        opened = html + "".join(json.dumps(unseal(name, text)) for name, text in parts.items())
        assert ("Pellwick" in opened) is not initials
        assert ("P. aims at f7." in opened) is initials


def test_hostile_texts_stay_texts():
    chance = random.Random(18)
    fragments = [
        *FRAGMENTS,
        "</script>",
        "<script>",
        "<!--",
        "-->",
        "]]>",
        "onerror=",
        "<img src=x>",
        "</title>",
        "{",
        "{data}",
        "{module}",
    ]
    base = recorded_lesson()
    usual = Reading(one_file(base))
    count = scaled(2_000, least=100)
    for start in range(0, count, 50):
        texts = [
            "".join(chance.choice(fragments) for _ in range(chance.randrange(1, 9)))
            for _ in range(50)
        ]
        shown = [f"q{number}z{text}z" for number, text in enumerate(texts, start)]
        opening = [f"# {escape(shown[0])}", *map(escape, shown[1:])]
        source = "\n\n".join(opening)
        lesson = type(base)(
            path=base.path, parts=(Words(source=source), *base.parts[1:]), opening=(source,)
        )
        page = Reading(one_file(lesson))
        assert [one[0] for one in page.scripts] == [one[0] for one in usual.scripts]
        assert page.scripts[1][1] == usual.scripts[1][1]
        assert set(page.tags) - set(usual.tags) <= {"p", "i", "b"}
        assert set(page.attributes) == set(usual.attributes)
        text = re.sub(r"\s+", " ", "".join(page.texts))
        for one in shown:
            assert plain(one) in text, one


def test_hostile_comments_end_no_element_and_start_no_script():
    comment = "</script><script>window.hacked=1</script><!-- <img src=x onerror=alert(1)>"
    page = Reading(
        one_file(recorded_lesson(GAME.replace("Pellwick aims at f7.", comment), title=comment))
    )
    assert len(page.scripts) == 2
    assert "img" not in page.tags


def test_a_file_is_written_whole_and_tells_its_size(lesson, tmp_path):
    done = page_copied(lesson, tmp_path / "lesson.html")
    assert done.path.read_text(encoding="utf-8") == one_file(lesson)
    assert done.size == done.path.stat().st_size < 1_000_000
    assert done.in_words.startswith("3 steps, ")
    for target, why in (
        (tmp_path, "this is a folder"),
        (tmp_path / "no" / "x.html", "there is no folder"),
        (tmp_path / "x.ipynb", "an HTML file"),
    ):
        with pytest.raises(NotebookError, match=why):
            page_lesson("lesson.ipynb", target)
