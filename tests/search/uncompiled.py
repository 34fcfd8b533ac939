"""The core as it runs where nothing compiles it: the same file, loaded from its source."""

from __future__ import annotations

import importlib.util
from functools import cache
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import ModuleType

import chessnb.search

SOURCE = Path(chessnb.search.__file__).parent / "core.py"


@cache
def uncompiled() -> ModuleType:
    """Return the core, interpreted; its name is its own, so the compiled one stays in use."""
    loader = SourceFileLoader("chessnb_core_uncompiled", str(SOURCE))
    spec = importlib.util.spec_from_loader(loader.name, loader)
    assert spec is not None
    module = importlib.util.module_from_spec(spec)
    loader.exec_module(module)
    assert not module.compiled
    return module
