"""Labelled positions for the motifs beyond the twelve: what must and what must not be named.

Made for these tests unless a source is named.  "Must" was decided from the
line by hand.  Every near miss is one that a hasty reader would name.  Games
are told by their moves, so that a test replays them; they and the studies are
from memory.
"""

from motifs.gold import Label

TORRE_LASKER = (
    "d4 Nf6 Nf3 e6 Bg5 c5 e3 cxd4 exd4 Be7 Nbd2 d6 c3 Nbd7 Bd3 b6 Nc4 Bb7 Qe2 Qc7 O-O O-O Rfe1 "
    "Rfe8 Rad1 Nf8 Bc1 Nd5 Ng5 b5 Na3 b4 cxb4 Nxb4 Qh5 Bxg5 Bxg5 Nxd3 Rxd3 Qa5 b4 Qf5 Rg3 h6 "
    "Nc4 Qd5 Ne3 Qb5 Bf6 Qxh5 Rxg7+ Kh8"
)
OPERA = (
    "e4 e5 Nf3 d6 d4 Bg4 dxe5 Bxf3 Qxf3 dxe5 Bc4 Nf6 Qb3 Qe7 Nc3 c6 Bg5 b5 Nxb5 cxb5 Bxb5+ Nbd7 "
    "O-O-O Rd8 Rxd7 Rxd7 Rd1 Qe6 Bxd7+ Nxd7"
)
NEW_YORK_1956 = (
    "Nf3 Nf6 c4 g6 Nc3 Bg7 d4 O-O Bf4 d5 Qb3 dxc4 Qxc4 c6 e4 Nbd7 Rd1 Nb6 Qc5 Bg4 Bg5 Na4 Qa3 "
    "Nxc3 bxc3 Nxe4 Bxe7 Qb6 Bc4 Nxc3 Bc5 Rfe8+ Kf1 Be6 Bxb6"
)
"""Byrne against Fischer, up to the windmill; from memory."""
START = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"


def _yes(motif: str, fen: str, line: str, why: str, source: str = "", led: str = "") -> Label:
    return Label(fen=fen, led=led, line=line, must=(motif,), why=why, source=source)


def _no(motif: str, fen: str, line: str, why: str, led: str = "") -> Label:
    return Label(fen=fen, led=led, line=line, never=(motif,), why=why)


HANGING = (
    _yes("hanging piece", "r4rk1/ppp2ppp/8/3n4/8/8/PPP2PPP/3RR1K1 w - - 0 1", "Rxd5",
         "nothing defends the knight"),
    _yes("hanging piece", "r3k3/8/8/8/2B5/8/1b3PPP/2R3K1 b - - 0 1", "Bxc1",
         "nothing defends the rook"),
    _yes("hanging piece", "4r1k1/5ppp/8/4n3/8/8/1B3PPP/4R1K1 w - - 0 1", "Bxe5 Rxe5 Rxe5",
         "one defender, and two that take"),
    _yes("hanging piece", "6k1/5ppp/5n2/8/4Q3/8/5PPP/6K1 b - - 0 1", "Nxe4",
         "the queen stands where a knight takes it"),
    _no("hanging piece", "6k1/5ppp/4p3/3n4/8/8/5PPP/3R2K1 w - - 0 1", "Rxd5 exd5",
        "the pawn defends the knight"),
    _no("hanging piece", "3r2k1/3r1ppp/8/3n4/8/8/3R1PPP/3R2K1 w - - 0 1", "Rxd5 Rxd5",
        "a second rook defends through the first"),
    _no("hanging piece", "3r2k1/5ppp/8/8/n7/8/5PPP/R5K1 w - - 0 1", "Rxa4 Rd1#",
        "the rook may not leave its back rank"),
    _no("hanging piece", "3r2k1/5ppp/8/3N4/4P3/8/5PPP/6K1 b - - 0 1", "Rxd5 exd5",
        "the pawn defends the knight"),
    _no("hanging piece", "3r2k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1", "Rxd8#",
        "it is mate: what it takes does not count"),
    _no("hanging piece", "6k1/5ppp/8/3p4/8/8/5PPP/3R2K1 w - - 0 1", "Rxd5",
        "a pawn is no piece"),
)  # fmt: skip

