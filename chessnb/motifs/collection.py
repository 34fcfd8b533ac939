"""The collection of motifs: whatever module lies in :mod:`chessnb.motifs.tactics` is one.

No motif is named here: a module that is added there is found, told in the
place that its rank says, and looked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

from chessnb.motifs import tactics
from chessnb.motifs.motif import Motif


def _collected() -> Iterator[Motif]:
    for module in iter_modules(tactics.__path__):
        yield import_module(f"{tactics.__name__}.{module.name}").MOTIF


MOTIFS: tuple[Motif, ...] = tuple(sorted(_collected(), key=lambda motif: (motif.rank, motif.name)))
"""Every motif, in the order in which tags are told."""

BY_NAME: dict[str, Motif] = {motif.name: motif for motif in MOTIFS}
"""Every motif by its name; not to be changed."""
