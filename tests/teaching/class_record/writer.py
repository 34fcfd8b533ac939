"""A program of a student: writes answers one by one, and notes each that was acknowledged."""

import os
import sys

from chessnb.teaching.class_record import ClassRecord, KeptAnswer


def main() -> None:
    path, acknowledged, name, first, last = sys.argv[1:]
    record = ClassRecord(path)
    with open(acknowledged, "ab", buffering=0) as notes:
        for number in range(int(first), int(last)):
            answer = KeptAnswer(
                id=f"{name}-{number:06d}",
                nickname=name,
                question=f"question {number % 10}",
                kind="all checks",
                prompt="Which checks can White give? Name them all.",
                fen="6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1",
                given="Ra8#",
                result="right",
                credit=1.0,
                at="2026-01-31T10:00:00Z",
            )
            record.add(answer)
            notes.write(f"{answer.id}\n".encode())
            os.fsync(notes.fileno())


if __name__ == "__main__":
    main()