BATTERY = (
    _yes("battery", "r5k1/3r1ppp/8/8/8/8/3B1PPP/3R2K1 b - - 0 1", "Rad8 Kf1 Rxd2",
         "two rooks against one defender"),
    _yes("battery", "4nk2/5ppp/8/8/2B5/8/5PPP/3Q2K1 w - - 0 1", "Qd5 Ke7 Qxf7+",
         "the bishop behind lets the queen strike on f7"),
    _yes("battery", "2r3k1/2n2pp1/7p/8/8/8/2R2PPP/4R1K1 w - - 0 1", "Rec1 Kf8 Rxc7",
         "the knight must stay before the rook"),
    _yes("battery", "4r1k1/2q2pp1/7p/8/8/8/2N2PPP/2Q3K1 b - - 0 1", "Rc8 Qd1 Qxc2",
         "queen and rook against one defender"),
    _no("battery", "3r2k1/p2b1ppp/2n5/8/8/8/3R1PPP/R5K1 w - - 0 1", "Rad1 Kf8",
        "the bishop may leave: the knight defends the rook"),
    _no("battery", "3r2k1/3b1ppp/5n2/8/8/8/3R1PPP/R5K1 w - - 0 1", "Rad1 Kf8",
        "two defenders, and cheaper ones"),
    _no("battery", "4q1k1/2b2ppp/8/8/8/8/5PPP/1R3RK1 b - - 0 1", "Qe5 g3",
        "the pawn's step ends it"),
    _no("battery", "6k1/3b1ppp/8/8/8/8/3R1PPP/R5K1 w - - 0 1", "Rad1 Be6",
        "the bishop was undefended before, and goes"),
)  # fmt: skip

XRAY = (
    _yes("x-ray", "3r2k1/5ppp/8/8/q2Q4/8/5PPP/6K1 b - - 0 1", "Qd1+ Qxd1 Rxd1#",
         "the rook defends d1 through the queen"),
    _yes("x-ray", "6k1/5ppp/3p4/1pr5/8/7Q/5PPP/2R3K1 w - - 0 1", "Qc8+ Rxc8 Rxc8#",
         "the rook defends c8 through a rook"),
    _yes("x-ray", "3rr1k1/5ppp/8/8/3Q2b1/8/5PPP/3R2K1 b - - 0 1", "Bxd1 Qxd1 Rxd1+",
         "the rook defends d1 through the queen"),
    _yes("x-ray", "6k1/5ppp/b7/3p4/2q5/8/5PPP/R4BK1 w - - 0 1", "Rxa6 Qxa6 Bxa6",
         "the bishop defends a6 through the queen"),
    _no("x-ray", "6k1/5pp1/7p/Q2q4/8/8/5PPP/5RK1 w - - 0 1", "Qd8+ Qxd8",
        "nothing stands behind the queen on the file"),
    _no("x-ray", "4k3/5ppp/8/Q2q4/8/8/5PPP/3R2K1 w - - 0 1", "Qd8+ Qxd8 Rxd8+ Kxd8",
        "the king takes last"),
    _no("x-ray", "6k1/5ppp/8/Q2q4/8/3n4/5PPP/3R2K1 w - - 0 1", "Qd8+ Qxd8",
        "two pieces stand between"),
    _no("x-ray", "3b2k1/5ppp/8/8/q2Q4/8/5PPP/6K1 b - - 0 1", "Qd1+ Qxd1",
        "a bishop does not defend along a file"),
)  # fmt: skip

