"""The command line: draft, verify, open, teach, print; pages, student editions, class records.

Every command imports what it needs when it runs, so that ``--help`` is quick.
Exit codes: 0 all is well; 1 a lesson does not agree with what it says;
2 something could not be used, and one sentence says what; 130 Ctrl-C ended it.
"""

from __future__ import annotations

import sys
from io import TextIOWrapper
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from chessnb import __version__, startup
from chessnb.errors import ChessnbError, InputError
from chessnb.progress import Progress
from chessnb.record_commands import record
from chessnb.shell import typed

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Write a chess lesson once, as a notebook whose every finding is computed and checked.",
)

GameOrPositions = Annotated[
    Path,
    typer.Argument(
        metavar="GAME_FILE",
        help="A file of games (PGN), a list of positions (FEN or EPD, one a line), or a game as "
        "one says it (.txt: moves in words, with notes behind a dash).",
        show_default=False,
    ),
]
WhichGame = Annotated[
    int | None, typer.Option("--game", min=1, help="Which game of the file, counted from 1.")
]
Where = Annotated[
    list[str] | None,
    typer.Option(
        "--where",
        metavar="TAG=TEXT",
        help="The first game whose header contains a text, as in White=quill. May be repeated.",
    ),
]
Title = Annotated[str | None, typer.Option(help="What the lesson is called.")]
Level = Annotated[str | None, typer.Option(help="For whom it is, as in “club”.")]
Minutes = Annotated[int | None, typer.Option(min=1, help="How long it is planned to take.")]
Goal = Annotated[
    list[str] | None,
    typer.Option("--goal", help="What the class should take home. May be repeated."),
]
Stops = Annotated[int, typer.Option(min=0, help="At how many positions the lesson stops at most.")]
AdviserName = Annotated[
    str | None,
    typer.Option(
        "--adviser", help="A UCI engine, by path or name, that helps to choose the stops."
    ),
]
Force = Annotated[
    bool,
    typer.Option("--force", help="Draft again; cells that you added or edited are kept."),
]


@app.command()
def draft(
    game_file: GameOrPositions,
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="The lesson to write; else beside the game."),
    ] = None,
    game: WhichGame = None,
    where: Where = None,
    title: Title = None,
    level: Level = None,
    minutes: Minutes = None,
    goal: Goal = None,
    stops: Stops = 12,
    adviser: AdviserName = None,
    force: Force = False,
) -> None:
    """Draft a lesson notebook from a game or from positions, and run it."""
    from chessnb.notebooks import drafting as drafting

    _say_if_slow()
    with Progress("Drafting") as progress:
        done = drafting.draft(
            game_file,
            output or _beside(game_file),
            game=game,
            where=_headers(where),
            title=title,
            level=level,
            goals=goal,
            minutes=minutes,
            most=stops,
            force=force,
            on_move=progress.move,
            on_cell=progress.cell,
            adviser=adviser,
        )
    _say(f"Drafted {done.path}: {done.in_words}")
    for failure in done.failures:
        _say(f"Wrong in {failure}")
    _say(f"Check it:  {typed(*_command(), 'verify', done.path)}")
    _say(f"Open it:   {typed(*_command(), 'open', done.path)}")
    if done.failures:
        raise typer.Exit(1)


@app.command()
def verify(
    lessons: Annotated[list[Path], typer.Argument(help="Lesson notebooks.", show_default=False)],
    update: Annotated[
        bool,
        typer.Option("--update", help="Show what has changed, and save the lesson as it is now."),
    ] = False,
    propose: Annotated[
        bool,
        typer.Option(
            "--propose",
            help="Put in the claims that prove sentences which no cell proves, and save.",
        ),
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="The report as JSON, for a script; its words on stderr.")
    ] = False,
) -> None:
    """Run lessons again and say what no longer agrees with what they say.

    Exit code 0: all agrees; 1: something does not; 2: a lesson could not be checked.
    For example:  chessnb verify notebooks/*.ipynb
    """
    from chessnb.notebooks import verification as verifying

    _say_if_slow()
    with Progress("Verifying") as progress:
        report = verifying.verify(lessons, update=update, propose=propose, on_cell=progress.lesson)
    if as_json:
        _say_json(report.data)
    else:
        for line in report.lines():
            _say(line)
    if report.exit_code:
        raise typer.Exit(report.exit_code)
    if not as_json and len(lessons) == 1 and lessons[0].is_file():
        _say(f"Open it:  {typed(*_command(), 'open', lessons[0])}")


