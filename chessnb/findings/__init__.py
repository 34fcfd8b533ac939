"""What a cell of a lesson ends in: its record, its sentences, its picture, its HTML."""

from chessnb.findings.finding import Finding
from chessnb.findings.html import content, escaped
from chessnb.findings.record import Record
from chessnb.findings.seal import CLOSING, OPENING, sealed

__all__ = ["CLOSING", "OPENING", "Finding", "Record", "content", "escaped", "sealed"]