INTERFERENCE = (
    _yes("interference", "4k3/7B/3n4/3p4/8/8/1p3K2/8 b - - 0 1", "Ne4+ Ke3 b1=Q",
         "the knight cuts the bishop off from b1"),
    _yes("interference", "8/P2k4/8/7R/2P5/8/6b1/4K3 w - - 0 1", "Rd5+ Ke6 a8=Q",
         "the rook cuts the bishop off from a8"),
    _yes("interference", "8/8/6k1/7b/8/8/pn3K2/7R b - - 0 1", "Nd1+ Ke1 a1=Q",
         "the knight cuts the rook off from a1"),
    _yes("interference", "8/1P3k2/8/8/3P4/3N4/7b/4K3 w - - 0 1", "Ne5+ Ke6 b8=Q",
         "the knight cuts the bishop off from b8"),
    _no("interference", "8/1P3k2/8/8/8/3N4/7b/4K3 w - - 0 1", "Ne5+ Bxe5",
        "the bishop takes and defends b8 still"),
    _no("interference", "8/8/6k1/8/8/8/pn3K2/7R b - - 0 1", "Nd1+ Rxd1",
        "the rook takes and defends a1 still"),
    _no("interference", "8/1P3k2/8/8/3P4/1r1N4/7b/4K3 w - - 0 1", "Ne5+ Ke6 b8=Q Rxb8",
        "a rook defends b8 too"),
    _no("interference", "8/1P3k2/8/8/3P4/3N4/7n/4K3 w - - 0 1", "Ne5+ Ke6 b8=Q",
        "nothing defended b8"),
)  # fmt: skip

BETWEEN = (
    _yes("in-between move", "3q1rk1/5ppp/8/8/5n2/8/4BPPP/3Q1RK1 w - - 0 1", "Nxe2+ Kh1 Rxd8",
         "the bishop goes with check before the queen is taken back", led="Qxd8"),
    _yes("in-between move", "1b4k1/5pp1/2n4p/1Q6/3N4/8/5PPP/3R2K1 b - - 0 1", "Qxb8+ Kh7 Rxd4",
         "the queen leaves with check, and takes a bishop on the way", led="Nxd4"),
    _yes("in-between move", "4r1k1/5pp1/7p/7b/8/5N2/5PPP/4R1K1 b - - 0 1", "Rxe8+ Kh7 gxf3",
         "to take back at once would lose the rook", led="Bxf3"),
    _yes("in-between move", "4q1k1/5ppp/5n2/8/7B/7P/5PP1/4Q1K1 w - - 0 1", "Qxe1+ Kh2 gxf6",
         "the bishop has left its queen", led="Bxf6"),
    _no("in-between move", "4r1k1/5ppp/5n2/8/7B/7P/5PP1/6K1 w - - 0 1", "Re1+ Kh2 gxf6",
        "the check changes nothing", led="Bxf6"),
    _no("in-between move", "4r1k1/5ppp/5n2/8/7B/8/5PP1/5K2 w - - 0 1", "Rd8 Bxd8",
        "the move loses the recapture", led="Bxf6"),
    _no("in-between move", "4r1k1/5pp1/7p/7b/8/5N2/5PPP/R5K1 b - - 0 1", "gxf3",
        "that is the recapture itself", led="Bxf3"),
    _no("in-between move", "2b3k1/3q1pp1/7p/1B6/8/5Q2/r4PPP/7K w - - 0 1", "Ra1+ Qd1 Rxd1#",
        "it is mate, and nothing is taken back", led="Bxd7"),
)  # fmt: skip

