# The types of core.py, whose own are Cython's.
from collections.abc import Sequence
from typing import Any

compiled: bool
OPEN: int
PROVED: int
REFUTED: int
MATE_VALUE: int

class Question:
    def __init__(
        self,
        fen: str,
        *,
        attacker: bool,
        mate: int = 0,
        gain: int = 0,
        target: int = 0,
        stalemate: int = 0,
        moves: Sequence[str] | None = None,
        tail: int = 12,
        table_bits: int = 0,
    ) -> None: ...
    @property
    def positions(self) -> int: ...
    def run(self, positions: int) -> int: ...
    def proof(self) -> list[Any] | None: ...
    def escape(self) -> str | None: ...

class Gains:
    def __init__(
        self,
        fen: str,
        *,
        attacker: bool,
        within: int,
        floor: int = -20_000,
        table_bits: int = 16,
    ) -> None: ...
    @property
    def positions(self) -> int: ...
    @property
    def values(self) -> list[int]: ...
    @property
    def value(self) -> int: ...
    def run(self, positions: int) -> bool: ...

def uci(move: int) -> str: ...
def legal_moves(fen: str) -> list[str]: ...
def captures(fen: str) -> list[str]: ...
def checks(fen: str) -> list[str]: ...
def zobrist(fen: str) -> int: ...
def perft(fen: str, depth: int) -> int: ...