@app.command("open")
def open_lesson(
    file: Annotated[
        Path, typer.Argument(help="A lesson (.ipynb), or a game (PGN or .txt).", show_default=False)
    ],
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", help="For a game: the lesson to write; else beside the game."
        ),
    ] = None,
    game: WhichGame = None,
    where: Where = None,
    browser: Annotated[bool, typer.Option(help="Open the lesson in the browser.")] = True,
    port: Annotated[int | None, typer.Option(help="The port on this computer.")] = None,
) -> None:
    """Open a lesson in JupyterLab; a game is drafted first, code collapsed."""
    from chessnb.notebooks import drafting as drafting
    from chessnb.notebooks.launcher import launch

    _say_if_slow()
    lesson = file
    if file.suffix.lower() != ".ipynb":
        lesson = output or _beside(file)
        if lesson.exists():
            _say(f"{lesson} is there already: opening it as it is.")
        else:
            with Progress("Drafting") as progress:
                done = drafting.draft(
                    file,
                    lesson,
                    game=game,
                    where=_headers(where),
                    on_move=progress.move,
                    on_cell=progress.cell,
                )
            _say(f"Drafted {done.path}: {done.in_words}")
    if launch(lesson, browser=browser, port=port, tell=_say):
        raise _EndedByHand


@app.command()
def teach(
    lesson: Annotated[Path, typer.Argument(help="A lesson (.ipynb).", show_default=False)],
    browser: Annotated[bool, typer.Option(help="Open the page in the browser.")] = True,
    port: Annotated[int | None, typer.Option(help="The port on this computer.")] = None,
) -> None:
    """Open a lesson as a page for a class: no code, no menus, every board alive.

    The page is on this computer alone, and Ctrl-C ends it; the lesson is not
    changed. For example:  chessnb teach notebooks/lantern-street.ipynb
    """
    from chessnb.notebooks.teaching_view import teach as show

    _say_if_slow()
    if show(lesson, browser=browser, port=port, tell=_say):
        raise _EndedByHand


@app.command()
def student(
    lesson: Annotated[Path, typer.Argument(help="A lesson (.ipynb).", show_default=False)],
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="The folder to write; else LESSON-student beside it."),
    ] = None,
) -> None:
    """Write the student edition of a lesson: a folder whose lesson is sealed, and opens by steps.

    Give the folder to the students; nothing else is needed beside chessnb. No move, heading
    or claim can be read or searched in it before it is asked for. It is a curtain, not a lock:
    whoever knows how can open it all.
    """
    from chessnb.notebooks.student_edition import student_edition

    folder = output or _beside(lesson, "-student")
    with Progress("Writing") as progress:
        done = student_edition(lesson, folder, on_position=progress.position)
    _say(f"Wrote {done.folder}: {done.in_words}")
    _say(f"Open it:  {typed(*_command(), 'open', done.path)}")


@app.command()
def plan(
    lesson: Annotated[Path, typer.Argument(help="A lesson (.ipynb).", show_default=False)],
    as_json: Annotated[
        bool, typer.Option("--json", help="The plan as JSON, for a script.")
    ] = False,
) -> None:
    """Plan the hour: how many minutes each stop of a lesson takes, and what to skip first.

    The lesson's own time is kept to (chessnb draft --minutes 45); the key on paper has the
    same plan. For example:  chessnb plan notebooks/lantern-street.ipynb
    """
    from chessnb.publishing import lesson_copy, plan_of

    _say_if_slow()
    with Progress("Planning") as progress:
        made = plan_of(lesson_copy(lesson, on_cell=progress.cell))
    if as_json:
        _say_json(made.data)
        return
    for line in made.lines():
        _say(line)


