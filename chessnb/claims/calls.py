"""How a claim is called: the front door of the room."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any, TypeVar

from chessnb.findings import gathered
from chessnb.mistakes import fault_of_call

Function = TypeVar("Function", bound=Callable[..., Any])


def checked(function: Function) -> Function:
    """Answer a call that does not fit a claim in a teacher's words; see :mod:`chessnb.mistakes`.

    What it claims goes to the page that is open, and so does what is wrong with it.
    """

    @gathered
    @functools.wraps(function)
    def call(*args: Any, **options: Any) -> Any:
        try:
            return function(*args, **options)
        except TypeError as error:
            wrong = fault_of_call(function, args, options, error)
        raise wrong

    return call  # type: ignore[return-value]