DESPERADO = (
    _yes("desperado", "r3k2r/pppb1ppp/8/4p1q1/3Q3P/8/PPP2PPP/R3K2R w KQkq - 0 1",
         "Qxd7+ Kxd7 hxg5", "both queens hang: White's takes a bishop before it goes"),
    _yes("desperado", "r3k2r/ppp2ppp/8/3q3p/4P1Q1/8/PPPB1PPP/R3K2R b KQkq - 0 1",
         "Qxd2+ Kxd2 hxg4", "both queens hang: Black's takes a bishop before it goes"),
    _yes("desperado", "6k1/pp4pp/2pp4/4Nn2/6P1/8/PP3P1P/6K1 w - - 0 1", "Nxc6 bxc6 gxf5",
         "both knights hang: White's takes a pawn before it goes"),
    _yes("desperado", "5nk1/3p1ppp/p7/1B4b1/7P/6P1/5P2/6K1 w - - 0 1", "Bxd7 Nxd7 hxg5",
         "both bishops hang: White's takes a pawn before it goes"),
    _yes("desperado", "6k1/pp3p1p/8/6p1/4nN2/2PP4/PP3PPP/6K1 b - - 0 1", "Nxc3 bxc3 gxf4",
         "both knights hang: Black's takes a pawn before it goes"),
    _no("desperado", "6k1/pp4pp/2p5/4Nn2/6P1/8/PP3P1P/6K1 w - - 0 1", "Nxc6 bxc6 gxf5",
        "nothing attacks the knight on e5"),
    _no("desperado", "6k1/pp4pp/2pp4/4N3/8/8/PP3P1P/6K1 w - - 0 1", "Nxc6 bxc6",
        "the knight could simply go"),
    _no("desperado", "6k1/pp1b2pp/3p4/4N3/3R4/8/PP3P1P/6K1 w - - 0 1", "Nxd7",
        "nothing defends the bishop: the knight is not given"),
    _no("desperado", "6k1/pp3p1p/8/3p2p1/4nN2/2P3N1/PP3PPP/6K1 b - - 0 1", "Nxc3 bxc3 gxf4",
        "the knight on e4 is defended, not lost"),
)  # fmt: skip

TRAPPED = (
    _yes("trapped piece", "6k1/5ppp/8/1pp5/8/1B6/PPP2PPP/6K1 b - - 0 1", "c4 Bxc4 bxc4",
         "the pawns have shut the bishop in"),
    _yes("trapped piece", "6k1/5ppp/8/8/pP6/r1P5/P7/1K6 w - - 0 1", "Kb2 Rxc3 Kxc3",
         "the rook can only be sold for a pawn"),
    _yes("trapped piece", "5k1N/5p1p/6p1/8/8/8/5PPP/6K1 b - - 0 1", "Kg7 Nxf7 Kxf7",
         "the knight can only be sold for a pawn"),
    _yes("trapped piece", "8/B1k2ppp/1p6/8/8/8/5PPP/6K1 b - - 0 1", "Kb7 Bxb6 Kxb6",
         "the pawn has shut the bishop in"),
    _no("trapped piece", "6k1/5ppp/8/8/8/8/b1K2PPP/8 w - - 0 1", "Kb2 Bd5",
        "the long diagonal is open to it"),
    _no("trapped piece", "5k1N/5r1p/6p1/8/8/8/5PPP/6K1 b - - 0 1", "Kg7 Nxf7",
        "the knight is sold for a rook"),
    _no("trapped piece", "1r4k1/5ppp/8/8/8/1P6/b1K2PPP/8 w - - 0 1", "Kb2 Ra8",
        "a rook comes to defend it"),
    _no("trapped piece", "8/B1k2ppp/8/8/8/8/5PPP/6K1 b - - 0 1", "Kb7 Be3",
        "the bishop is not shut in"),
)  # fmt: skip