@app.command("print")
def print_out(
    lesson: Annotated[Path, typer.Argument(help="A lesson (.ipynb).", show_default=False)],
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="The PDF to write; else beside the lesson."),
    ] = None,
    key: Annotated[
        bool, typer.Option("--key", help="The teacher's key: answers, proofs, and the plan.")
    ] = False,
    paper: Annotated[str, typer.Option(help="a4 or letter.")] = "a4",
    large: Annotated[bool, typer.Option("--large", help="Large print, for weak eyes.")] = False,
    columns: Annotated[
        int | None, typer.Option(help="1 or 2; else what suits the page.", show_default=False)
    ] = None,
    letters: Annotated[
        str, typer.Option(help="How moves name the pieces: figurine, or a language as in german.")
    ] = "figurine",
) -> None:
    """Print a lesson as a PDF: the student's sheet, or with --key the teacher's key.

    The sheet asks what the lesson asks: diagrams, whose move it is, and room to write. Nothing
    on it tells an answer. The lesson is run first, and one that does not hold is not printed.
    """
    from chessnb.publishing import Paper, print_lesson

    chosen = Paper(size=paper.lower(), large=large, columns=columns, letters=letters)
    target = output or _beside(lesson, "-key.pdf" if key else "-sheet.pdf")
    _say_if_slow()
    with Progress("Printing") as progress:
        done = print_lesson(lesson, target, key=key, paper=chosen, on_cell=progress.cell)
    _say(f"Wrote {done.path}: {done.in_words}")


@app.command()
def exercises(
    games: Annotated[
        list[Path],
        typer.Argument(help="Game files (PGN), and folders of them.", show_default=False),
    ],
    output: Annotated[Path, typer.Option("--output", "-o", help="The PDF to write.")] = Path(
        "exercises.pdf"
    ),
    motif: Annotated[
        str | None, typer.Option(help="Only this tactic, as in fork or “back-rank mate”.")
    ] = None,
    level: Annotated[str | None, typer.Option(help="beginner, club or strong.")] = None,
    count: Annotated[int, typer.Option(min=1, help="So many exercises at most.")] = 12,
    without: Annotated[
        list[Path] | None,
        typer.Option(help="A lesson whose positions are left out. May be repeated."),
    ] = None,
    title: Annotated[str, typer.Option(help="What stands above.")] = "",
    key: Annotated[bool, typer.Option("--key", help="The key: the answers, with lines.")] = False,
    paper: Annotated[str, typer.Option(help="a4 or letter.")] = "a4",
    large: Annotated[bool, typer.Option("--large", help="Large print, for weak eyes.")] = False,
    columns: Annotated[
        int | None, typer.Option(help="1 or 2; else what suits the page.", show_default=False)
    ] = None,
    letters: Annotated[
        str, typer.Option(help="How moves name the pieces: figurine, or a language as in german.")
    ] = "figurine",
) -> None:
    """Print exercises from games: positions with a move that wins, each answer proved.

    The most telling come first; the key is the same sheet with its answers. For homework,
    --without leaves out what a lesson has asked already. For example:
    chessnb exercises games --motif fork --count 8, and again with --key -o key.pdf
    """
    from chessnb.publishing import Paper, print_exercises

    chosen = Paper(size=paper.lower(), large=large, columns=columns, letters=letters)
    _say_if_slow()
    with Progress("Collecting") as progress:
        done = print_exercises(
            games,
            output,
            title=title,
            motif=motif,
            level=level,
            count=count,
            without=without or (),
            key=key,
            paper=chosen,
            on_game=progress.game,
        )
    _say(f"Wrote {done.path}: {done.in_words}")


