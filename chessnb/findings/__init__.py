"""What a cell of a lesson ends in: its line, its sentences, its picture, its HTML."""

from chessnb.findings.finding import Finding
from chessnb.findings.html import CLOSING, OPENING, card, escaped

__all__ = ["CLOSING", "OPENING", "Finding", "card", "escaped"]
