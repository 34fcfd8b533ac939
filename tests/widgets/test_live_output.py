"""How positions come alive in a notebook, and stay still elsewhere."""

import re
import subprocess
import sys
from types import SimpleNamespace
from typing import Any

import pytest

import chessnb
from chessnb import BranchExplorer, Lesson, LiveBoard, charts
from chessnb.findings import typeset
from chessnb.findings.seal import is_sealed
from chessnb.notebooks.verification.output_difference import SANITIZE_FILE
from chessnb.search import budget
from chessnb.widgets import live_output
from chessnb.widgets.display import COMES_ALIVE, WIDGET_VIEW
from chessnb.widgets.live_chart import LiveChart
from chessnb.widgets.live_output import activate, still_and_live
from chessnb.widgets.motif_tags import MotifTags
from chessnb.widgets.reply_explorer import ReplyExplorer

STILL = {"text/plain": "a line", "text/html": "<img>"}


@pytest.fixture
def _kernel(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(live_output, "under_kernel", lambda: True)


def test_outside_a_kernel_an_output_stays_as_it_is() -> None:
    assert still_and_live(STILL, "start") == STILL


@pytest.mark.usefixtures("_kernel")
def test_in_a_kernel_a_live_board_is_added_and_the_rest_stays() -> None:
    bundle = still_and_live(STILL, "start", turned=True)
    assert set(bundle) == {*STILL, WIDGET_VIEW}
    assert {key: bundle[key] for key in STILL} == STILL
    assert WIDGET_VIEW not in STILL


@pytest.mark.usefixtures("_kernel")
def test_a_position_that_cannot_be_played_on_stays_still() -> None:
    assert still_and_live(STILL, "8/8/8/8/8/8/8/4K3 w - - 0 1") == STILL


class _Formatter:
    def __init__(self) -> None:
        self.known: dict[tuple[str, str], Any] = {}

    def for_type_by_name(self, module: str, name: str, function: Any) -> None:
        self.known[module, name] = function


def test_moments_and_charts_are_registered_by_name() -> None:
    formatter = _Formatter()
    shell = SimpleNamespace(display_formatter=SimpleNamespace(mimebundle_formatter=formatter))
    assert activate(shell)
    assert list(formatter.known) == [
        ("chessnb.lessons.moment", "Moment"),
        ("chessnb.charts", "Chart"),
    ]


def test_the_names_are_those_of_real_classes() -> None:
    from chessnb.charts import Chart
    from chessnb.lessons.moment import Moment

    assert (Moment.__module__, Moment.__name__) == ("chessnb.lessons.moment", "Moment")
    assert (Chart.__module__, Chart.__name__) == ("chessnb.charts", "Chart")


def test_a_chart_comes_alive_in_a_kernel_and_stays_as_it_is_elsewhere(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    chart = charts.material(Lesson.from_text("1. e4 d5 2. exd5"))
    still = chart._repr_mimebundle_()
    assert live_output._chart_bundle(chart) == still
    monkeypatch.setattr(live_output, "under_kernel", lambda: True)
    live = live_output._chart_bundle(chart)
    assert live.pop(WIDGET_VIEW)["model_id"]
    assert live["text/plain"] == still["text/plain"]
    kept = live["text/html"].replace(typeset(f"<p><i>{COMES_ALIVE}</i></p>"), "")
    assert kept.partition("<!--seal")[0] == still["text/html"].partition("<!--seal")[0]
    assert COMES_ALIVE not in still["text/html"]


LESSON = Lesson.from_text("1. e4 e5 2. Nf3")


@pytest.mark.parametrize(
    "made",
    [
        lambda: LiveBoard(),
        lambda: BranchExplorer(LESSON),
        lambda: ReplyExplorer(LESSON.after("1. e4"), mate=1, within=1),
        lambda: MotifTags(LESSON.after("1. e4")),
        lambda: LiveChart(charts.material(LESSON)),
    ],
    ids=["board", "explorer", "replies", "tactics", "chart"],
)
def test_a_still_says_how_it_comes_alive_where_nbval_does_not_compare(made: Any) -> None:
    bundle, _ = made()._repr_mimebundle_()
    assert COMES_ALIVE in bundle["text/html"]
    [blanked] = re.findall(r"^regex: (.*)$", SANITIZE_FILE.read_text(), flags=re.MULTILINE)
    assert COMES_ALIVE not in re.sub(blanked, "", bundle["text/html"])
    assert COMES_ALIVE not in bundle["text/plain"]
    assert WIDGET_VIEW in bundle
    assert is_sealed(bundle["text/plain"], bundle["text/html"])


@pytest.mark.usefixtures("_kernel")
def test_a_moment_says_so_too_where_it_comes_alive() -> None:
    moment = LESSON.after("1. e4")
    assert COMES_ALIVE in live_output._moment_bundle(moment)["text/html"]
    assert COMES_ALIVE not in moment._repr_mimebundle_()["text/html"]


@pytest.mark.usefixtures("_kernel")
def test_activated_twice_it_watches_searches_once(monkeypatch: pytest.MonkeyPatch) -> None:
    watchers: list[Any] = []
    monkeypatch.setattr(budget, "watchers", watchers)
    formatter = SimpleNamespace(mimebundle_formatter=_Formatter())
    for _ in range(2):
        assert activate(SimpleNamespace(display_formatter=formatter))
    assert len(watchers) == 1


def test_without_a_shell_nothing_is_registered() -> None:
    assert run("from chessnb.widgets import activate; print(activate())") == "False"


def test_the_hooks_import_no_widget() -> None:
    """The package around them is left out: what it imports is its own affair."""
    script = (
        "import sys, types; package = types.ModuleType('chessnb');"
        f"package.__path__ = {list(chessnb.__path__)!r}; sys.modules['chessnb'] = package;"
        "import chessnb.widgets; print({'anywidget', 'IPython'} & set(sys.modules))"
    )
    assert run(script) == "set()"


def run(script: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, timeout=60, check=True
    )
    return done.stdout.strip()
