"""Searching files and pages for moves that nobody has asked for yet.

A text is searched as it is, and after decoding it once in every way that a
curious reader might try.
"""

from __future__ import annotations

import base64
import binascii
import json
import re
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

import chess
import chess.pgn

from chessnb import Lesson, Moment
from chessnb.lessons.addresses import walk

_BASE64 = re.compile(rb"[A-Za-z0-9+/=]{12,}")


@dataclass(frozen=True)
class Secret:
    """A move that must not be found, in SAN (without signs), UCI and words."""

    san: str
    uci: str
    words: tuple[str, ...]

    def in_text(self, text: str) -> bool:
        signs = "|".join(re.escape(one) for one in (self.san, self.uci, *self.words))
        # A move stands between what is no letter, digit, or sign of base64.
        return re.search(rf"(?<![\w+/])(?:{signs})(?![\w/])", text, re.IGNORECASE) is not None


def secrets_of(lesson: Lesson, shown: Iterable[chess.pgn.GameNode]) -> list[Secret]:
    """Return the moves of a lesson that do not occur among those that are shown, each once."""
    nodes = [
        node
        for tree in lesson.trees()
        for node in walk(tree)
        if isinstance(node, chess.pgn.ChildNode) and node.move
    ]
    seen = set(shown)
    open_sans = {_bare(node) for node in nodes if node in seen}
    open_ucis = {node.move.uci() for node in nodes if node in seen}
    open_goals = {_goal(node) for node in nodes if node in seen}
    found = {}
    for node in nodes:
        if _bare(node) in open_sans or _goal(node) in open_goals or "-" in _bare(node):
            continue
        if node.move.uci() in open_ucis:  # O-O and ...Rg1 are both e1g1
            continue
        piece, square = _goal(node)
        spoken = tuple(f"{piece} {word} {square}" for word in ("to", "takes on", "goes to", "on"))
        if len(_bare(node)) > 2:  # a pawn's move is the name of a square too
            found.setdefault(_bare(node), Secret(_bare(node), node.move.uci(), spoken))
    return list(found.values())


def _bare(node: chess.pgn.ChildNode) -> str:
    return node.san().rstrip("+#")


def _goal(node: chess.pgn.ChildNode) -> tuple[str, str]:
    kind = node.parent.board().piece_type_at(node.move.from_square)
    return chess.piece_name(kind), chess.square_name(node.move.to_square)


def way_to(moment: Moment) -> Iterator[chess.pgn.GameNode]:
    """Yield the positions on the way to a position, with the sidelines that left it."""
    node = moment.node
    while node.parent is not None:
        yield node
        for line in node.parent.variations[1:]:
            yield line
            yield from walk(line)
        node = node.parent


def found_in(data: bytes, secrets: Iterable[Secret]) -> set[str]:
    """Return which moves can be read in some bytes: as text, or decoded once."""
    texts = [one.decode("utf-8", "replace") for one in _decoded(data)]
    return {secret.san for secret in secrets if any(map(secret.in_text, texts))}


def _decoded(data: bytes) -> Iterator[bytes]:
    yield data
    yield from _inflated(data)
    for found in _BASE64.finditer(data):
        try:
            plain = base64.b64decode(found[0] + b"=" * (-len(found[0]) % 4))
        except binascii.Error:
            continue
        yield plain
        yield from _inflated(plain)
    try:
        yield "\n".join(_strings(json.loads(data))).encode("utf-8", "replace")
    except ValueError:
        return


def _inflated(data: bytes) -> Iterator[bytes]:
    for form in (15, -15, 31):  # zlib, bare deflate, gzip
        try:
            yield zlib.decompressobj(form).decompress(data)
        except zlib.error:
            continue


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        yield from value
        for one in value.values():
            yield from _strings(one)
    elif isinstance(value, list):
        for one in value:
            yield from _strings(one)
