"""The vocabulary of records is closed, documented, and all that findings use.

``python tests/findings/test_record_kinds.py`` writes it into DEVELOPERS.md again.
"""

import json
import re
from pathlib import Path

import chess
import pytest
from boards import random_boards

from chessnb import charts, claims, facts, motifs, reply_table
from chessnb.claims.sentences import _SENTENCES
from chessnb.findings.record import read_records
from chessnb.findings.record_kinds import KINDS, STATUSES, TOKENS, fields_pattern
from chessnb.lessons import Lesson

ROOT = Path(__file__).parents[2]
GUIDE = ROOT / "DEVELOPERS.md"
FENCE = re.compile(r"(?<=<!-- the vocabulary of records -->\n```text\n).*?(?=```)", re.DOTALL)


def described() -> str:
    """Return the vocabulary as the developers' guide has it."""
    lines = ["What the words in capitals stand for", ""]
    lines += [f"  {name:<8} {token.says}" for name, token in TOKENS.items()]
    lines += ["", "How it is known", ""]
    lines += [f"  {name:<11} {says}" for name, says in STATUSES.items()]
    lines += ["", "Kinds and their fields", ""]
    for name, kind in KINDS.items():
        fields = f" | {kind.fields}" if kind.fields else ""
        lines += [f"  {name}{fields}", f"      {kind.says}"]
    return "\n".join(lines) + "\n"


def test_the_guide_has_the_whole_vocabulary():
    (written,) = FENCE.findall(GUIDE.read_text(encoding="utf-8"))
    assert written == described()


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_has_fields_that_can_be_read(kind):
    assert fields_pattern(kind)
    for word in re.findall(r"[A-Z]+", KINDS[kind].fields):
        assert word in TOKENS


def test_every_claim_has_its_sentence():
    others = {
        "material", "tactic", "pattern", "pawns", "files", "castling", "draw", "pressure",
        "exchange", "changes", "purpose", "replies", "chart", "position", "board", "explore", "lesson",
        "saved", "judgement", "engine", "question", "structure", "ending",
    }  # fmt: skip
    assert set(_SENTENCES) == set(KINDS) - others


# -- what findings use ------------------------------------------------------------------


def words_of_the_guide() -> set[str]:
    """Return the words that stand for themselves, read from the guide and not from the package."""
    (written,) = FENCE.findall(GUIDE.read_text(encoding="utf-8"))
    kinds = written.partition("Kinds and their fields")[2]
    first = [line for line in kinds.splitlines() if re.match(r"  \S", line)]
    section = written.partition("How it is known")[2].partition("Kinds and their fields")[0]
    statuses = re.findall(r"^  ((?:\w| (?! ))+)  ", section, re.MULTILINE)
    return set(re.findall(r"[a-z-]+", " ".join((*first, *statuses)))) | {
        "white", "black", "kingside", "queenside",
    }  # fmt: skip


def strange_words(line: str, known: set[str]) -> list[str]:
    """Return the words of a record that are neither chess notation, nor text, nor known."""
    bare = re.sub(r'"(?:[^"\\]|\\.)*"', "", line)
    bare = re.sub(r"(?:[1-8KQRBNPkqrbnp]+/){7}\S+ [wb] \S+ \S+ \d+ \d+", "", bare)  # a position
    move = r"[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](?:=[QRBN])?[+#]?|O-O(?:-O)?[+#]?"
    named = sorted((*motifs.names(), *FACTS_OF_PAWNS), key=len, reverse=True)
    bare = re.sub(rf"\b(?:{'|'.join(named)})\b", "", bare)
    left = re.sub(
        rf"(?<![\w=])(?:{move}|P?[a-h][1-8]|[QRBNP]+|K[QRBNP]*-K[QRBNP]*|-?\d+[.:/]*\d*|[a-h])(?![\w=])",
        "",
        bare,
    )
    return [word for word in re.findall(r"[\w-]+", left) if word not in known and word != "-"]


FACTS_OF_PAWNS = (
    "isolated pawn", "doubled pawns", "passed pawn", "backward pawn", "half-open file",
    "weak back rank", "uncastled king", "open file", "attackers and defenders",
)  # fmt: skip


