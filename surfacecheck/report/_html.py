"""Templates filled in: every name escaped, nothing that a printer or a browser stumbles over."""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files
from typing import Any

from jinja2 import DictLoader, Environment, StrictUndefined, select_autoescape

__all__ = ["rendered", "templates"]


@lru_cache(maxsize=1)
def templates() -> Environment:
    """Read the templates of this package, once."""
    folder = files("surfacecheck.report") / "templates"
    texts = {
        one.name: one.read_text(encoding="utf-8") for one in folder.iterdir() if one.name.endswith((".html", ".css"))
    }
    return Environment(
        loader=DictLoader(texts),
        autoescape=select_autoescape(("html",)),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def rendered(template: str, **values: Any) -> str:
    """Fill in a template.

    Parameters
    ----------
    template : str
        Its name.
    **values : Any
        What stands in it; texts are escaped.

    Returns
    -------
    str
        HTML without signs that cannot be printed.
    """
    text = templates().get_template(template).render(**values)
    return "".join(sign for sign in text if sign in "\n\t" or sign.isprintable() or sign == "\u00a0") + "\n"
