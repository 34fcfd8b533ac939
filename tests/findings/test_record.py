"""The grammar of records: every record reads back, and nothing else is one."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from thoroughness import scaled

from chessnb.findings.record import (
    BAR,
    Record,
    RecordError,
    quoted,
    read_record,
    read_records,
    unquoted,
)
from chessnb.findings.record_kinds import KINDS, STATUSES, TOKENS, fields_pattern

TEXTS = st.text(max_size=30) | st.sampled_from(["a | b", 'say "no"', "\\", "\\|", "one\ntwo", "\u2028", "\ud800", ""])  # fmt: skip

PLACES = st.one_of(
    st.builds("{}{}".format, st.integers(1, 200), st.sampled_from([".", "..."])),
    st.from_regex(TOKENS["MOVES"].pattern, fullmatch=True),
    TEXTS.map(quoted),
    st.just("-"),
)


@st.composite
def records(draw: st.DrawFn) -> Record:
    """Draw any record that the grammar has."""
    kind = draw(st.sampled_from(sorted(KINDS)))
    text = draw(st.from_regex(fields_pattern(kind), fullmatch=True))
    fields = text.removeprefix(BAR).split(BAR) if text else []
    for number, field in enumerate(fields):
        if field.startswith('"'):
            fields[number] = quoted(draw(TEXTS))
    return Record(
        place=draw(PLACES), kind=kind, fields=tuple(fields), status=draw(st.sampled_from(sorted(STATUSES)))
    )  # fmt: skip


@given(records())
@settings(max_examples=scaled(600, least=100), deadline=None, derandomize=True)
def test_every_record_is_one_line_that_reads_back(record):
    line = str(record)
    assert read_record(line) == record
    assert line.splitlines() == [line]
    assert line.isprintable()
    assert read_records(f"{line}\n{line}") == (record, record)


@given(TEXTS)
@settings(max_examples=scaled(600, least=100), deadline=None, derandomize=True)
def test_any_text_reads_back_and_never_ends_a_field(text):
    assert unquoted(quoted(text)) == text
    assert BAR not in quoted(text)
    assert read_record(f"- | judgement | {quoted(text)} | judgement").fields == (quoted(text),)


@pytest.mark.parametrize(
    "line",
    [
        "",
        "White mates in 1",
        "claim: White mates in 1 (proved)",
        "mates | proved",
        "21. | mates | proved",  # a field is missing
        "21. | mates | white | six | proved",
        "21. | mates | White | 6 | proved",
        "21. | mates | white | 6 | 7 | proved",
        "21. | mates | white | 6 | settled",
        "21. | checkmates | proved",
        "21 | mates | white | 6 | proved",
        "20... Nf9 | mates | 6 | proved",
        "20... Nf3+| mates | 6 | proved",
        " 20... Nf3+ | mates | 6 | proved",
        "20... Nf3+ | mates | 6 | proved ",
        "20... Nf3+ | mates | 6 | proved\n",
        "20... Nf3+ | mates | ٦ | proved",
        "Four moves | lesson | given",
        '"Four | moves" | lesson | given',
        '"Four\\moves" | lesson | given',
        "- | judgement | easier for White | judgement",
        '- | judgement | "a\u2028b" | judgement',
        "21. | tactic | The knight forks | proved",
        "21. | pinned | Nc6 | by Bb5 | to Ke8 | rules",  # the order is fixed
        "21. | position | the start | rules",
    ],
)
def test_what_is_no_record(line):
    with pytest.raises(RecordError):
        read_record(line)
    assert read_records(line) == ()
    assert read_records(f"21. | checkmate | rules\n{line}") == ()


def test_a_record_that_the_grammar_has_not_cannot_be_made():
    with pytest.raises(RecordError, match="there is no kind of record called 'mate'"):
        Record(place="21.", kind="mate", status="proved")
    with pytest.raises(RecordError, match="'surely' is not the status"):
        Record(place="21.", kind="checkmate", status="surely")
    with pytest.raises(RecordError, match="is not the place"):
        Record(place="somewhere", kind="checkmate", status="rules")
    with pytest.raises(RecordError, match=r"of kind 'mates' has the fields '\[SIDE\] \| N'"):
        Record(place="21.", kind="mates", fields=("soon",), status="proved")