def the_records() -> list[str]:
    """Return the records of many findings: of both lessons that are shipped, and of random play."""
    lines: list[str] = []
    for name in ("lantern-street", "motifs"):
        notebook = json.loads((ROOT / "notebooks" / f"{name}.ipynb").read_text(encoding="utf-8"))
        for cell in notebook["cells"]:
            for output in cell.get("outputs", ()):
                text = output.get("data", {}).get("text/plain") or output.get("evalue")
                lines += "".join(text).split("\n")
    for board in random_boards(60, seed=77):
        found: list[object] = [
            facts.material(board), facts.castling(board), facts.pawns(board), facts.files(board),
            facts.draws(board), facts.pressure(board, "e4"), facts.exchange(board, "d5"),
            facts.structure(board), facts.ending(board),
        ]  # fmt: skip
        found += [facts.changes(board, move) for move in list(board.legal_moves)[:3]]
        found.append(motifs.tags(board, geometric=True, facts=True, squares=["d4"]))
        lines += [line for one in found for line in str(one).split("\n")]
    return lines


@pytest.mark.thorough
def test_every_record_reads_and_has_no_word_that_is_not_in_the_guide():
    known = words_of_the_guide()
    lines = the_records()
    assert len(lines) > 1000
    kinds = set()
    for line in lines:
        (record,) = read_records(line)
        kinds.add(record.kind)
        assert strange_words(line, known) == [], line
    assert len(kinds) > 12


def test_strange_words_are_noticed():
    known = words_of_the_guide()
    assert strange_words("21. | tactic | fork | the knight forks | proved", known) == [
        "the", "knight", "forks",
    ]  # fmt: skip


def test_records_are_the_same_for_both_colours():
    board = chess.Board("r3k2r/pp3ppp/2n5/3p4/8/2N5/PPP2PPP/R3K2R w KQkq - 0 12")
    swap = {"white": "black", "black": "white"}
    for look in (facts.material, facts.castling, facts.pawns, facts.files, facts.structure):
        told, mirrored = (look(one).record for one in (board, board.mirror()))
        words = sorted(re.findall(r"[a-z-]{3,}", " ".join(told.fields)))
        others = re.findall(r"[a-z-]{3,}", " ".join(mirrored.fields))
        assert words == sorted(swap.get(word, word) for word in others)


# -- single findings --------------------------------------------------------------------

LESSON = Lesson.from_text("1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7#", title="Four | moves")
FORK = "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"


@pytest.mark.parametrize(
    ("find", "record"),
    [
        (lambda: LESSON, '"Four \\| moves" | lesson | moves 4 | given'),
        (lambda: facts.material("4k3/8/8/8/8/8/P7/4K3 w - - 0 9"),
         "9. | material | white P | white 1 points | rules"),
        (lambda: facts.exchange(FORK, "e7"), "1. | exchange | e7 | white | none | rules"),
        (lambda: LESSON.after("4. Qxf7#").changes(),
         "4. Qxf7# | changes | takes Pf7 | checkmate | rules"),
        (lambda: LESSON.after("3. Qh5").changes(),
         "3. Qh5 | changes | attacks Pe5 Pf7 Ph7 | pins Pf7 | undefended Qh5 Bc1 Pc2 | "
         "threatens Pf7 1 points | rules"),
        (lambda: reply_table(LESSON.after("3... Nf6").board, mate=1, within=1).record.fields[:2],
         "('43', 'checkmate: Qxf7#')"),
        (lambda: charts.pressure_on("f7", start=LESSON.start, end=LESSON.after("3. Qh5")),
         "3. Qh5 | chart | pressure white f7 | start: 0/1 | 2. Bc4: 1/1 | 3. Qh5: 2/0 | rules"),
        (lambda: motifs.tag(FORK, "Nc7+"),
         "1. Nc7+ | tactic | fork | by Nc7 | on Ra8 Ke8 | 2 points | proved"),
        (lambda: motifs.tags("4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1"),
         "1. | tactic | absolute pin | white | by Bb5 | on Nc6 Ke8 | 3 points | proved\n"
         "1. | tactic | hanging piece | white | on Nc6 | 3 points | proved"),
        (lambda: claims.material("start", "even"), "1. | material | even | rules"),
        (lambda: claims.attacked(FORK, "c7", by=1), "1. | attacked | c7 | attackers 1 | rules"),
        (lambda: claims.cannot_castle("start", "kingside"),
         "1. | cannot castle | white | kingside | rules"),
        (lambda: claims.judgement('a "hook" | g4'),
         '- | judgement | "a \\"hook\\" \\| g4" | judgement'),
    ],
)  # fmt: skip
def test_a_record(find, record):
    assert str(find()) == record


if __name__ == "__main__":
    text = GUIDE.read_text(encoding="utf-8")
    GUIDE.write_text(FENCE.sub(lambda _: described(), text), encoding="utf-8")
