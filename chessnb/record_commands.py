"""The commands of the class record: show it, gather slips, write a table, delete a student."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

record = typer.Typer(
    invoke_without_command=True,
    rich_markup_mode=None,
    help="Show a class record: who has answered what, what was missed most. Answers of children "
    "are data about children, also under a nickname: ask what your school and the law where you "
    "teach allow.",
)
RecordFile = Annotated[
    Path | None, typer.Option("--file", help="The record; else the one among your own data.")
]
Nickname = Annotated[str, typer.Argument(help="A student's nickname.", show_default=False)]


@record.callback()
def show_record(context: typer.Context, file: RecordFile = None) -> None:
    """Show the class, what it missed most, and what should come back."""
    from chessnb.teaching.class_record import ClassRecord, ClassTable

    context.obj = ClassRecord(file)
    if context.invoked_subcommand is None:
        _say(str(ClassTable.of(context.obj)))


@record.command("import")
def import_record(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(help="A folder of slips.", show_default=False)],
) -> None:
    """Import the answer slips of a folder, each once."""
    from chessnb.teaching.class_record import import_slips

    reports = import_slips(context.obj, folder)
    for report in reports:
        _say(report.words)
    if not reports:
        _say(f"There is no slip in {folder}.")
    if any(report.refused for report in reports):
        raise typer.Exit(1)


@record.command("slip")
def write_record_slip(
    context: typer.Context,
    nickname: Nickname,
    output: Annotated[Path, typer.Option("--output", "-o", help="The slip to write.")],
) -> None:
    """Write one student's answers as a slip, to be sent to the teacher."""
    from chessnb.teaching.class_record import write_slip

    _say(f"Wrote {write_slip(context.obj, nickname, output)}")


@record.command("csv")
def export_record(
    context: typer.Context,
    output: Annotated[Path, typer.Option("--output", "-o", help="The file to write.")],
) -> None:
    """Write all answers as a table for a spreadsheet."""
    from chessnb.teaching.class_record.class_table import as_csv
    from chessnb.whole_files import write_whole

    write_whole(output, as_csv(context.obj.answers()).encode("utf-8-sig"))
    _say(f"Wrote {output}")


@record.command("delete")
def delete_from_record(context: typer.Context, nickname: Nickname) -> None:
    """Delete a student wholly."""
    from chessnb.board.naming import counted

    _say(f"Deleted {counted(context.obj.delete(nickname), 'answer')}.")


def _say(text: str) -> None:
    print(text, flush=True)
