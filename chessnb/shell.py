"""What a teacher is told to type, so that it can be typed as it stands."""

from __future__ import annotations

import os
import re
import shlex

_PLAIN_ON_WINDOWS = re.compile(r"[\w\\/:.+-]+")


def typed(*words: str | os.PathLike[str], windows: bool = os.name == "nt") -> str:
    r"""Return words as this system's shell takes them: quoted where they must be.

    Parameters
    ----------
    *words : str or path
        A program and its arguments, or arguments alone.
    windows : bool
        Whether they are for PowerShell and the command prompt.

    Examples
    --------
    >>> typed("chessnb", "open", "my lessons/fork.ipynb", windows=False)
    "chessnb open 'my lessons/fork.ipynb'"
    >>> print(typed("open", r"C:\my lessons\fork.ipynb", windows=True))
    open "C:\my lessons\fork.ipynb"
    """
    texts = [os.fspath(word) for word in words]
    return " ".join(map(_for_windows, texts)) if windows else shlex.join(texts)


def _for_windows(text: str) -> str:
    """Quote for both of Windows' shells; a name with ``$`` or a backtick for PowerShell alone."""
    if _PLAIN_ON_WINDOWS.fullmatch(text):
        return text
    if set(text) & set("$`"):
        return "'" + text.replace("'", "''") + "'"
    return f'"{text}"'