SACRIFICE = (
    _yes("sacrifice", START, "Nxe5 Bxd1 Bxf7+ Ke7 Nd5#", "the queen is left to be taken",
         "the trap named after Legal, from memory", led="e4 e5 Nf3 d6 Bc4 Bg4 Nc3 g6"),
    _yes("sacrifice", START, "Qb8+ Nxb8 Rd8#", "the queen is given for mate",
         "Morphy against two allies, Paris 1858, from memory", led=OPERA),
    _yes("sacrifice", "6k1/6pp/8/2q5/8/7n/6PP/R6K b - - 0 1", "Qg1+ Rxg1 Nf2#",
         "the queen is given for mate"),
    _yes("sacrifice", "3q2k1/6p1/8/6N1/8/8/5PP1/6KR w - - 0 1", "Rh8+ Kxh8 Nf7+",
         "the rook is given for a queen"),
    _no("sacrifice", "5r1k/6pp/8/6N1/2Q5/8/6PP/6K1 w - - 0 1", "Qg8+ Kxg8",
        "the queen is given for nothing"),
    _no("sacrifice", "3r2k1/5ppp/8/8/8/8/3R1PPP/3R2K1 w - - 0 1", "Rxd8#",
        "nothing can take the rook"),
    _no("sacrifice", "1r2k2r/2pp1p2/b2Q4/1p6/1P6/P1P1Bn2/6PR/RN2K3 w Qk - 0 18", "gxf3 cxd6",
        "the queen hung before the check was answered, and hangs on"),
    _no("sacrifice", START, "Bxf7+ Ke7 Nd5#", "the queen has been left a move before",
        led="e4 e5 Nf3 d6 Bc4 Bg4 Nc3 g6 Nxe5 a6"),
    _no("sacrifice", "r3k3/8/8/1pN1N3/8/8/8/4K1R1 w - - 0 1", "Rg8+ Ke7 Rxa8",
        "nothing is offered"),
    _no("sacrifice", "4k3/4n3/8/8/1N6/8/8/4R1K1 w - - 0 1", "Nd5 Kd7",
        "the knight that attacks d5 is pinned: nothing is offered"),
    _no("sacrifice", "3q1rk1/5ppp/3b4/8/8/5N2/5PPP/3Q1RK1 b - - 0 1", "Bxh2+ Nxh2 Qxd1",
        "a bishop is given for a pawn"),
)  # fmt: skip

THREAT = (
    _yes("threat", "5rk1/5ppp/8/8/8/8/2B2PPP/4Q1K1 w - - 0 1", "Qe4", "mate on h7"),
    _yes("threat", "r5k1/5ppp/8/8/8/8/1B3PPP/6K1 b - - 0 1", "Rd8", "mate on the back rank"),
    _yes("threat", "6k1/5ppp/8/3n4/8/2P5/5PPP/6K1 w - - 0 1", "c4", "to take the knight"),
    _yes("threat", "6k1/5ppp/8/3n4/8/8/5PPP/R3K3 b - - 0 1", "Nb4", "to fork king and rook"),
    _no("threat", "5rk1/5ppp/5n2/8/8/8/2B2PPP/4Q1K1 w - - 0 1", "Qb1", "the knight defends h7"),
    _no("threat", "6k1/5ppp/8/8/8/8/5PPP/6K1 w - - 0 1", "Kf1", "a king's quiet step"),
    _no("threat", "6k1/5ppp/4p3/3n4/8/8/5PPP/R5K1 w - - 0 1", "Rd1", "the knight is defended"),
    _no("threat", "r5k1/5ppp/8/8/8/6P1/1B3P1P/6K1 b - - 0 1", "Rd8", "the king has a way out"),
)  # fmt: skip

