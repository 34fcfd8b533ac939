"""The command line: draft a lesson, verify it, open it, write its student edition.

Every command imports what it needs when it runs, so that ``--help`` is quick.
Exit codes: 0 all is well; 1 a lesson does not agree with what it says;
2 something could not be used, and one sentence says what.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from chessnb.errors import ChessnbError

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Write a chess lesson once, as a notebook whose every finding is computed and checked.",
)

GameFile = Annotated[Path, typer.Argument(help="A file of games (PGN).", show_default=False)]
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
Moments = Annotated[int, typer.Option(min=0, help="At how many moments the lesson stops at most.")]
Force = Annotated[
    bool,
    typer.Option("--force", help="Draft anew; cells that you added or edited are kept."),
]


@app.command()
def draft(
    game_file: GameFile,
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
    moments: Moments = 12,
    force: Force = False,
) -> None:
    """Draft a lesson notebook from a game, and run it."""
    from chessnb.notebooks import drafting as drafting

    _say_if_slow()
    with _Progress("Drafting") as progress:
        done = drafting.draft(
            game_file,
            output or _beside(game_file),
            game=game,
            where=_headers(where),
            title=title,
            level=level,
            goals=goal,
            minutes=minutes,
            most=moments,
            force=force,
            on_cell=progress.cell,
        )
    _say(f"Drafted {done.path}: {done.in_words}")
    _say(f"Check it:  {_command()} verify {_quoted(done.path)}")
    _say(f"Open it:   {_command()} open {_quoted(done.path)}")


@app.command()
def verify(
    lessons: Annotated[list[Path], typer.Argument(help="Lesson notebooks.", show_default=False)],
    update: Annotated[
        bool,
        typer.Option("--update", help="Show what has changed, and save the lesson as it is now."),
    ] = False,
) -> None:
    """Run lessons again and say what no longer agrees with what they say."""
    from chessnb.notebooks import verification as verifying

    _say_if_slow()
    with _Progress("Verifying") as progress:
        report = verifying.verify(lessons, update=update, on_cell=progress.lesson)
    for line in report.lines():
        _say(line)
    if report.exit_code:
        raise typer.Exit(report.exit_code)
    if len(lessons) == 1 and lessons[0].is_file():
        _say(f"Open it:  {_command()} open {_quoted(lessons[0])}")


@app.command("open")
def open_lesson(
    file: Annotated[
        Path, typer.Argument(help="A lesson (.ipynb), or a game (PGN).", show_default=False)
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

    lesson = file
    if file.suffix.lower() != ".ipynb":
        lesson = output or _beside(file)
        if lesson.exists():
            _say(f"{lesson} is there already: opening it as it is.")
        else:
            with _Progress("Drafting") as progress:
                done = drafting.draft(
                    file, lesson, game=game, where=_headers(where), on_cell=progress.cell
                )
            _say(f"Drafted {done.path}: {done.in_words}")
    launch(lesson, browser=browser, port=port)


@app.command()
def student(
    lesson: Annotated[Path, typer.Argument(help="A lesson (.ipynb).", show_default=False)],
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="What to write; else LESSON-student.ipynb beside it."),
    ] = None,
) -> None:
    """Write the student edition of a lesson: without claims, answers and what they found."""
    from chessnb.notebooks.student_edition import student_edition

    done = student_edition(lesson, output or lesson.with_name(f"{lesson.stem}-student.ipynb"))
    _say(f"Wrote {done.path}: {done.in_words}")
    _say(f"Open it:  {_command()} open {_quoted(done.path)}")


def _beside(game_file: Path) -> Path:
    """Return where the lesson of a game is written if nothing else is said."""
    return game_file.with_suffix(".ipynb")


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
        from importlib.metadata import version

        _say(f"chessnb {version('chessnb')}")
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


class _Progress:
    """A line on a terminal that says how far a run is; silent elsewhere."""

    def __init__(self, what: str) -> None:
        from rich.console import Console

        self._what = what
        self._console = Console(stderr=True)

    def __enter__(self) -> _Progress:
        self._status = self._console.status(f"{self._what} …")
        self._status.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._status.stop()

    def cell(self, number: int, count: int) -> None:
        """Say which cell is running."""
        self._status.update(f"{self._what} … cell {number} of {count}")

    def lesson(self, path: str, done: int, count: int) -> None:
        """Say how far the check of a lesson is."""
        self._status.update(f"{self._what} {path} … {done} of {count}")


def _say(text: str) -> None:
    print(text, flush=True)


def _say_if_slow() -> None:
    """Say once, beside what is printed, that proofs will take long here."""
    from chessnb import search as solver

    if not solver.compiled:
        print(
            "The search is not compiled on this computer, so it takes about fifty times as long."
            " Install chessnb again where a C compiler is.",
            file=sys.stderr,
        )


def _command() -> str:
    """Return how this program was called, so that what is printed can be typed."""
    from shutil import which

    called = sys.argv[0]
    if Path(called).name.startswith("__main__"):
        return f"{Path(sys.executable).name} -m chessnb"
    return "chessnb" if which("chessnb") == str(Path(called).resolve()) else called


def _quoted(path: Path) -> str:
    text = str(path)
    return text if text.isascii() and not set(text) & set(" '\"()&;$`\\") else f'"{text}"'


def main() -> NoReturn:
    """Run the command line; every expected error is one sentence and exit code 2."""
    try:
        app()
    except ChessnbError as error:
        sys.exit(_fail(str(error)))
    except OSError as error:
        named = f"{error.filename}: " if error.filename else ""
        sys.exit(_fail(f"{named}{error.strerror or error}"))
    except KeyboardInterrupt:
        sys.exit(130)
    sys.exit(0)


def _fail(message: str) -> int:
    print(f"chessnb: {message}", file=sys.stderr)
    return 2
