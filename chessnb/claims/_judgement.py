"""A judgement: a teacher's opinion, shown as such and never as a proof."""

from __future__ import annotations

from dataclasses import dataclass

from chessnb.claims.calls import checked
from chessnb.claims.claim import ClaimError
from chessnb.errors import as_given
from chessnb.findings import Finding, Record
from chessnb.findings.record import NOWHERE, quoted


@dataclass(frozen=True, kw_only=True)
class Judgement(Finding):
    """What a teacher thinks of a position.

    Attributes
    ----------
    text : str
        The opinion.
    """

    text: str

    @property
    def record(self) -> Record:
        """The opinion, called one."""
        fields = (quoted(self.text),)
        return Record(place=NOWHERE, kind="judgement", fields=fields, status="judgement")

    @property
    def words(self) -> str:
        """The opinion, called one."""
        return f"judgement: {self.text}"

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """The opinion, called one."""
        return (f"The teacher's judgement, not a proof: {self.text}.",)


@checked
def judgement(text: str) -> Judgement:
    """State an opinion; nothing is computed.

    Examples
    --------
    >>> print(judgement("easier to play for White"))
    - | judgement | "easier to play for White" | judgement
    """
    if not isinstance(text, str):
        raise ClaimError(f"a judgement is a text, not {as_given(text)}")
    return Judgement(text=" ".join(text.split()).rstrip("."))
