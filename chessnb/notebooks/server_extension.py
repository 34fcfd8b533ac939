"""An extension of the Jupyter server: a lesson saved by hand stays fit to be opened again.

When a teacher runs a lesson in JupyterLab and saves it, JupyterLab writes the
views of the live boards into the file.  Opened the next day, before any cell
is run, each would be a box that says that its model was not found.  This
extension takes widget views and widget state out of lessons as they are
saved, and the still diagrams beside them are shown instead.

In a notebook that is no lesson only this package's own boards are left out,
and other widgets stay as they are.  It never stops a save.
"""

from __future__ import annotations

from typing import Any

from chessnb.notebooks.live_parts import is_lesson, strip_own_widgets, strip_widgets


def strip_before_saving(*, model: dict[str, Any], **_: Any) -> None:
    """Take what is live out of a notebook that is about to be saved (a pre-save hook).

    Parameters
    ----------
    model : dict
        What the contents service was asked to save; its content is changed in place.

    Examples
    --------
    >>> view = {"application/vnd.jupyter.widget-view+json": {"model_id": "1f"}}
    >>> output = {"output_type": "display_data", "data": view | {"text/plain": "14. Nd5"}}
    >>> lesson = {"metadata": {"chessnb": {}}, "cells": [{"outputs": [output]}]}
    >>> strip_before_saving(model={"type": "notebook", "content": lesson}, path="fork.ipynb")
    >>> output["data"]
    {'text/plain': '14. Nd5'}
    """
    content = model.get("content")
    if model.get("type") != "notebook" or not isinstance(content, dict):
        return
    if is_lesson(content):
        strip_widgets(content)
    else:
        strip_own_widgets(content)


def _jupyter_server_extension_points() -> list[dict[str, str]]:
    """Tell the server where the extension is (a name that the server looks for)."""
    return [{"module": __name__}]


def _load_jupyter_server_extension(serverapp: Any) -> None:
    """Take part in saving (a name that the server looks for)."""
    serverapp.contents_manager.register_pre_save_hook(strip_before_saving)
