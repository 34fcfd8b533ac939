"""The words for what a move changes: the telling few first, then the rest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from chessnb.board.naming import counted, listed
from chessnb.board.pieces import Piece, pieces_in_words
from chessnb.board.sides import SIDES
from chessnb.facts._comparison import Attack, ExchangeGain, Line, Pin
from chessnb.facts._move_changes import MoveChanges

LINE_LENGTH = 160
"""How many characters the line of a move may have."""

AND_MORE = "; and more"
"""Stands at the end of a line that could not hold all that is telling."""

QUIET = "a quiet move; nothing of note attacked, defended, opened or left undefended"
QUIET_SENTENCE = (
    "is a quiet move: it attacks, defends and opens nothing of note, and leaves nothing undefended"
)

LONG_LINE = 3
"""How many squares a line piece must gain or lose for that alone to be worth telling."""


def line(changes: MoveChanges) -> str:
    """Return the move with as many of its telling changes as the line holds."""
    phrases = list(telling_phrases(changes))
    if not phrases:
        return f"{changes.played}: {QUIET}"
    shown = phrases[: _how_many_fit(changes.played, phrases)]
    more = AND_MORE if len(shown) < len(phrases) else ""
    return f"{changes.played}: {'; '.join(shown)}{more}"


def paragraphs(changes: MoveChanges) -> tuple[str, ...]:
    """Return one sentence with the telling changes, and one with the rest if there are any."""
    phrases = list(telling_phrases(changes))
    told = phrases[: _how_many_fit(changes.played, phrases)]
    rest = [*phrases[len(told) :], *minor_phrases(changes)]
    first = _series(told) if told else QUIET_SENTENCE
    sentences = [f"{changes.played} {first}."]
    if rest:
        sentences.append(f"It also {_series(rest)}.")
    return tuple(sentences)


def _how_many_fit(played: str, phrases: list[str]) -> int:
    """Return how many phrases the line holds; one at least."""
    if len(f"{played}: {'; '.join(phrases)}") <= LINE_LENGTH:
        return len(phrases)
    length = len(played) + len(": ") + len(AND_MORE)
    for number, phrase in enumerate(phrases):
        length += len(phrase) + (len("; ") if number else 0)
        if length > LINE_LENGTH:
            return max(1, number)
    return len(phrases)


def _series(phrases: list[str]) -> str:
    """Join phrases that may hold an "and" of their own, so that the last joint stays clear."""
    if len(phrases) < 2:
        return "".join(phrases)
    return f"{', '.join(phrases[:-1])}, and {phrases[-1]}"


# -- what is telling ---------------------------------------------------------


def telling_phrases(changes: MoveChanges) -> Iterator[str]:
    """Run through the telling changes in the order in which they are told."""
    yield from _the_move_itself(changes)
    if changes.ends_the_game:
        return  # nothing else matters any more
    yield from _attacks(changes)
    yield from _pins(changes)
    yield from _offers(changes)
    yield from _opened(changes)
    yield from _costs(changes)
    yield from _gains(changes)
    yield from _help(changes)
    yield from _enemy_lines(changes)
    yield from _castling(changes)
    yield from _pawns(changes)
    for closed in changes.closed:
        if is_telling(closed):
            yield f"closes {closed.name} for {closed.by}"


def is_telling(line: Line) -> bool:
    """Say whether a line that opens or closes is worth a word."""
    return bool(line.attacks) or len(line.squares) >= LONG_LINE


def _the_move_itself(changes: MoveChanges) -> Iterator[str]:
    if changes.check == "checkmate":
        yield "mates"
    elif changes.check == "check":
        yield "gives check"
    elif changes.check:
        yield f"gives {changes.check} from {pieces_in_words(changes.checkers)}"
    if changes.forces_mate:
        yield "forces mate on the next move"
    if changes.stalemate:
        yield "stalemates"
    if changes.captured:
        yield f"takes {changes.captured}{' en passant' if changes.en_passant else ''}"
    if changes.move.promotion:
        yield f"promotes to a {changes.piece.name}"
    if changes.castles:
        yield f"castles {changes.castles}"
    if changes.answered:
        yield f"answers the check from {pieces_in_words(changes.answered)}"


def telling_attacks(changes: MoveChanges) -> list[Attack]:
    """Return the attacks worth a word: not those on pawns that are defended and stay so."""
    gains = {gain.piece for gain in changes.threatens}
    return [
        attack
        for attack in changes.attacks
        if attack.undefended or attack.target.name != "pawn" or attack.target in gains
    ]


def _attacks(changes: MoveChanges) -> Iterator[str]:
    if attacks := telling_attacks(changes):
        yield f"attacks {_targets(attacks)}"


def _targets(attacks: Iterable[Attack]) -> str:
    """Name what is attacked: the undefended pieces as such."""
    groups: dict[tuple[str, bool], list[Piece]] = {}
    for attack in attacks:
        pieces = groups.setdefault((attack.target.letter, attack.undefended), [])
        if attack.target not in pieces:
            pieces.append(attack.target)
    return listed(
        pieces_in_words(pieces).replace("the ", "the undefended ", 1)
        if undefended
        else pieces_in_words(pieces)
        for (_, undefended), pieces in groups.items()
    )


def _pins(changes: MoveChanges) -> Iterator[str]:
    for pin in changes.pins:
        if pin.by in changes.moved:
            yield f"pins {pin.piece} to the king"
        else:
            yield f"leaves {pin.piece} pinned by {pin.by}"


def telling_lines(changes: MoveChanges) -> list[Line]:
    """Return the lines opened to our pieces that are worth a word, those with a target first.

    Where a line only brings a check, the check has been told.
    """
    lines = [line for line in changes.opened if line.attacks or line.by not in changes.checkers]
    return sorted(filter(is_telling, lines), key=lambda line: not line.attacks)


def _offers(changes: MoveChanges) -> Iterator[str]:
    """Tell what may be taken: who mates next does not mind."""
    if changes.forces_mate:
        return
    if changes.offers:
        yield f"lets {SIDES[not changes.side]} gain {_points_where(changes.offers)}"
    if left := _left_to_be_taken(changes, pawns=False):
        yield f"leaves {pieces_in_words(left)} to be taken"


def _left_to_be_taken(changes: MoveChanges, *, pawns: bool) -> list[Piece]:
    """Return the pieces, or the pawns, that hung before the move and still hang."""
    return [gain.piece for gain in changes.leaves if (gain.piece.name == "pawn") == pawns]


def _opened(changes: MoveChanges) -> Iterator[str]:
    words = [f"{line.name} for {line.by}{_against(line)}" for line in telling_lines(changes)]
    if len(words) == 2:
        words = [" and ".join(words)]
    for word in words:
        yield f"opens {word}"


def _costs(changes: MoveChanges) -> Iterator[str]:
    offered = {gain.piece for gain in (*changes.offers, *changes.leaves)}
    if left := [piece for piece in _left_alone(changes) if piece not in offered]:
        yield f"leaves {pieces_in_words(left)} undefended"
    for pin in changes.gets_pinned:
        if pin.piece in changes.moved:
            yield f"walks into a pin by {_enemys(changes, pin.by)}"
        else:
            yield f"leaves {pin.piece} pinned by {_enemys(changes, pin.by)}"


def _left_alone(changes: MoveChanges) -> list[Piece]:
    """Return the pieces that have lost their last defender, those that moved left out."""
    return [piece for piece in changes.left_undefended if piece not in changes.moved]


def _gains(changes: MoveChanges) -> Iterator[str]:
    """Tell of gains that no attack on an undefended or dearer piece explains."""
    plain = {
        attack.target
        for attack in changes.attacks
        if attack.undefended or attack.target.points > attack.by.points
    } | {target for line in changes.opened for target in line.attacks}
    if further := [gain for gain in changes.threatens if gain.piece not in plain]:
        yield f"could next gain {_points_where(further)}"


def _points_where(gains: Iterable[ExchangeGain]) -> str:
    """Write points and squares; only one of the gains can be had at a time."""
    words = (f"{counted(gain.points, 'point')} on {gain.piece.square}" for gain in gains)
    return listed(words, joint="or")


def _help(changes: MoveChanges) -> Iterator[str]:
    defended = [defence.piece for defence in changes.defends]
    if changes.piece in changes.parries:
        yield f"brings the {changes.piece.name} out of attack"
    parried = [
        piece for piece in changes.parries if piece not in changes.moved and piece not in defended
    ]
    if parried:
        yield f"parries the attack on {pieces_in_words(parried)}"
    needed = {*changes.newly_defended, *changes.parries}
    helped = [
        piece for piece in dict.fromkeys(defended) if piece in needed and piece not in changes.moved
    ]
    if helped:
        yield f"defends {pieces_in_words(helped)}"
    for pin in changes.frees:
        yield f"frees {pin.piece} from the pin by {_enemys(changes, pin.by)}"


def _enemy_lines(changes: MoveChanges) -> Iterator[str]:
    for line in filter(is_telling, changes.closed_to_enemy):
        yield f"closes {line.name} to {_enemys(changes, line.by)}"
    for line in filter(is_telling, changes.opened_to_enemy):
        yield f"opens {line.name} to {_enemys(changes, line.by)}{_against(line)}"


def _against(line: Line) -> str:
    return f" against {pieces_in_words(line.attacks)}" if line.attacks else ""


def _enemys(changes: MoveChanges, piece: Piece) -> str:
    return f"{SIDES[not changes.side]}'s {str(piece).removeprefix('the ')}"


def _castling(changes: MoveChanges) -> Iterator[str]:
    own = [wing for side, wing in changes.castling_lost if side == changes.side]
    if own and len(changes.moved) == 1:
        yield f"gives up castling {listed(own)}"
    other = [wing for side, wing in changes.castling_lost if side != changes.side]
    if other:
        yield f"ends {SIDES[not changes.side]}'s right to castle {listed(other)}"


def _pawns(changes: MoveChanges) -> Iterator[str]:
    for piece in changes.passed:
        if piece.color == changes.side:
            yield f"makes a passed pawn on {piece.square}"
        else:
            yield f"gives {SIDES[piece.color]} a passed pawn on {piece.square}"
    for adjective in ("isolated", "doubled", "backward"):
        if pieces := getattr(changes, adjective):
            plural = "pawns" if len(pieces) > 1 else "pawn"
            squares = listed(sorted(piece.square for piece in pieces))
            yield f"leaves the {plural} on {squares} {adjective}"
    told = {line.name for line in telling_lines(changes)}
    for kind, letters in (
        ("opens", changes.files_opened),
        ("half-opens", changes.files_half_opened),
    ):
        if files := [
            f"the {letter}-file" for letter in letters if f"the {letter}-file" not in told
        ]:
            yield f"{kind} {listed(files)}"


# -- what is not -------------------------------------------------------------


def minor_phrases(changes: MoveChanges) -> Iterator[str]:
    """Run through changes that are only told after the telling ones."""
    if changes.ends_the_game:
        return
    told = telling_attacks(changes)
    if covered := [attack for attack in changes.attacks if attack not in told]:
        verb = "is" if len(covered) == 1 else "are"
        yield f"attacks {_targets(covered)}, which {verb} defended"
    needed = {*changes.newly_defended, *changes.parries}
    # Of king and rook in castling, one may take over what the other gives up.
    kept = {defence.piece for defence in changes.defends} & set(changes.stops_defending)
    done = needed | kept | set(changes.moved)
    if further := [defence.piece for defence in changes.defends if defence.piece not in done]:
        yield f"defends {pieces_in_words(dict.fromkeys(further))} once more"
    pawns = _left_to_be_taken(changes, pawns=True)
    if pawns and not changes.forces_mate:
        yield f"leaves {pieces_in_words(pawns)} to be taken"
    if changes.stops_attacking:
        yield f"no longer attacks {pieces_in_words(changes.stops_attacking)}"
    told_or_kept = {*_left_alone(changes), *kept}
    if gone := [piece for piece in changes.stops_defending if piece not in told_or_kept]:
        yield f"no longer defends {pieces_in_words(gone)}"
    released: tuple[Pin, ...] = changes.releases
    if released:
        yield f"lets {pieces_in_words(pin.piece for pin in released)} out of a pin"
