"""Verdicts: what a move does (``judge``), and what every reply to one does (``replies``)."""

from chessnb.verdicts.depth import Depth
from chessnb.verdicts.judge import verdict, verdicts
from chessnb.verdicts.move_verdict import Verdict
from chessnb.verdicts.replies import ReplyTable, reply_table

__all__ = ["Depth", "ReplyTable", "Verdict", "reply_table", "verdict", "verdicts"]
