"""A picture as SVG inside a page: text as text, ids of its own, the same bytes every time."""

from __future__ import annotations

import hashlib
import io
import re
import warnings
from collections import Counter
from typing import TYPE_CHECKING

import matplotlib as mpl

from surfacecheck.report._style import STYLE

if TYPE_CHECKING:
    from surfacecheck.report._style import Drawing

__all__ = ["to_svg"]

_NO_DATE = {"Date": None, "Creator": None, "Format": None, "Type": None}
_NOT_WANTED = re.compile(
    r"<!--.*?-->\s*|<defs>\s*<style.*?</style>\s*</defs>\s*|[\x00-\x08\x0b\x0c\x0e-\x1f]", re.DOTALL
)
"""Comments, a style sheet that would reach the whole page, and signs that XML does not allow."""


def to_svg(fig: Drawing, prefix: str) -> str:
    """Give a picture as SVG to stand inside a page.

    Parameters
    ----------
    fig : Drawing
        The picture.
    prefix : str
        Put before every id, so that no two pictures of a page share one.

    Returns
    -------
    str
        From ``<svg`` on, text as text, with a role and a label; the same every time.
    """
    out = io.StringIO()
    with mpl.rc_context(STYLE), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph")
        fig.savefig(out, format="svg", metadata=_NO_DATE)
    text = out.getvalue()
    text = text[text.index("<svg") :].rstrip()
    text = _NOT_WANTED.sub("", text)
    asked = set(re.findall(r'(?:url\(#|href="#)([^")]+)', text))
    text = re.sub(r' \bid="([^"]*)"', lambda one: f' id="{prefix}-{one[1]}"' if one[1] in asked else "", text)
    text = text.replace("url(#", f"url(#{prefix}-").replace('href="#', f'href="#{prefix}-')
    view = re.search(r'viewBox="[^"]*"', text)
    assert view is not None  # noqa: S101 - matplotlib always writes one
    label = _attribute(fig.words)
    family = "font-family=\"'DejaVu Sans', Arial, sans-serif\""
    text = _shorter(text)
    spaces = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    head = f'<svg {view.group(0)} {spaces} role="img" aria-label="{label}" {family}>'
    return head + _styled(text[text.index(">") + 1 :])


def _styled(text: str) -> str:
    """Write each style that stands more than once as a class, called by what it says: so it reaches nothing else."""
    counts = Counter(re.findall(r'(?<= style=")[^"]*(?=")', text))
    names = {
        style: f"s{hashlib.blake2s(style.encode()).hexdigest()[:6]}" for style, count in counts.items() if count > 1
    }
    text = re.sub(r' style="([^"]*)"', lambda one: f' class="{names[one[1]]}"' if one[1] in names else one[0], text)
    rules = "".join(f".{name}{{{style}}}" for style, name in names.items())
    return f"<style>{rules}</style>{text}" if rules else text


def _shorter(text: str) -> str:
    """Leave out what no eye sees: the third decimal of a point, the family of every word, turns by nothing, spaces.

    Only what stands inside a tag is touched, never a word or a figure that is written.
    """
    text = re.sub(r"\s*\n\s*(?=<)", "", re.sub(r"<[^>]*>", lambda tag: _shorter_tag(tag[0]), text))
    open_groups: list[bool] = []
    return re.sub(r"<g\b[^>]*>|</g>", lambda tag: _group(tag[0], open_groups), text)


def _group(tag: str, kept: list[bool]) -> str:
    """Leave out a group that says nothing, and its end."""
    if tag == "</g>":
        return tag if kept.pop() else ""
    if not tag.endswith("/>"):
        kept.append(tag != "<g>")
    return "" if tag == "<g>" else tag


def _shorter_tag(tag: str) -> str:
    tag = re.sub(r"(\.\d\d)\d+", r"\1", tag)
    tag = re.sub(r"(?<=;) font-family: [^;\"]*;?", "", tag)
    tag = re.sub(r' transform="rotate\(-0 [^"]*"', "", tag)
    tag = re.sub(r' style="([^"]*)"', lambda style: f' style="{re.sub("([:;]) ", lambda one: one[1], style[1])}"', tag)
    return re.sub(r"(?<=[0-9]) (?=[MLQCz])", "", re.sub(r"\s*\n\s*", " ", tag))


def _attribute(text: str) -> str:
    for sign, written in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        text = text.replace(sign, written)
    return text