WINDMILL = (
    _yes("windmill", START, "Rxf7+ Kg8 Rg7+ Kh8 Rxb7+ Kg8 Rg7+ Kh8 Rg5+ Kh7 Rxh5",
         "the rook takes on the way", "Torre against Lasker, Moscow 1925, from memory",
         led=TORRE_LASKER),
    _yes("windmill", "r6k/pb3pRp/5B2/8/8/8/5PPP/6K1 w - - 0 1", "Rxf7+ Kg8 Rg7+ Kh8 Rxb7+",
         "the rook takes on the way"),
    _yes("windmill", "6k1/5ppp/8/8/8/5b2/PB3PrP/R6K b - - 0 1", "Rxf2+ Kg1 Rg2+ Kh1 Rxb2+",
         "the rook takes on the way"),
    _yes("windmill", "k1r5/pR1p1p2/8/8/8/8/6B1/6K1 w - - 0 1", "Rxd7+ Kb8 Rb7+ Ka8 Rxf7+",
         "the rook takes on the way"),
    _yes("windmill", START, "Bxc4+ Kg1 Ne2+ Kf1 Nxd4+ Kg1 Ne2+ Kf1 Nc3+ Kg1 axb6",
         "the bishop begins it, and the knight takes a pawn on the way",
         "Byrne against Fischer, New York 1956, from memory", led=NEW_YORK_1956),
    _yes("windmill", START, "Nxd4+ Kg1 Ne2+ Kf1 Nc3+ Kg1 axb6", "it has begun already",
         "Byrne against Fischer, New York 1956, from memory",
         led=f"{NEW_YORK_1956} Bxc4+ Kg1 Ne2+ Kf1"),
    _no("perpetual check", START, "Bxc4+ Kg1 Ne2+ Kf1 Nxd4+ Kg1 Ne2+ Kf1 Nc3+ Kg1 axb6",
        "it is a windmill", led=NEW_YORK_1956),
    _no("perpetual check", START, "Nc3+ Kg1 axb6", "it is the last turn of a windmill",
        led=f"{NEW_YORK_1956} Bxc4+ Kg1 Ne2+ Kf1 Nxd4+ Kg1 Ne2+ Kf1"),
    _no("windmill", "b6k/6Rp/5B2/8/8/8/5PPP/6K1 w - - 0 1", "Ra7+ Kg8 Rxa8+",
        "one discovered check, and the rook does not come back"),
    _no("windmill", "6rk/pb3pRp/5B2/8/8/8/5PPP/6K1 w - - 0 1", "Rxf7+ Rg7 Rxg7",
        "the rook comes between"),
    _no("windmill", "r6k/6Rp/5B2/8/8/8/5PPP/6K1 w - - 0 1", "Rf7+ Kg8 Rg7+ Kh8",
        "nothing is taken on the way"),
    _no("windmill", "4r1k1/5ppp/8/8/4n3/8/3Q1PPP/4K3 b - - 0 1", "Nxd2+",
        "one discovered check takes all"),
)  # fmt: skip

UNDERPROMOTION = (
    _yes("underpromotion", "8/2P5/8/8/3r4/8/2K5/k7 w - - 0 1", "c8=R Ra4 Kb3",
         "a queen would be given back for stalemate",
         "Saavedra, Weekly Citizen 1895, after five moves; from memory"),
    _yes("underpromotion", "7k/6pp/8/8/8/4Q3/3p1K2/8 b - - 0 1", "d1=N+ Kf3 Nxe3",
         "the knight forks king and queen"),
    _yes("underpromotion", "7n/5Ppk/7p/8/8/1B6/8/6K1 w - - 0 1", "f8=N#", "the knight mates"),
    _yes("underpromotion", "8/5P1k/5K2/8/8/8/8/8 w - - 0 1", "f8=R Kh6 Rh8#",
         "a queen would stalemate"),
    _no("underpromotion", "8/3P1k2/8/2q5/8/8/6PP/7K w - - 0 1", "d8=N+ Ke7",
        "the knight forks nothing"),
    _no("underpromotion", "8/5P2/7k/8/8/8/8/6K1 w - - 0 1", "f8=R", "a queen is better"),
    _no("underpromotion", "6k1/3P1ppp/8/8/8/8/6PP/7K w - - 0 1", "d8=R#", "a queen mates too"),
    _no("underpromotion", "7k/6pp/8/8/8/8/3p1K2/8 b - - 0 1", "d1=N+", "the knight forks nothing"),
)  # fmt: skip

PERPETUAL = (
    _yes("perpetual check", "7k/QR4pp/8/8/7q/8/6P1/6K1 b - - 0 1", "Qe1+ Kh2 Qh4+",
         "between e1 and h4"),
    _yes("perpetual check", "q4rk1/8/7Q/8/8/8/r5PP/7K w - - 0 1", "Qg6+ Kh8 Qh6+",
         "between g6 and h6"),
    _yes("perpetual check", "7k/R5pp/8/8/8/7q/8/Q4RK1 b - - 0 1", "Qg3+ Kh1 Qh3+",
         "between g3 and h3"),
    _yes("perpetual check", "2r1bk2/1R6/5N2/8/8/p7/n5PP/7K w - - 0 1", "Nh7+ Kg8 Nf6+",
         "the knight checks, the rook keeps the king in"),
    _no("perpetual check", "6k1/8/8/7Q/8/8/qr4PP/7K w - - 0 1", "Qe8+ Kg7",
        "the king walks out of the checks"),
    _no("perpetual check", "6k1/6p1/8/7Q/8/8/q4rPP/7K w - - 0 1", "Qe8+ Rf8",
        "the rook comes between"),
    _no("perpetual check", "6k1/6p1/8/7Q/8/8/6PP/7K w - - 0 1", "Qe8+ Kh7",
        "the side that is ahead needs no draw"),
    _no("perpetual check", "7k/R5pp/8/8/8/7q/6P1/Q4RK1 b - - 0 1", "Qe3+ Rf2",
        "the rook comes between"),
)  # fmt: skip

