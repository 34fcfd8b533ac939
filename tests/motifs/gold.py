"""Labelled positions: what must, what may and what must not be named.

Made for these tests, many with their colours changed, unless a source is
named.  "Must" was decided from the line by hand, or read by hand where play
of an engine against itself had brought the position about.  Every near miss
is one that a hasty reader would name: the solver finds nothing that its move
wins, or what it wins is won in another way.
"""

from dataclasses import dataclass

import chess


@dataclass(frozen=True, kw_only=True)
class Label:
    """A move in its line, and the motifs that are to be named.

    `led` are the moves that lead from `fen` to the position of the move.
    """

    fen: str
    line: str
    led: str = ""
    must: tuple[str, ...] = ()
    may: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    why: str = ""
    source: str = ""

    @property
    def board(self) -> chess.Board:
        """The position of the move, with the moves that led there."""
        board = chess.Board(self.fen)
        for san in self.led.split():
            board.push_san(san)
        return board


LABELS = (
    Label(
        fen="4k3/8/8/3p4/1b6/2N5/8/4K3 b - - 0 1",
        line="d4 Kd2 dxc3+",
        must=("absolute pin",),
    ),
    Label(
        fen="4k3/8/4q3/8/8/8/5KPP/3R4 w - - 0 1",
        line="Re1 Qxe1+ Kxe1",
        must=("absolute pin",),
    ),
    Label(
        fen="6k1/4bppp/8/8/3R4/8/8/6K1 b - - 0 1",
        line="Bc5 Kf2 Bxd4+",
        must=("absolute pin",),
    ),
    Label(
        fen="6k1/5pp1/6n1/8/8/1B1Q4/5PPP/6K1 w - - 0 1",
        line="Qxg6",
        must=("absolute pin",),
    ),
    Label(
        fen="r5k1/5ppp/8/8/1b6/8/3B4/3K4 b - - 0 1",
        line="Rd8 Ke2 Rxd2+",
        must=("absolute pin",),
    ),
    Label(
        fen="2k5/8/4q3/8/8/7P/4BPP1/6K1 w - - 0 1",
        line="Bg4 Qxg4 hxg4",
        must=("absolute pin",),
    ),
    Label(
        fen="5bk1/5p1p/5PpQ/8/8/8/5PPP/3R2K1 w - - 0 1",
        line="Rd8",
        must=("absolute pin",),
    ),
    Label(
        fen="3r2k1/5ppp/8/2p5/8/3N4/8/3K4 b - - 0 1",
        line="c4 Ke2 cxd3+",
        must=("absolute pin",),
    ),
    Label(
        fen="1rb3k1/5ppp/p7/8/8/5Q2/8/7K b - - 0 1",
        line="Bb7 Qxb7 Rxb7",
        must=("absolute pin",),
    ),
    Label(
        fen="6k1/5p1p/1p4p1/2b5/8/3q2RP/6PK/7N b - - 0 1",
        line="Bd6 h4 Bxg3+",
        must=("absolute pin",),
    ),
    Label(
        fen="4Qbk1/4pp1p/6p1/5qB1/3B4/2p3P1/5P1P/3b2K1 w - - 0 1",
        line="Bh6 Qc8 Qxc8",
        must=("absolute pin",),
        may=("back-rank mate",),
    ),
    Label(
        fen="8/1k6/3b1P2/1p6/P3P3/2p3P1/2P5/1KBq4 b - - 0 51",
        line="Ba3 a5 Qxc1+ Ka2 Qb2#",
        must=("absolute pin",),
    ),
    Label(
        fen="2r3k1/4bppp/8/8/8/4Q3/5P2/5K2 b - - 0 1",
        line="Bc5",
        never=("absolute pin",),
    ),
    Label(
        fen="6k1/5p1p/4q3/8/8/8/1B3PPP/3R2K1 w - - 0 1",
        line="Rd8+",
        may=("back-rank mate",),
        never=("absolute pin",),
    ),
    Label(
        fen="3r2k1/4qppp/8/8/8/8/3Q1PPP/R5K1 b - - 0 1",
        line="Rxd2",
        never=("absolute pin",),
    ),
    Label(
        fen="4k3/3n4/8/8/Q7/8/3P1PPP/6K1 w - - 0 1",
        line="Qxd7+",
        never=("absolute pin",),
    ),
    Label(
        fen="r3k3/8/8/8/1b6/2N5/2R5/4K3 b - - 0 1",
        line="Rc8",
        never=("absolute pin",),
    ),
    Label(
        fen="4k3/8/2n5/1B6/8/2R5/8/4K3 w - - 0 1",
        line="Rxc6",
        never=("absolute pin",),
    ),
    Label(
        fen="6k1/5ppp/1q6/8/8/8/4R1PP/6K1 w - - 0 1",
        line="Rf2",
        never=("absolute pin",),
    ),
    Label(
        fen="6k1/4n1pp/8/8/8/5Q2/1B3PPP/6K1 w - - 0 1",
        line="Qb3+",
        never=("absolute pin",),
    ),
    Label(
        fen="7k/6p1/5n2/8/6P1/2B5/5P1P/6K1 w - - 0 1",
        line="g5 Kg8 gxf6",
        never=("absolute pin",),
    ),
    Label(
        fen="5rk1/1b3ppp/8/8/8/5Q2/8/7K b - - 0 1",
        line="Bxf3+",
        never=("absolute pin",),
    ),
    Label(
        fen="7k/8/5q2/8/8/8/5PPP/2B2RK1 w - - 0 1",
        line="Bb2 Qxb2",
        never=("absolute pin",),
    ),
    Label(
        fen="3q2k1/6pp/3n4/8/5B2/3B4/5PPP/3R2K1 w - - 0 1",
        line="Bc4+ Kh8 Bxd6",
        must=("relative pin",),
        may=("clearance", "deflection"),
    ),
    Label(
        fen="3q2k1/5ppp/8/3n4/8/8/2P2PPP/3R2K1 w - - 0 1",
        line="c4 Qb6 cxd5",
        must=("relative pin",),
    ),
    Label(
        fen="4r2k/5ppp/8/8/4N3/8/5PPP/4Q1K1 b - - 0 1",
        line="f5 Qb1 fxe4",
        must=("relative pin",),
    ),
    Label(
        fen="6k1/4ppp1/1b5p/8/3N4/8/6PP/6RK b - - 0 1",
        line="e5 Rd1 exd4",
        must=("relative pin",),
    ),
    Label(
        fen="6k1/2p2pp1/3q3p/8/3B4/8/5PPP/3R2K1 b - - 0 1",
        line="c5 Rd2 cxd4",
        must=("relative pin",),
    ),
    Label(
        fen="2r3k1/5ppp/8/2n5/8/8/1P3PPP/2R3K1 w - - 0 1",
        line="b4 Rc7 bxc5",
        must=("relative pin",),
    ),
    Label(
        fen="1k2r3/ppp2p2/8/8/4N3/8/PPP5/1K2Q3 b - - 0 1",
        line="f5 Qg3 fxe4",
        must=("relative pin",),
    ),
    Label(
        fen="k2r4/ppp5/8/8/3N4/8/PPP5/1K1Q4 b - - 0 1",
        line="c5 Qg1 cxd4",
        must=("relative pin",),
    ),
    Label(
        fen="1k6/1ppp4/p5b1/8/4N3/8/PP6/KR6 b - - 0 1",
        line="d5 Re1 dxe4",
        must=("relative pin",),
    ),
    Label(
        fen="1k6/1pp2p2/p3q3/8/4B3/8/PPP5/1K2R3 b - - 0 1",
        line="f5 Re2 fxe4",
        must=("relative pin",),
    ),
    Label(
        fen="1k3r2/ppp3p1/8/8/5N2/8/PPP5/1K3R2 b - - 0 1",
        line="g5 Rf2 gxf4",
        must=("relative pin",),
    ),
    Label(
        fen="6k1/5pp1/7p/4p3/6b1/5N2/5P1P/3Q2K1 b - - 0 1",
        line="e4 h3 Bxf3",
        never=("relative pin",),
    ),
    Label(
        fen="6k1/4pppp/1b6/8/3N4/8/6PP/6RK b - - 0 1",
        line="e5 Rd1 exd4",
        never=("relative pin",),
    ),
    Label(
        fen="r5k1/5ppp/n7/8/1P6/8/5PPP/R5K1 w - - 0 1",
        line="b5 Rb8 bxa6",
        never=("relative pin",),
    ),
    Label(
        fen="3r2k1/4bppp/8/8/8/2R3P1/5P1P/Q5K1 b - - 0 1",
        line="Bf6 Qc1 Bxc3",
        never=("relative pin",),
    ),
    Label(
        fen="3r2k1/5ppp/8/3b4/8/3Q4/2P2PPP/6K1 w - - 0 1",
        line="c4 Rd7 cxd5",
        never=("relative pin",),
    ),
    Label(
        fen="6k1/5p1p/5qp1/4n3/8/2B3P1/5P1P/7K w - - 0 1",
        line="f4 Qe7 fxe5",
        never=("relative pin",),
    ),
    Label(
        fen="r5k1/5ppp/n7/8/1P6/7P/5PP1/R5K1 w - - 0 1",
        line="b5 Rb8 bxa6",
        never=("relative pin",),
    ),
    Label(
        fen="6k1/1p3ppp/4b3/8/2N5/8/Q4PPP/6K1 b - - 0 1",
        line="b5 Qa8+",
        never=("relative pin",),
    ),
    Label(
        fen="6k1/q4ppp/8/2n5/8/4B2P/1P3PP1/6K1 w - - 0 1",
        line="b4 Qa1+",
        never=("relative pin",),
    ),
    Label(
        fen="3r2k1/5ppp/5b2/8/8/7P/3R1PP1/3Q2K1 b - - 0 1",
        line="Bg5 Rxd8+",
        never=("relative pin",),
    ),
    Label(
        fen="4r1k1/pp3ppp/8/4b3/8/7P/3P1PP1/4R1K1 w - - 0 1",
        line="d4",
        never=("relative pin",),
    ),
    Label(
        fen="3qr1k1/5pp1/7p/8/4B3/8/PP3PPP/4R1K1 b - - 0 1",
        line="f5",
        never=("relative pin",),
    ),
    Label(
        fen="r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1",
        line="Nc7+ Kd8 Nxa8",
        must=("fork",),
        why="king and rook",
    ),
    Label(
        fen="6k1/5ppp/8/3pp3/8/2N1B3/8/4K3 b - - 0 1",
        line="d4 Bxd4 exd4",
        must=("fork",),
    ),
    Label(
        fen="6k1/5pp1/1r5p/8/8/8/3Q1PPP/6K1 w - - 0 1",
        line="Qd8+ Kh7 Qxb6",
        must=("fork",),
        why="queen forks king and rook",
    ),
    Label(
        fen="6k1/5ppp/8/8/3n4/2Q5/5PPP/6K1 b - - 0 1",
        line="Ne2+ Kf1 Nxc3",
        must=("fork",),
    ),
    Label(
        fen="6k1/6pp/8/8/8/1r6/4BPPP/6K1 w - - 0 1",
        line="Bc4+ Kf8 Bxb3",
        must=("fork",),
        why="a bishop forks king and rook",
    ),
    Label(
        fen="rnbqkbnr/pp1p1ppp/8/4N3/3pP3/8/PPP2PPP/RNBQKB1R b KQkq - 0 4",
        line="Qa5+ Nc3 Qxe5",
        must=("fork",),
        why="king and knight",
        source="opening trap after 1. e4 c5 2. d4 cxd4 3. Nf3 e5 4. Nxe5, common practice, from memory",
    ),
    Label(
        fen="6k1/5ppp/8/8/1n3b2/8/5PPP/3R2K1 w - - 0 1",
        line="Rd4",
        must=("fork",),
    ),
    Label(
        fen="1k6/ppp5/8/8/4n3/8/8/3K3R b - - 0 1",
        line="Nf2+ Ke1 Nxh1",
        must=("fork",),
    ),
    Label(
        fen="1k6/ppp5/8/3pp3/8/3B1N2/8/3K4 b - - 0 1",
        line="e4 Bxe4 dxe4",
        must=("fork",),
    ),
    Label(
        fen="1k6/ppp1q3/8/8/8/P5R1/1PP5/1K6 b - - 0 1",
        line="Qe1+ Ka2 Qxg3",
        must=("fork",),
    ),
    Label(
        fen="r5k1/5ppp/8/1N4B1/8/8/5PPP/6K1 b - - 0 1",
        line="Ra5 Nc3 Rxg5",
        may=("skewer",),
        never=("fork",),
    ),
    Label(
        fen="2r1r1k1/5ppp/8/8/2N5/7P/5PP1/3R2K1 w - - 0 1",
        line="Nd6 Ra8 Nxe8",
        never=("fork",),
        why="two rooks",
    ),
    Label(
        fen="8/5k2/8/2r3n1/8/8/3K1P2/6R1 w - - 0 1",
        line="f4 Ne6 Rc1",
        never=("fork",),
    ),
    Label(
        fen="B5k1/5ppp/8/3q4/8/8/5PPP/R5K1 b - - 0 1",
        line="Qxa8",
        never=("fork",),
    ),
    Label(
        fen="q5k1/5ppp/8/1N6/8/8/5PPP/2R3K1 w - - 0 1",
        line="Nc7 Qb8 Nd5",
        never=("fork",),
    ),
    Label(
        fen="1b4k1/2q2ppp/8/2B5/8/8/5PPP/3Q2K1 b - - 0 1",
        line="Qxc5",
        never=("fork",),
    ),
    Label(
        fen="3r2k1/5pp1/7p/2n5/8/7P/5PP1/2R1R1K1 b - - 0 1",
        line="Nd3 Rc8 Nxe1",
        never=("fork",),
    ),
    Label(
        fen="6k1/1q4pp/5p2/3N4/8/8/6PP/R6K b - - 0 1",
        line="Qxd5",
        never=("fork",),
    ),
    Label(
        fen="2q2rk1/5ppp/8/8/2N5/7P/5PP1/6K1 w - - 0 1",
        line="Nd6 Qc1+ Kh2",
        never=("fork",),
    ),
    Label(
        fen="6k1/2q2ppp/8/1B6/8/8/5PPP/R4K2 b - - 0 1",
        line="Qe5",
        never=("fork",),
    ),
    Label(
        fen="r5k1/5ppp/8/8/1b6/8/2Q2PPP/6K1 w - - 0 1",
        line="Qe4 Re8",
        never=("fork",),
    ),
    Label(
        fen="6k1/2q2pp1/7p/1B6/8/7P/5PP1/R5K1 b - - 0 1",
        line="Qe5 Rb1",
        never=("fork",),
    ),
    Label(
        fen="4q3/8/8/4k3/8/8/6PP/R5K1 w - - 0 1",
        line="Re1+ Kd5 Rxe8",
        must=("skewer",),
    ),
    Label(
        fen="8/1r6/8/3k4/8/6P1/5PK1/3B4 w - - 0 1",
        line="Bf3+ Kc5 Bxb7",
        must=("skewer",),
    ),
    Label(
        fen="6k1/4b1pp/8/8/8/2K5/8/Q7 b - - 0 1",
        line="Bf6+ Kc2 Bxa1",
        must=("skewer",),
    ),
    Label(
        fen="6k1/r5pp/8/8/8/8/3K3R/8 b - - 0 1",
        line="Ra2+ Kd3 Rxh2",
        must=("skewer",),
    ),
    Label(
        fen="6k1/5bpp/8/8/8/3K4/8/1Q6 b - - 0 1",
        line="Bg6+ Ke3 Bxb1",
        must=("skewer",),
    ),
    Label(
        fen="4k2r/5p2/8/8/2r5/6K1/8/6Q1 b k - 0 1",
        line="Rg4+ Kxg4 Rg8+ Kf5 Rxg1",
        must=("skewer",),
        never=("decoy",),
    ),
    Label(
        fen="2b1k3/1p1p1p2/7R/6R1/8/Rp1r1rP1/5P1P/6K1 w - - 0 1",
        line="Rh8+ Ke7 Rxc8",
        must=("skewer",),
    ),
    Label(
        fen="6k1/3p1ppp/8/8/5r2/7P/6PK/1bBB4 b - - 0 1",
        line="Rf1 Ba4 Rxc1",
        must=("skewer",),
        may=("relative pin",),
    ),
    Label(
        fen="2r2nr1/1pq5/4k3/P1P1p1p1/P2pP1Pp/3B1P2/7P/2Q2RK1 w - - 1 29",
        line="Bc4+ Kd7 Bxg8",
        must=("skewer",),
        may=("absolute pin",),
    ),
    Label(
        fen="8/p4nkp/4p3/4n1pP/2r3P1/Pb2K2R/8/5R2 b - - 6 45",
        line="Rc3+ Kd2 Rxh3",
        must=("skewer",),
        may=("fork",),
    ),
    Label(
        fen="r1bqkb2/pppn1p2/3p1n2/1B5p/4P2p/PP1P4/2P3r1/2RK4 b q - 1 19",
        line="Rg1+ Kd2 Bh6+ Kc3 Bxc1",
        must=("skewer",),
    ),
    Label(
        fen="2b3k1/5ppp/8/8/2Q5/8/R4PPP/6K1 b - - 0 1",
        line="Be6 Qd3 Bxa2",
        never=("skewer",),
    ),
    Label(
        fen="5rk1/5ppp/8/2q5/8/B7/5PPP/6K1 w - - 0 1",
        line="Bxc5",
        never=("skewer",),
    ),
    Label(
        fen="6k1/5ppp/8/8/q2r4/8/5PPP/R5K1 w - - 0 1",
        line="Rxa4",
        never=("skewer",),
    ),
    Label(
        fen="2r5/8/2k5/8/8/8/6PP/1R4K1 w - - 0 1",
        line="Rc1+ Kb7 Rxc8",
        never=("skewer",),
    ),
    Label(
        fen="4qbk1/6pp/1R6/8/3Q4/8/5PPP/6K1 b - - 0 1",
        line="Bc5",
        never=("skewer",),
    ),
    Label(
        fen="6k1/5pp1/4q2p/3r4/8/5B1P/5PP1/6K1 w - - 0 1",
        line="Bxd5",
        never=("skewer",),
    ),
    Label(
        fen="4r1k1/4b1pp/8/8/3Q4/6P1/5PKP/R7 b - - 0 1",
        line="Bf6 Qd5+",
        never=("skewer",),
    ),
    Label(
        fen="r7/5pkp/2q3p1/8/8/7P/4BPP1/4R1K1 w - - 0 1",
        line="Bf3 Qc8 Bxa8",
        never=("skewer",),
    ),
    Label(
        fen="R1q1k2r/3pBp2/2b5/4P3/8/4p2P/4PPP1/1Q4K1 w - - 0 1",
        line="Rxc8+ Kxe7 Rxh8",
        never=("skewer",),
    ),
    Label(
        fen="4q3/8/8/4k3/8/8/2b3PP/R5K1 w - - 0 1",
        line="Re1+",
        never=("skewer",),
        why="with the bishop on c2 it wins nothing",
    ),
    Label(
        fen="3q2k1/5ppp/8/8/8/3B4/5PPP/3R2K1 w - - 0 1",
        line="Bxh7+ Kxh7 Rxd8",
        must=("discovered attack",),
        may=("decoy", "deflection"),
    ),
    Label(
        fen="r1b1kbnr/pp3ppp/4p3/3pP3/3q4/3B4/PP3PPP/RNBQK2R w KQkq - 0 9",
        line="Bb5+ Bd7 Qxd4",
        must=("discovered attack",),
        source="opening trap, from memory",
    ),
    Label(
        fen="rn1qkbnr/ppp2p1p/3p2p1/4p3/2B1P1b1/2N2N2/PPPP1PPP/R1BQK2R w KQkq - 0 5",
        line="Nxe5 dxe5 Qxg4",
        must=("discovered attack",),
        may=("clearance", "removing the defender"),
        source="Legal's trap, from memory",
    ),
    Label(
        fen="6k1/3Q1ppp/8/8/3n4/8/5PPK/3r4 b - - 0 1",
        line="Nf3+ gxf3 Rxd7",
        must=("discovered attack",),
    ),
    Label(
        fen="6k1/5p1p/8/q2B3R/8/8/5PPP/6K1 w - - 0 1",
        line="Bxf7+ Kxf7 Rxa5",
        must=("discovered attack",),
    ),
    Label(
        fen="4r1k1/5ppp/8/8/4B3/8/5PPP/4R1K1 w - - 0 1",
        line="Bxh7+ Kxh7 Rxe8",
        must=("discovered attack",),
    ),
    Label(
        fen="2r3k1/5ppp/8/2b5/8/8/5PPP/2Q3K1 b - - 0 1",
        line="Bxf2+ Kxf2 Rxc1",
        must=("discovered attack",),
    ),
    Label(
        fen="4kN2/1n1p1p2/1n1b4/8/1B2p3/1R6/PPP5/2K5 w - - 0 1",
        line="Bxd6 Nxd6 Rxb6",
        must=("discovered attack",),
        may=("deflection",),
    ),
    Label(
        fen="r2knq2/p5R1/1p2b2Q/2pPpp2/7P/P1NPN3/1P6/1R1BK3 w - - 1 38",
        line="Rd7+ Kc8 Qxf8",
        must=("discovered attack",),
    ),
    Label(
        fen="Qn4r1/p1q2k2/3bb2p/P3p3/1PpP4/R1P5/2NN1P2/5K2 b - - 1 31",
        line="Nc6 Qxa7 Nxa7",
        must=("discovered attack",),
    ),
    Label(
        fen="N2k3r/4pp1p/1p1p2pb/p4P2/2BP4/Q4NP1/P4K1P/q1B4R w - - 0 22",
        line="Bg5 Qxd4+ Nxd4",
        must=("discovered attack",),
    ),
    Label(
        fen="3r2k1/5ppp/8/8/3n4/8/5PPP/3Q2K1 b - - 0 1",
        line="Nf3+ gxf3 Rxd1+",
        never=("discovered attack",),
    ),
    Label(
        fen="6k1/5pbp/8/4n3/8/8/5PPP/R2Q2K1 b - - 0 1",
        line="Nf3+ Qxf3 Bxa1",
        never=("discovered attack",),
    ),
    Label(
        fen="r5k1/2q2ppp/8/8/4N3/8/5PBP/6K1 w - - 0 1",
        line="Nf6+ gxf6 Bxa8",
        never=("discovered attack",),
    ),
    Label(
        fen="6k1/1q3ppp/8/8/8/1N6/1R3PPP/6K1 w - - 0 1",
        line="Nc5",
        never=("discovered attack",),
    ),
    Label(
        fen="6k1/1r3ppp/8/8/1b6/8/1Q3PPP/5RK1 b - - 0 1",
        line="Ba3",
        never=("discovered attack",),
    ),
    Label(
        fen="6k1/5ppp/8/2q5/8/4P3/1B2N1PP/2R3K1 w - - 0 1",
        line="Rxc5",
        never=("discovered attack",),
    ),
    Label(
        fen="6k1/5ppp/4b3/3n4/8/8/Q4PPP/6K1 b - - 0 1",
        line="Nc3 Qxe6",
        never=("discovered attack",),
    ),
    Label(
        fen="6k1/q4pp1/7p/8/3N4/4B2P/5PP1/6K1 w - - 0 1",
        line="Nf5 Qxe3",
        never=("discovered attack",),
    ),
    Label(
        fen="3q2k1/2r2ppp/8/8/8/3B4/5PPP/3R2K1 w - - 0 1",
        line="Bxh7+",
        never=("discovered attack",),
        why="with the rook on c7 it wins nothing",
    ),
    Label(
        fen="r1b1kbnr/pp3ppp/4p3/3pP3/3q4/n2B4/PP3PPP/RNBQK2R w KQkq - 0 9",
        line="Bb5+",
        never=("discovered attack",),
        why="with the knight on a3 it wins nothing",
    ),
    Label(
        fen="rnbqkb1r/pppp1ppp/5n2/4N3/8/8/PPPPQPPP/RNB1KB1R w KQkq - 2 5",
        line="Nc6+ Be7 Nxd8",
        must=("discovered check",),
        source="opening trap, from memory",
    ),
    Label(
        fen="4r1k1/5ppp/8/Q3n3/8/8/PP3PPP/4K3 b - - 0 1",
        line="Nc4+ Kd1 Nxa5",
        must=("discovered check",),
    ),
    Label(
        fen="4k3/ppp3pp/8/8/4B3/8/q4PPP/4R1K1 w - - 0 1",
        line="Bd5+ Kd8 Bxa2",
        must=("discovered check",),
    ),
    Label(
        fen="6k1/1b3ppp/8/3r4/Q7/8/7P/7K b - - 0 1",
        line="Rd4+ Kg1 Rxa4",
        must=("discovered check",),
    ),
    Label(
        fen="4k3/ppq2ppp/3n4/4P3/8/8/5PPP/4R1K1 w - - 0 1",
        line="exd6+ Kd7 dxc7",
        must=("discovered check",),
    ),
    Label(
        fen="1Q1N2k1/5pp1/1nP4p/q7/8/8/PPP5/2K5 w - - 0 1",
        line="Nb7+ Kh7 Nxa5",
        must=("discovered check",),
    ),
    Label(
        fen="4k2r/p1p1B1pp/4Qp2/8/P3P1PP/3P4/1rP5/4KR2 w - - 1 33",
        line="Bxf6+ Kf8 Bd8#",
        must=("discovered check",),
    ),
    Label(
        fen="7k/3r1p1n/pp3N2/2p1Q2p/P1P2P1P/7P/4PB2/n2K2R1 w - - 0 30",
        line="Nd5+ f6 Qe8+",
        must=("discovered check",),
    ),
    Label(
        fen="1k1r4/ppp5/8/3n3Q/8/8/PPP3PP/3K4 b - - 0 1",
        line="Nf4+ Ke1 Nxh5",
        must=("discovered check",),
    ),
    Label(
        fen="1k1r4/ppp4Q/8/3b4/8/8/PP3PPP/3K4 b - - 0 1",
        line="Be4+ Ke1 Bxh7",
        must=("discovered check",),
    ),
    Label(
        fen="4r1k1/5ppp/8/4n3/Q7/8/8/4K3 b - - 0 1",
        line="Nc4+ Kd1",
        never=("discovered check",),
    ),
    Label(
        fen="4k3/pp3ppp/8/8/4N3/q7/5PPP/4R1K1 w - - 0 1",
        line="Nd6+ Kd8",
        may=("double check",),
        never=("discovered check",),
    ),
    Label(
        fen="rnbqkb1r/pppp1ppp/5n2/4N3/8/5b2/PPPPQPPP/RNB1KB1R w KQkq - 2 5",
        line="Nc6+",
        never=("discovered check",),
        why="with the bishop on f3 it wins nothing",
    ),
    Label(
        fen="2R1r1k1/5ppp/8/Q3n3/8/8/PP3PPP/4K3 b - - 0 1",
        line="Nc4+",
        never=("discovered check",),
        why="with the rook on c8 it wins nothing",
    ),
    Label(
        fen="4k3/ppp3pp/8/8/3nB3/8/q4PPP/4R1K1 w - - 0 1",
        line="Bd5+",
        never=("discovered check",),
        why="with the knight on d4 it wins nothing",
    ),
    Label(
        fen="6k1/1b3ppp/8/3r4/QB6/8/7P/7K b - - 0 1",
        line="Rd4+",
        never=("discovered check",),
        why="with the bishop on b4 it wins nothing",
    ),
    Label(
        fen="4k3/ppq2ppp/3n4/4P3/8/8/5PPP/r3R1K1 w - - 0 1",
        line="exd6+",
        never=("discovered check",),
        why="with the rook on a1 it wins nothing",
    ),
    Label(
        fen="rQ1N2k1/5pp1/1nP4p/q7/8/8/PPP5/2K5 w - - 0 1",
        line="Nb7+",
        never=("discovered check",),
        why="with the rook on a8 it wins nothing",
    ),
    Label(
        fen="4k2r/p1p1B1pp/4Qp2/6n1/P3P1PP/3P4/1rP5/4KR2 w - - 1 33",
        line="Bxf6+",
        never=("discovered check",),
        why="with the knight on g5 it wins nothing",
    ),
    Label(
        fen="7k/2br1p1n/pp3N2/2p1Q2p/P1P2P1P/7P/4PB2/n2K2R1 w - - 0 30",
        line="Nd5+",
        never=("discovered check",),
        why="with the bishop on c7 it wins nothing",
    ),
    Label(
        fen="rnbk1b1r/pp3ppp/2p5/4q3/4n3/8/PPPB1PPP/2KR1BNR w - - 0 10",
        line="Bg5+ Kc7 Bd8#",
        must=("double check",),
        source="Reti - Tartakower, Vienna 1910, from memory",
    ),
    Label(
        fen="4r1k1/5ppp/8/4n3/8/8/3P1P2/3QKB2 b - - 0 1",
        line="Nf3#",
        must=("double check", "double-check mate"),
        may=("smothered mate",),
    ),
    Label(
        fen="6k1/5ppp/8/2q5/8/8/5nPP/R4RK1 b - - 0 1",
        line="Nh3+ Kh1 Qg1+ Rxg1 Nf2#",
        must=("double check",),
        may=("smothered mate",),
    ),
    Label(
        fen="4r1k1/5ppp/8/8/8/4n3/PPPP1PPP/R1BQK2R b KQ - 0 1",
        line="Nxc2+ Kf1 Nxa1",
        must=("double check",),
        may=("fork",),
    ),
    Label(
        fen="4r1k1/5ppp/8/4b3/8/8/PP3PPP/3QK3 b - - 0 1",
        line="Bc3+ Kf1 Re1+",
        must=("double check",),
    ),
    Label(
        fen="1r5k/8/1n4p1/5p1B/3P4/6PP/PK1p4/2r2b1R b - - 2 40",
        line="Nc4#",
        must=("double check", "double-check mate"),
    ),
    Label(
        fen="rnb1rk2/ppp1bppp/8/3N4/3Q4/5P2/PPP3PP/R1B1KBNR b - - 0 10",
        line="Bb4+ Kf2 Be1#",
        must=("double check",),
        source="Reti - Tartakower, Vienna 1910, from memory (colours changed)",
    ),
    Label(
        fen="1k1r4/ppp5/8/3n4/8/8/2P1P3/2BKQ3 b - - 0 1",
        line="Nc3#",
        must=("double check", "double-check mate"),
        may=("smothered mate",),
    ),
    Label(
        fen="1k6/ppp5/8/5q2/8/8/PPn5/1KR4R b - - 0 1",
        line="Na3+ Ka1 Qb1+ Rxb1 Nc2#",
        must=("double check",),
        may=("smothered mate",),
    ),
    Label(
        fen="1k1r4/ppp5/8/3b4/8/8/PPP3PP/3KQ3 b - - 0 1",
        line="Bf3+ Kc1 Rd1+",
        must=("double check",),
    ),
    Label(
        fen="r1B2R2/4P1kp/pp6/4p3/b1P5/1P4N1/8/K5R1 w - - 2 40",
        line="Nf5#",
        must=("double check", "double-check mate"),
    ),
    Label(
        fen="3qk3/pp1p1ppp/8/8/4B3/8/5PPP/4R1K1 w - - 0 1",
        line="Bc6+ Kf8 Re8+",
        may=("discovered check",),
        never=("double check",),
    ),
    Label(
        fen="6k1/5p1p/6pB/8/8/8/5PPP/4R1K1 w - - 0 1",
        line="Re8#",
        may=("back-rank mate",),
        never=("double check",),
    ),
    Label(
        fen="2r3k1/5ppp/4b3/8/3b4/8/PPP5/2KR4 b - - 0 1",
        line="Be3+",
        never=("double check",),
    ),
    Label(
        fen="3k4/2pn4/2p5/8/8/8/3B4/3RK3 w - - 0 1",
        line="Bg5+",
        never=("double check",),
    ),
    Label(
        fen="3rk3/3b4/8/8/8/8/2P5/2BK4 b - - 0 1",
        line="Ba4+",
        may=("absolute pin", "discovered check"),
        never=("double check", "double-check mate"),
    ),
    Label(
        fen="rnbk1b1r/pp3ppp/2p4b/4q3/4n3/8/PPPB1PPP/2KR1BNR w - - 0 10",
        line="Bg5+",
        never=("double check",),
        why="with the bishop on h6 it wins nothing",
    ),
    Label(
        fen="6k1/5ppp/1B6/2q5/8/8/5nPP/R4RK1 b - - 0 1",
        line="Nh3+",
        never=("double check",),
        why="with the bishop on b6 it wins nothing",
    ),
    Label(
        fen="rnbRrk2/ppp1bppp/8/3N4/3Q4/5P2/PPP3PP/R1B1KBNR b - - 0 10",
        line="Bb4+",
        never=("double check",),
        why="with the rook on d8 it wins nothing",
    ),
    Label(
        fen="1k6/ppp5/8/5q2/8/8/PPn1R3/1KR4R b - - 0 1",
        line="Na3+",
        never=("double check",),
        why="with the rook on e2 it wins nothing",
    ),
    Label(
        fen="1k1r4/ppp5/8/3b4/8/8/PPP2RPP/3KQ3 b - - 0 1",
        line="Bf3+",
        never=("double check",),
        why="with the rook on f2 it wins nothing",
    ),
    Label(
        fen="6k1/1p3ppp/2n5/1B2b3/8/8/5PPP/4R1K1 w - - 0 1",
        line="Bxc6 bxc6 Rxe5",
        must=("removing the defender",),
        why="the knight defended the bishop",
    ),
    Label(
        fen="3r2k1/5ppp/8/8/3B2b1/5NP1/4PP1P/6K1 b - - 0 1",
        line="Bxf3 exf3 Rxd4",
        must=("removing the defender",),
    ),
    Label(
        fen="rq3rk1/ppp2ppp/5n2/6B1/8/3Q4/PPB2PPP/6K1 w - - 0 1",
        line="Bxf6 gxf6 Qxh7#",
        must=("removing the defender",),
        why="the knight defended h7",
    ),
    Label(
        fen="6k1/5ppp/5n2/6B1/4b3/8/5PPP/4R1K1 w - - 0 1",
        line="Bxf6 gxf6 Rxe4",
        must=("removing the defender",),
    ),
    Label(
        fen="3r2k1/5p1p/8/6p1/3N4/5N2/5PPP/6K1 b - - 0 1",
        line="g4 Nh4 Rxd4",
        must=("removing the defender",),
    ),
    Label(
        fen="6k1/pp3ppp/5n2/6B1/4r3/3B3P/5PPK/8 w - - 0 1",
        line="Bxf6 gxf6 Bxe4",
        must=("removing the defender",),
    ),
    Label(
        fen="6k1/5ppp/8/8/6rN/5bPq/5P1P/6K1 b - - 0 1",
        line="Rxh4 gxh4 Qg2#",
        must=("removing the defender",),
    ),
    Label(
        fen="1k4nr/4b1pp/2b2p2/ppP5/4p1P1/p5KP/P3N3/2Rr4 b - - 1 34",
        line="Rxc1 Nxc1 Bxc5",
        must=("removing the defender",),
        may=("deflection",),
    ),
    Label(
        fen="4r1k1/5ppp/8/8/8/5pPq/5P1P/3RN1K1 b - - 0 1",
        line="Rxe1+ Rxe1 Qg2#",
        must=("removing the defender",),
    ),
    Label(
        fen="1k1r4/ppp5/8/8/3B2b1/5N2/PPP3P1/1K6 b - - 0 1",
        line="Bxf3 gxf3 Rxd4",
        must=("removing the defender",),
    ),
    Label(
        fen="3r2k1/5ppp/2n5/3B4/1b6/2N4P/5PP1/3Q2K1 b - - 0 1",
        line="Bxc3",
        never=("removing the defender",),
    ),
    Label(
        fen="r5k1/1p3ppp/5n2/3n4/8/2N2B2/5PPP/3R2K1 w - - 0 1",
        line="Nxd5 Nxd5 Rxd5",
        never=("removing the defender",),
    ),
    Label(
        fen="6k1/p4ppp/1p3b2/2r5/3N4/1P2B3/P4PPP/2R3K1 b - - 0 1",
        line="Bxd4 Bxd4 Rxc1#",
        may=("overloaded piece",),
        never=("removing the defender",),
    ),
    Label(
        fen="6k1/5p1p/p3p1p1/3r4/2n5/1B6/PP3PPP/3R2K1 w - - 0 1",
        line="Bxc4 Rxd1+",
        never=("removing the defender",),
    ),
    Label(
        fen="4r1k1/pb3ppp/1p1n4/8/1P2N3/P7/1B3PPP/4R1K1 b - - 0 1",
        line="Nxe4",
        never=("removing the defender",),
    ),
    Label(
        fen="5k2/3r1pp1/2n4p/4b3/8/3R2PP/5PB1/4R1K1 w - - 0 1",
        line="Bxc6 Rxd3 Rxe5",
        never=("removing the defender",),
    ),
    Label(
        fen="3rr1k1/5ppp/8/b3p3/8/4B3/3N1P2/R3K3 b - - 0 1",
        line="Bxd2+ Bxd2",
        never=("removing the defender",),
    ),
    Label(
        fen="r2q1rk1/pp3ppp/2n5/3Np3/6b1/5N2/PPP1BPPP/R2Q1RK1 w - - 0 1",
        line="Nxe5",
        never=("removing the defender",),
    ),
    Label(
        fen="2r3k1/1p3ppp/p1n5/1N6/2B5/4P3/PP3PPP/6K1 b - - 0 1",
        line="axb5 Bxb5 Ne7",
        never=("removing the defender",),
    ),
    Label(
        fen="5rk1/5ppp/4pn2/8/1b6/2B2N2/5PPP/1R4K1 w - - 0 1",
        line="Bxf6 gxf6 Rxb4",
        never=("removing the defender",),
    ),
    Label(
        fen="r3r1k1/5ppp/1p3n2/2R5/4N3/3B4/5PPP/6K1 b - - 0 1",
        line="bxc5 Nxc5",
        never=("removing the defender",),
    ),
    Label(
        fen="r5k1/2q2ppp/2n5/8/3Q4/8/1B3PPP/6K1 w - - 0 1",
        line="Qxg7#",
        never=("removing the defender",),
    ),
    Label(
        fen="4r1k1/1b3ppp/8/3q3n/8/5N2/2Q2PPP/R5K1 b - - 0 1",
        line="Qxf3 gxf3",
        never=("removing the defender",),
    ),
    Label(
        fen="r4rk1/ppp2ppp/5n2/8/4P3/3Q4/PPB2PPP/6K1 w - - 0 1",
        line="e5 Nd5 Qxh7#",
        never=("removing the defender",),
    ),
    Label(
        fen="3r2k1/5ppp/8/b7/3N4/2B5/PP3PPP/6K1 b - - 0 1",
        line="Bxc3 bxc3",
        never=("removing the defender",),
    ),
    Label(
        fen="6k1/ppp2ppp/2n5/1B6/3q4/8/5PPP/3Q2K1 w - - 0 1",
        line="Bxc6 Qxd1+",
        never=("removing the defender",),
    ),
    Label(
        fen="6k1/5ppp/5n2/3R4/1b6/2N5/PPP2PPP/6K1 b - - 0 1",
        line="Bxc3 Rd8+",
        never=("removing the defender",),
    ),
    Label(
        fen="5bk1/ppp2ppp/5n2/8/4P3/3Q4/PPB2PPP/6K1 w - - 0 1",
        line="e5 g6 exf6",
        never=("removing the defender",),
    ),
    Label(
        fen="rn2kbnr/pppq2pp/5p2/3pp3/Q1P5/NP5P/P2PPP1P/R1B1KB1R b KQkq - 0 1",
        line="Qxa4 bxa4 Bxa3 Bxa3 dxc4",
        never=("removing the defender",),
        why="the bishop defends the knight as well: it is traded, and a pawn falls elsewhere",
    ),
    Label(
        fen="5qk1/5p1p/5PpQ/8/8/8/5PPP/4R1K1 w - - 0 1",
        line="Re8 Qxe8 Qg7#",
        must=("deflection",),
        may=("absolute pin", "decoy", "overloaded piece"),
        why="queen defended g7",
    ),
    Label(
        fen="4r1k1/2b2ppp/b2q4/8/8/1Q3N2/5PPP/6K1 b - - 0 1",
        line="Re1+ Nxe1 Qxh2#",
        must=("deflection",),
        may=("overloaded piece",),
    ),
    Label(
        fen="4kb1r/p2n1ppp/4q3/4p1B1/4P3/1Q6/PPP2PPP/2KR4 w k - 0 16",
        line="Qb8+ Nxb8 Rd8#",
        must=("deflection",),
        may=("back-rank mate", "decoy"),
        source="Morphy, Paris 1858, from memory",
    ),
    Label(
        fen="4r1k1/1q3ppp/8/8/8/1B6/5PPP/1R4K1 b - - 0 1",
        line="Qxb3 Rxb3 Re1#",
        must=("deflection", "overloaded piece"),
        may=("back-rank mate", "deflection"),
    ),
    Label(
        fen="5rk1/6pp/8/8/8/3B1Q2/6PP/6K1 w - - 0 1",
        line="Bxh7+ Kxh7 Qxf8",
        must=("deflection",),
        may=("overloaded piece",),
    ),
    Label(
        fen="4k3/3n1p2/4q3/6B1/8/1Q6/8/1K1R4 w - - 0 1",
        line="Qb8+ Nxb8 Rd8#",
        must=("deflection",),
    ),
    Label(
        fen="1k1r4/ppp5/8/8/8/qPp5/P1P5/1KQ5 b - - 0 1",
        line="Rd1 Qxd1 Qb2#",
        must=("deflection",),
        may=("absolute pin", "decoy", "overloaded piece"),
    ),
    Label(
        fen="1k1r4/ppp2b2/4q2b/8/8/2N3Q1/PPP5/1K6 b - - 0 1",
        line="Rd1+ Nxd1 Qxa2#",
        must=("deflection",),
        may=("overloaded piece",),
    ),
    Label(
        fen="1k1r4/ppp3q1/8/8/8/6B1/PPP5/1K4R1 b - - 0 1",
        line="Qxg3 Rxg3 Rd1#",
        must=("deflection", "overloaded piece"),
        may=("back-rank mate", "deflection"),
    ),
    Label(
        fen="1k6/pp6/2q1b3/8/8/8/PP6/1KR5 b - - 0 1",
        line="Bxa2+ Kxa2 Qxc1",
        must=("deflection",),
        may=("overloaded piece",),
    ),
    Label(
        fen="1r4k1/5ppp/3q4/8/3Q4/8/5PPP/3R2K1 b - - 0 1",
        line="Rb1 Rxb1 Qxd4",
        never=("deflection",),
    ),
    Label(
        fen="6k1/3q1ppp/8/8/4r3/5P2/5QPP/3R2K1 w - - 0 1",
        line="Rxd7",
        never=("deflection",),
    ),
    Label(
        fen="2r3k1/1q3ppp/5b2/8/8/1Q6/1B3PPP/2R3K1 b - - 0 1",
        line="Rxc1+ Bxc1 Qxb3",
        never=("deflection",),
    ),
    Label(
        fen="5rk1/5ppp/2q5/8/8/5Q2/5PPP/1B2R1K1 w - - 0 1",
        line="Bxh7+ Kxh7 Qxc6",
        never=("deflection",),
    ),
    Label(
        fen="r5k1/1q3ppp/6b1/8/8/1Q6/5PPP/R5K1 b - - 0 1",
        line="Rxa1+",
        may=("back-rank mate",),
        never=("deflection",),
    ),
    Label(
        fen="3q1rk1/5ppp/8/8/7b/8/3R1PPP/3R2KQ w - - 0 1",
        line="Rxd8",
        never=("deflection",),
    ),
    Label(
        fen="4r1k1/5ppp/1q6/8/3Q4/8/6PP/7K b - - 0 1",
        line="Re1+",
        may=("back-rank mate",),
        never=("deflection",),
    ),
    Label(
        fen="1k1r4/ppp5/8/8/8/4q3/PPP1Q3/1K1R4 w - - 0 1",
        line="Rxd8#",
        may=("back-rank mate",),
        never=("deflection",),
    ),
    Label(
        fen="2r3k1/2q2pp1/7p/8/8/8/5PPP/2RQ2K1 b - - 0 1",
        line="Qxc1 Qxc1 Rxc1#",
        never=("deflection",),
    ),
    Label(
        fen="5rk1/pp3ppp/8/2q5/8/1B6/PP2QPPP/4R1K1 w - - 0 1",
        line="Qe8 Rxe8 Rxe8#",
        never=("deflection",),
    ),
    Label(
        fen="3rr1k1/pppq1p1p/6p1/8/3Q4/8/PPP2PPP/R3R1K1 b - - 0 1",
        line="Rxe1+ Rxe1 Qxd4",
        never=("deflection",),
    ),
    Label(
        fen="3r3k/pp4pp/8/2n5/1Q1q4/8/PP3PPP/4RRK1 w - - 0 1",
        line="Re8+",
        may=("overloaded piece",),
        never=("deflection",),
    ),
    Label(
        fen="4r3/8/6k1/4R2p/5K2/8/8/8 b - - 0 1",
        line="Rxe5",
        never=("deflection",),
    ),
    Label(
        fen="6k1/6pp/8/8/8/q7/1p4PP/1R5K b - - 0 1",
        line="Qa1 Rxa1 bxa1=Q#",
        may=("absolute pin",),
        never=("deflection",),
    ),
    Label(
        fen="1r6/5k2/1R6/8/8/8/1p4K1/8 w - - 0 1",
        line="Rxb8",
        never=("deflection",),
    ),
    Label(
        fen="8/1P6/8/8/5k2/1r6/8/K6R w - - 0 1",
        line="Rh4+ Kg5 Rb4",
        never=("deflection",),
    ),
    Label(
        fen="2r5/6k1/8/8/8/8/1p3K2/1R6 b - - 0 1",
        line="Rc1 Rxb2 Rc2+",
        never=("deflection",),
    ),
    Label(
        fen="4r1k1/5ppp/3b4/8/8/8/3Q1PPP/4R1K1 b - - 0 1",
        line="Bb4 Rxe8+",
        never=("deflection",),
    ),
    Label(
        fen="r4qk1/5p1p/5PpQ/8/8/8/1R3PPP/6K1 w - - 0 1",
        line="Rb8 Rxb8",
        never=("deflection",),
    ),
    Label(
        fen="4r1k1/6pp/8/3b4/8/8/6PP/4RK2 b - - 0 1",
        line="Bxg2+ Kxg2 Rxe1",
        may=("overloaded piece",),
        never=("deflection",),
    ),
    Label(
        fen="2kr4/1p6/8/8/8/5B2/PP6/1K1R4 w - - 0 1",
        line="Bxb7+ Kxb7 Rxd8",
        may=("overloaded piece",),
        never=("deflection",),
    ),
    Label(
        fen="r6k/6pp/7N/8/2Q5/8/6PP/6K1 w - - 0 1",
        line="Qg8+ Rxg8 Nf7#",
        must=("decoy", "smothered mate"),
        may=("deflection",),
        source="old study pattern, from memory",
    ),
    Label(
        fen="7k/4q1pp/8/4N3/8/8/5PPP/3R2K1 w - - 0 1",
        line="Rd8+ Qxd8 Nf7+ Kg8 Nxd8",
        must=("decoy",),
    ),
    Label(
        fen="6k1/5ppp/3r4/8/7q/8/4n1PP/5R1K b - - 0 1",
        line="Qxh2+ Kxh2 Rh6#",
        must=("decoy",),
        may=("corridor mate",),
    ),
    Label(
        fen="rnbqk2r/pp3ppp/2p5/4N3/8/8/PPP2PPP/R2QKB1R w KQkq - 0 1",
        line="Qxd8+ Kxd8 Nxf7+ Ke7 Nxh8",
        must=("decoy",),
        may=("deflection", "overloaded piece"),
    ),
    Label(
        fen="rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9",
        line="Qd8+ Kxd8 Bg5+ Kc7 Bd8#",
        must=("decoy",),
        may=("clearance",),
        source="Reti - Tartakower, Vienna 1910, from memory",
    ),
    Label(
        fen="2r3k1/5ppp/8/8/3n4/4Q3/5PPP/6K1 b - - 0 1",
        line="Rc1+ Qxc1 Ne2+ Kf1 Nxc1",
        must=("decoy",),
    ),
    Label(
        fen="2k5/ppp5/4q1N1/5n2/5Q2/8/5PPP/2B2bK1 w - - 0 1",
        line="Qxf5 Qxf5 Ne7+ Kb8 Nxf5",
        must=("decoy",),
    ),
    Label(
        fen="1k6/pp6/8/5q2/8/n7/PP6/K6R b - - 0 1",
        line="Qb1+ Rxb1 Nc2#",
        must=("decoy", "smothered mate"),
        may=("deflection",),
        source="old study pattern, from memory (colours changed)",
    ),
    Label(
        fen="1k2r3/ppp5/8/8/3n4/8/PP1Q4/K7 b - - 0 1",
        line="Re1+ Qxe1 Nc2+ Kb1 Nxe1",
        must=("decoy",),
    ),
    Label(
        fen="6k1/5pp1/7p/8/8/8/5PPP/3R2K1 w - - 0 1",
        line="Rd8+ Kh7",
        never=("decoy",),
    ),
    Label(
        fen="6k1/pp3ppp/3q4/8/8/2N5/PP3PPP/3R2K1 w - - 0 1",
        line="Rxd6",
        never=("decoy",),
    ),
    Label(
        fen="r5k1/5ppp/8/3n4/8/5Q1P/6P1/6K1 b - - 0 1",
        line="Ra1+ Kf2",
        never=("decoy",),
    ),
    Label(
        fen="8/5pk1/2q3p1/7p/4N2P/6P1/5PK1/2R5 w - - 0 1",
        line="Rxc6",
        never=("decoy",),
    ),
    Label(
        fen="2r5/5pk1/6p1/7p/3n3P/6P1/2Q2PK1/8 b - - 0 1",
        line="Rxc2",
        never=("decoy",),
    ),
    Label(
        fen="8/4qpk1/6p1/7p/3N3P/6P1/5PK1/4R3 w - - 0 1",
        line="Rxe7 ",
        never=("decoy",),
    ),
    Label(
        fen="rnbq1rk1/pp3ppp/8/3Q4/8/8/PP3PPP/R1B2RK1 b - - 0 1",
        line="Qxd5",
        never=("decoy",),
    ),
    Label(
        fen="6k1/1p3pp1/p1q4p/8/3N4/1P6/P4PPP/2R3K1 w - - 0 1",
        line="Rxc6 bxc6 Nxc6",
        never=("decoy",),
    ),
    Label(
        fen="3r2k1/5ppp/8/8/2n5/6P1/Q4P1P/1R4K1 b - - 0 1",
        line="Rd1+ Rxd1",
        never=("decoy",),
    ),
    Label(
        fen="q6k/6p1/7p/4N3/8/8/5PPP/R5K1 w - - 0 1",
        line="Rxa8+",
        never=("decoy",),
    ),
    Label(
        fen="1r4k1/1r3ppp/8/4n3/8/1Q6/8/2K5 b - - 0 1",
        line="Rxb3",
        never=("decoy",),
    ),
    Label(
        fen="5k2/6pp/3q4/8/8/4N3/3R1PPP/6K1 w - - 0 1",
        line="Rxd6",
        never=("decoy",),
    ),
    Label(
        fen="2r3k1/5ppp/2Q5/8/5n2/8/3R1PPP/6K1 b - - 0 1",
        line="Rxc6",
        never=("decoy",),
    ),
    Label(
        fen="6k1/3r1ppp/8/5N2/3R4/8/5PPP/6K1 w - - 0 1",
        line="Rxd7",
        never=("decoy",),
    ),
    Label(
        fen="r3r1k1/ppp2ppp/8/8/3nP3/8/PPPQ1PPP/R3K2R b KQ - 0 1",
        line="Rxe4+",
        never=("decoy",),
    ),
    Label(
        fen="4k3/7p/7q/4N3/8/8/5PPP/3R2K1 w - - 0 1",
        line="Rd8+ Ke7",
        never=("decoy",),
    ),
    Label(
        fen="3qr1k1/5ppp/8/3n4/8/7P/5PP1/3QR1K1 w - - 0 1",
        line="Rxe8+ Qxe8 Qxd5",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="5rk1/6p1/7q/8/8/7N/6K1/5R2 b - - 0 1",
        line="Rxf1 Kxf1 Qxh3+",
        must=("overloaded piece",),
        may=("deflection", "removing the defender"),
    ),
    Label(
        fen="6k1/6pp/4p3/3n1b2/8/1B6/6PP/5RK1 w - - 0 1",
        line="Bxd5 exd5 Rxf5",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="3r2k1/1b3ppp/8/8/4P3/2N5/5PPP/6K1 b - - 0 1",
        line="Bxe4 Nxe4 Rd1#",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="6k1/1p3ppp/n1n5/1B6/8/8/5PPP/R5K1 w - - 0 1",
        line="Bxc6 bxc6 Rxa6",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="4r1k1/pp3pp1/7p/1q1Q4/8/8/PP4PP/3R3K b - - 0 1",
        line="Re1+ Rxe1 Qxd5",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="1r4k1/5p1p/4P1p1/7R/8/2n1r3/R2P1PPP/4B1K1 w - - 0 1",
        line="exf7+ Kxf7 Rxh7+",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="8/3pr1pk/7p/1p6/2P2Q2/4R2P/6PK/Nb1q4 b - - 0 1",
        line="Rxe3 Qxe3 bxc4",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="rn2k2r/2p1nppp/8/Pp2p1q1/1b4B1/3P2P1/PBPN1P1P/R2QK2R b KQkq - 0 12",
        line="Bxd2+ Qxd2 Qxg4",
        must=("overloaded piece",),
        may=("deflection",),
    ),
    Label(
        fen="3r3k/pp4pp/8/8/1Q1q4/8/PP3PPP/4R1K1 w - - 0 1",
        line="Re8+ Rxe8 Qxd4",
        never=("overloaded piece",),
    ),
    Label(
        fen="2b3k1/1r3pp1/7p/5N2/8/1N1Q4/5PPP/6K1 b - - 0 1",
        line="Bxf5 Qxf5 Rxb3",
        never=("overloaded piece",),
    ),
    Label(
        fen="b5kq/4rppp/8/8/RB6/8/4QKPP/8 b - - 0 1",
        line="Rxe2+ Kxe2 Bxg2",
        never=("overloaded piece",),
    ),
    Label(
        fen="3qr1k1/5ppp/8/3n2r1/8/7P/5PP1/3QR1K1 w - - 0 1",
        line="Rxe8+",
        never=("overloaded piece",),
        why="with the rook on g5 it wins nothing",
    ),
    Label(
        fen="5rk1/6p1/7q/8/8/7N/6K1/5RN1 b - - 0 1",
        line="Rxf1",
        never=("overloaded piece",),
        why="with the knight on g1 it wins nothing",
    ),
    Label(
        fen="6k1/6pp/4p3/3n1b2/8/1B6/4p1PP/5RK1 w - - 0 1",
        line="Bxd5",
        never=("overloaded piece",),
        why="with the pawn on e2 it wins nothing",
    ),
    Label(
        fen="4r1k1/1q3ppp/8/3B4/8/1B6/5PPP/1R4K1 b - - 0 1",
        line="Qxb3",
        never=("overloaded piece",),
        why="with the bishop on d5 it wins nothing",
    ),
    Label(
        fen="3r2k1/1b3ppp/8/8/4P3/2N5/2B2PPP/6K1 b - - 0 1",
        line="Bxe4",
        never=("overloaded piece",),
        why="with the bishop on c2 it wins nothing",
    ),
    Label(
        fen="6k1/1p3ppp/n1n5/1B6/8/1n6/5PPP/R5K1 w - - 0 1",
        line="Bxc6",
        never=("overloaded piece",),
        why="with the knight on b3 it wins nothing",
    ),
    Label(
        fen="4r1k1/ppN2pp1/7p/1q1Q4/8/8/PP4PP/3R3K b - - 0 1",
        line="Re1+",
        never=("overloaded piece",),
        why="with the knight on c7 it wins nothing",
    ),
    Label(
        fen="1r4k1/5p1p/6pQ/8/3R4/8/5PPP/B5K1 w - - 0 1",
        line="Rd8+ Rxd8 Qg7#",
        must=("clearance",),
        may=("deflection",),
    ),
    Label(
        fen="5rk1/5pp1/6P1/8/8/8/1K2PPP1/3Q3R w - - 0 1",
        line="Rh8+ Kxh8 Qh1+ Kg8 Qh7#",
        must=("clearance",),
        may=("decoy",),
    ),
    Label(
        fen="6k1/5pp1/7p/2p5/3n4/5rP1/3Q1P1P/4R1K1 b - - 0 1",
        line="Rxg3+ hxg3 Nf3+ Kg2 Nxd2",
        must=("clearance",),
        may=("deflection",),
    ),
    Label(
        fen="r4rk1/ppp3pp/8/6N1/8/3B4/PPQ2PPP/6K1 w - - 0 1",
        line="Bc4+ Kh8 Qxh7#",
        must=("clearance",),
        may=("discovered attack",),
    ),
    Label(
        fen="6k1/6pp/8/8/8/7n/5qPP/R6K b - - 0 1",
        line="Qg1+ Rxg1 Nf2#",
        must=("clearance", "decoy", "smothered mate"),
        may=("deflection",),
    ),
    Label(
        fen="5bk1/6p1/6P1/8/8/8/5PK1/R2B4 w - - 0 1",
        line="Bb3+ Kh8 Rh1#",
        must=("clearance",),
    ),
    Label(
        fen="5bk1/6p1/6P1/8/8/8/5PK1/Q2B4 w - - 0 1",
        line="Bb3+ Kh8 Qh1#",
        must=("clearance",),
    ),
    Label(
        fen="5rk1/5pp1/6P1/8/8/8/1K2PPP1/2Q4R w - - 0 1",
        line="Rh8+ Kxh8 Qh1+ Kg8 Qh7#",
        must=("clearance",),
        may=("decoy",),
    ),
    Label(
        fen="r3q3/1ppp2k1/8/8/8/1p6/1PP5/1KR5 b - - 0 1",
        line="Ra1+ Kxa1 Qa8+ Kb1 Qa2#",
        must=("clearance",),
        may=("decoy",),
    ),
    Label(
        fen="1k6/1pp5/p7/5p2/4n3/1Pr5/P1P1Q3/1K1R4 b - - 0 1",
        line="Rxb3+ axb3 Nc3+ Kb2 Nxe2",
        must=("clearance",),
        may=("deflection",),
    ),
    Label(
        fen="1k6/ppp2qpp/4b3/8/1n6/8/PP3PPP/1KR4R b - - 0 1",
        line="Bf5+ Ka1 Qxa2#",
        must=("clearance",),
        may=("discovered attack",),
    ),
    Label(
        fen="6k1/ppp3pp/7q/2b5/4n3/8/PPP3PP/R4R1K b - - 0 1",
        line="Ng3#",
        may=("absolute pin",),
        never=("clearance",),
    ),
    Label(
        fen="3q2k1/5ppp/1b6/8/8/4n3/6PP/3Q1R1K b - - 0 1",
        line="Qxd1 Rxd1",
        never=("clearance",),
    ),
    Label(
        fen="5rk1/5pp1/6P1/8/8/8/1K2PPP1/3Q1r1R w - - 0 1",
        line="Rh8+",
        never=("clearance",),
        why="with the rook on f1 it wins nothing",
    ),
    Label(
        fen="6k1/5pp1/7p/2p5/3n4/5rP1/3Q1P1P/4RRK1 b - - 0 1",
        line="Rxg3+",
        never=("clearance",),
        why="with the rook on f1 it wins nothing",
    ),
    Label(
        fen="r4rk1/ppp3pp/8/5nN1/8/3B4/PPQ2PPP/6K1 w - - 0 1",
        line="Bc4+",
        never=("clearance",),
        why="with the knight on f5 it wins nothing",
    ),
    Label(
        fen="6k1/6pp/1B6/8/8/7n/5qPP/R6K b - - 0 1",
        line="Qg1+",
        never=("clearance",),
        why="with the bishop on b6 it wins nothing",
    ),
    Label(
        fen="5bk1/6p1/6P1/8/5b2/8/5PK1/R2B4 w - - 0 1",
        line="Bb3+",
        never=("clearance",),
        why="with the bishop on f4 it wins nothing",
    ),
    Label(
        fen="5rk1/5pp1/6P1/6b1/8/8/1K2PPP1/2Q4R w - - 0 1",
        line="Rh8+",
        never=("clearance",),
        why="with the bishop on g5 it wins nothing",
    ),
    Label(
        fen="r2Nq3/1ppp2k1/8/8/8/1p6/1PP5/1KR5 b - - 0 1",
        line="Ra1+",
        never=("clearance",),
        why="with the knight on d8 it wins nothing",
    ),
    Label(
        fen="1k6/1pp5/p7/5p2/4n3/1PrR4/P1P1Q3/1K1R4 b - - 0 1",
        line="Rxb3+",
        never=("clearance",),
        why="with the rook on d3 it wins nothing",
    ),
    Label(
        fen="2r3k1/2r2ppp/8/8/8/8/5PPP/2R3K1 b - - 0 1",
        line="Rxc1#",
        must=("back-rank mate",),
    ),
    Label(
        fen="1r4k1/5ppp/8/8/3Q4/8/5PPP/3R2K1 w - - 0 1",
        line="Qd8+ Rxd8 Rxd8#",
        must=("back-rank mate",),
        may=("decoy", "deflection"),
    ),
    Label(
        fen="3r2k1/5ppp/8/8/8/8/5PPP/3RR1K1 w - - 0 1",
        line="Rxd8#",
        must=("back-rank mate",),
    ),
    Label(
        fen="1k3r2/ppp2r2/8/8/8/8/PPP5/1K3R2 b - - 0 1",
        line="Rxf1#",
        must=("back-rank mate",),
    ),
    Label(
        fen="3r2k1/5ppp/5b2/8/8/8/3B1PPP/6K1 b - - 0 1",
        line="Ba1",
        never=("back-rank mate",),
    ),
    Label(
        fen="2r1r1k1/5ppp/2q5/8/8/8/5PPP/2R1R1K1 b - - 0 1",
        line="Qxc1 Rxc1 Rxc1#",
        may=("absolute pin", "removing the defender"),
        never=("back-rank mate",),
    ),
    Label(
        fen="1r4k1/5ppp/8/8/3Q4/8/3p1PPP/3R2K1 w - - 0 1",
        line="Qd8+",
        never=("back-rank mate",),
        why="with the pawn on d2 it wins nothing",
    ),
    Label(
        fen="1r4k1/4bppp/8/8/3Q4/8/5PPP/3R2K1 w - - 0 1",
        line="Qd8+",
        never=("back-rank mate",),
        why="with the bishop on e7 it wins nothing",
    ),
    Label(
        fen="r1bqkb1r/pp1npppp/2p2n2/8/3PN3/8/PPP1QPPP/R1B1KBNR w KQkq - 3 6",
        line="Nd6#",
        must=("smothered mate",),
        may=("absolute pin",),
        source="opening trap, from memory",
    ),
    Label(
        fen="r1b1k2r/ppppqppp/2n5/4n3/1PP2B2/5N2/1P1NPPPP/R2QKB1R b KQkq - 0 8",
        line="Nd3#",
        must=("smothered mate",),
        may=("absolute pin",),
        source="opening trap, from memory",
    ),
    Label(
        fen="6rk/6pp/8/6N1/8/8/6PP/6K1 w - - 0 1",
        line="Nf7#",
        must=("smothered mate",),
    ),
    Label(
        fen="r1b1kbnr/ppppqppp/8/8/3n4/8/PPPPQPPP/RNB1KBNR b KQkq - 0 1",
        line="Nxc2+",
        may=("fork",),
        never=("smothered mate",),
    ),
    Label(
        fen="6k1/6pp/8/8/8/8/5nPP/5RRK w - - 0 1",
        line="Rxf2",
        never=("smothered mate",),
    ),
    Label(
        fen="r6k/6pp/7N/4n3/2Q5/8/6PP/6K1 w - - 0 1",
        line="Qg8+",
        never=("smothered mate",),
        why="with the knight on e5 it wins nothing",
    ),
    Label(
        fen="r1bqkb1r/pp1npppp/2p2n2/4p3/3PN3/8/PPP1QPPP/R1B1KBNR w KQkq - 3 6",
        line="Nd6+",
        never=("smothered mate",),
        why="with the pawn on e5 it wins nothing",
    ),
    Label(
        fen="r7/6k1/8/8/8/6P1/6PK/6R1 b - - 0 1",
        line="Rh8#",
        must=("corridor mate",),
    ),
    Label(
        fen="7r/1k6/8/8/8/1P6/KP6/1R6 b - - 0 1",
        line="Ra8#",
        must=("corridor mate",),
    ),
    Label(
        fen="8/8/6pp/7k/6pp/8/6K1/R7 w - - 0 1",
        line="Ra5#",
        never=("corridor mate",),
    ),
    Label(
        fen="r7/6k1/8/8/8/8/6PK/6R1 b - - 0 1",
        line="Rh8+ Kg3",
        never=("corridor mate",),
    ),
    Label(
        fen="7k/6p1/8/8/8/8/6K1/R7 w - - 0 1",
        line="Rh1+ Kg8",
        never=("corridor mate",),
    ),
    Label(
        fen="r7/6k1/8/6N1/8/6P1/6PK/6R1 b - - 0 1",
        line="Rh8+",
        never=("corridor mate",),
        why="with the knight on g5 it wins nothing",
    ),
    Label(
        fen="3rkr2/8/8/8/8/7Q/8/4K3 w - - 0 1",
        line="Qe6#",
        must=("epaulette mate",),
    ),
    Label(
        fen="5rkr/5p1p/8/8/4Q3/8/5PPP/6K1 w - - 0 1",
        line="Qg4#",
        must=("epaulette mate",),
    ),
    Label(
        fen="6k1/5ppp/8/1q6/8/8/2P1P3/2RKR3 b - - 0 1",
        line="Qd5#",
        must=("epaulette mate",),
    ),
    Label(
        fen="3k4/8/q7/8/8/8/8/2RKR3 b - - 0 1",
        line="Qd3#",
        must=("epaulette mate",),
    ),
    Label(
        fen="4k3/8/q7/8/8/8/8/3RKR2 b - - 0 1",
        line="Qe6+ Kd2",
        never=("epaulette mate",),
    ),
    Label(
        fen="4kr2/8/8/8/8/7Q/8/4K3 w - - 0 1",
        line="Qe6+ Kd8",
        never=("epaulette mate",),
    ),
    Label(
        fen="3rkr2/8/1r6/8/8/7Q/8/4K3 w - - 0 1",
        line="Qe6+",
        never=("epaulette mate",),
        why="with the rook on b6 it wins nothing",
    ),
    Label(
        fen="5rkr/5p1p/r7/8/4Q3/8/5PPP/6K1 w - - 0 1",
        line="Qg4+",
        never=("epaulette mate",),
        why="with the rook on a6 it wins nothing",
    ),
    Label(
        fen="3k4/2pn4/8/8/8/8/3B4/3RK3 w - - 0 1",
        line="Bg5+",
        never=("double-check mate",),
    ),
    Label(
        fen="4r1k1/5ppp/8/4n3/8/4R3/3P1P2/3QKB2 b - - 0 1",
        line="Nf3+",
        never=("double-check mate",),
        why="with the rook on e3 it wins nothing",
    ),
    Label(
        fen="1k1r4/ppp5/8/3n4/3N4/8/2P1P3/2BKQ3 b - - 0 1",
        line="Nc3+",
        never=("double-check mate",),
        why="with the knight on d4 it wins nothing",
    ),
)