@app.command("page")
def one_page(
    lesson: Annotated[Path, typer.Argument(help="A lesson (.ipynb).", show_default=False)],
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="The HTML file to write; else beside the lesson."),
    ] = None,
    initials: Annotated[
        bool, typer.Option("--initials", help="Cut the players' names to initials.")
    ] = False,
) -> None:
    """Write a lesson as one HTML file, which works on any phone or computer without a network.

    The boards are alive, and every first move at a question has its answer. What is not asked
    for yet is sealed, as in a student edition: it is a curtain, not a lock.
    """
    from chessnb.publishing import page_lesson

    _say_if_slow()
    with Progress("Writing") as progress:
        done = page_lesson(
            lesson,
            output or _beside(lesson, ".html"),
            initials=initials,
            on_cell=progress.cell,
        )
    _say(f"Wrote {done.path}: {done.in_words}")


app.add_typer(record, name="record")


def _beside(file: Path, ending: str = ".ipynb") -> Path:
    """Return what is written beside a file if nothing else is said, such as a game's lesson."""
    if not file.name:
        raise InputError("this is a folder: name a file in it", given=str(file))
    return file.with_name(f"{file.stem}{ending}")


def _say_json(data: object) -> None:
    import json

    _say(json.dumps(data, ensure_ascii=False, indent=2))


def _headers(where: list[str] | None) -> dict[str, str] | None:
    if not where:
        return None
    pairs = {}
    for entry in where:
        tag, equals, text = entry.partition("=")
        if not equals or not tag.strip():
            raise typer.BadParameter(f"write --where TAG=TEXT, as in White=quill, not {entry!r}")
        pairs[tag.strip()] = text.strip()
    return pairs


def _version(wanted: bool) -> None:
    if wanted:
        _say(f"chessnb {__version__}")
        raise typer.Exit


@app.callback()
def _options(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_version, is_eager=True, help="Say which version this is."
        ),
    ] = False,
) -> None:
    pass


class _EndedByHand(Exception):  # noqa: N818
    """What was open was ended with Ctrl-C, and that was said."""


def _say(text: str) -> None:
    print(text, flush=True)


def _say_if_slow() -> None:
    """Say once, beside what is printed, that proofs will take long here, and what helps."""
    from chessnb.search.compiled_core import slow_warning

    if warning := slow_warning():
        print(warning, file=sys.stderr, flush=True)


def _command() -> list[str]:
    """Return how this program was called, so that what is printed can be typed."""
    from shutil import which

    called = sys.argv[0]
    if Path(called).name.startswith("__main__"):
        return [Path(sys.executable).name, "-m", "chessnb"]
    return ["chessnb"] if which("chessnb") == str(Path(called).resolve()) else [called]


def main() -> NoReturn:
    """Run the command line; every expected error is one sentence and exit code 2."""
    startup.listen()
    _print_what_can_be_printed()
    code = _run()
    startup.ignore()
    if code == startup.STOPPED:
        startup.end()
    sys.exit(code)


def _run() -> int:
    try:
        app()
    except SystemExit as ended:
        if ended.code != startup.STOPPED:
            return int(ended.code or 0)
    except KeyboardInterrupt:
        pass
    except _EndedByHand:
        return startup.STOPPED
    except ChessnbError as error:
        return _fail(str(error))
    except OSError as error:
        named = f"{error.filename}: " if error.filename else ""
        return _fail(f"{named}{error.strerror or error}")
    print(startup.SENTENCE, file=sys.stderr)
    return startup.STOPPED


def _print_what_can_be_printed() -> None:
    """Have what a code page lacks, such as ½ or ü, printed as a question mark."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")


def _fail(message: str) -> int:
    print(f"chessnb: {message}", file=sys.stderr)
    return 2