STALEMATE = (
    _yes("stalemate trick", "r5k1/5ppp/8/8/8/6q1/8/4R2K w - - 0 1", "Re8+ Rxe8",
         "the king has no square, and the rook goes"),
    _yes("stalemate trick", "4r2k/8/6Q1/8/8/8/5PPP/R5K1 b - - 0 1", "Re1+ Rxe1",
         "the king has no square, and the rook goes"),
    _yes("stalemate trick", "5rk1/5ppp/8/8/4Q3/1q6/8/K7 w - - 0 1", "Qxh7+ Kxh7",
         "the king has no square, and the queen goes"),
    _yes("stalemate trick", "k7/8/1Q6/8/8/8/6rP/6RK b - - 0 1", "Rxh2+ Kxh2",
         "the king has no square, and the rook goes"),
    _no("stalemate trick", "r5k1/5ppp/8/8/8/6q1/P7/4R2K w - - 0 1", "Re8+ Rxe8",
        "the pawn still moves"),
    _no("stalemate trick", "4r2k/8/6Q1/8/7p/8/5PPP/R5K1 b - - 0 1", "Re1+ Rxe1",
        "the pawn still moves"),
    _no("stalemate trick", "5rk1/5ppp/8/8/4Q3/3q4/8/K7 w - - 0 1", "Qxh7+ Qxh7",
        "the queen takes and lets the king go"),
    _no("stalemate trick", "7k/8/5K2/8/8/8/8/6R1 w - - 0 1", "Kf7",
        "the side that is ahead stalemates by mistake"),
)  # fmt: skip

ZUGZWANG = (
    _yes("zugzwang", "8/8/2K5/4p3/4Pk2/8/8/8 w - - 0 1", "Kd5 Kf3 Kxe5",
         "the king must leave its pawn", "the oldest of pawn endings, from memory"),
    _yes("zugzwang", "2k5/8/1KP5/8/8/8/8/8 w - - 0 1", "c7 Kd7 Kb7",
         "the king must make way for the pawn"),
    _yes("zugzwang", "8/8/8/4pK2/4P3/2k5/8/8 b - - 0 1", "Kd4 Kf6 Kxe4",
         "the king must leave its pawn"),
    _yes("zugzwang", "kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1", "Ra6 bxa6 b7#",
         "every move of Black's opens a way to mate", "Morphy, about 1850, from memory"),
    _no("zugzwang", "k1K5/pp6/1P6/8/8/8/6b1/R7 w - - 0 1", "Ra6 Bh3+",
        "the bishop has moves to spare"),
    _no("zugzwang", "8/7p/2K5/4p3/4Pk2/8/8/8 w - - 0 1", "Kd5 h6", "the pawn has moves to spare"),
    _no("zugzwang", "6k1/5ppp/8/8/8/1P6/b1K2PPP/8 w - - 0 1", "Kb2 Kf8",
        "the bishop would be taken after a pass too"),
    _no("zugzwang", "8/8/8/4pK2/4P3/2k5/7P/8 b - - 0 1", "Kd4 h3", "the pawn has moves to spare"),
)  # fmt: skip

LABELS = (
    *HANGING, *BATTERY, *XRAY, *INTERFERENCE, *BETWEEN, *DESPERADO, *TRAPPED, *SACRIFICE, *THREAT,
    *WINDMILL, *UNDERPROMOTION, *PERPETUAL, *STALEMATE, *ZUGZWANG,
)  # fmt: skip
