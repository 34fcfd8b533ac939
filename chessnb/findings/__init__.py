"""What a cell of a lesson ends in: its record, its sentences, its picture, its HTML."""

from chessnb.findings.finding import Finding
from chessnb.findings.gathering import NOTHING, Gathering, Nothing, PageError, forgiven, gathered
from chessnb.findings.html import content, escaped, typeset
from chessnb.findings.record import Record
from chessnb.findings.seal import CLOSING, OPENING, sealed

__all__ = [
    "CLOSING",
    "NOTHING",
    "OPENING",
    "Finding",
    "Gathering",
    "Nothing",
    "PageError",
    "Record",
    "content",
    "escaped",
    "forgiven",
    "gathered",
    "sealed",
    "typeset",
]
