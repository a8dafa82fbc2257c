"""One look for every picture: one hue from dark to light, with number, hatch, marker and dash; reads in grey.

Pictures are matplotlib figures without pyplot. A notebook shows one as a PNG when it is the last word of a cell (or by
``IPython.display.display``); the page takes it as inline SVG with its text as text. Everything is laid out in inches
with fixed margins, which is quick and gives the same bytes every time.
"""

from __future__ import annotations

import io
import warnings
from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, Any, ParamSpec, Protocol, TypeVar

import matplotlib as mpl
from matplotlib.figure import Figure

from surfacecheck.assessment import CAUTION

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes

    from surfacecheck.model import Surface

__all__ = [
    "DASHES",
    "DEEP",
    "FONT",
    "HATCHES",
    "INK",
    "LINE",
    "MARKERS",
    "MID",
    "PALE",
    "RAMP",
    "STYLE",
    "WIDE",
    "Drawing",
    "axes_at",
    "broken",
    "drawing",
    "figure_text",
    "foot_of",
    "styled",
]

INK, DEEP, MID, PALE = RAMP = ("#12324A", "#3F6C8C", "#86A9BF", "#D3DFE7")
"""Dark to light. Words stand in the first two only: 13 and 5.6 to 1 against white."""
DASHES: tuple[Any, ...] = ("-", (0, (5, 2)), (0, (1, 1.3)), (0, (6, 2, 1.2, 2)), (0, (9, 2)), (0, (3, 1, 1, 1, 1, 1)))
MARKERS = ("o", "s", "^", "D", "v", "X", "P", "<")
HATCHES = ("", "//", "..", "xx", "\\\\", "++")
FONT = 11.0
"""Points. A picture 4.5 in wide on a phone of 390 px then has words of 12 px."""
WIDE = 4.5
LINE = 0.19
"""Height of a line of words [in]."""

STYLE: Any = {
    "font.size": FONT,
    "font.family": "sans-serif",
    "font.sans-serif": ["DejaVu Sans", "Arial", "Liberation Sans"],
    "text.color": INK,
    "axes.edgecolor": DEEP,
    "axes.labelcolor": INK,
    "axes.labelsize": FONT,
    "axes.titlesize": FONT,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.linewidth": 0.8,
    "axes.axisbelow": True,
    "axes.unicode_minus": True,
    "xtick.color": DEEP,
    "ytick.color": DEEP,
    "xtick.labelcolor": INK,
    "ytick.labelcolor": INK,
    "xtick.labelsize": FONT,
    "ytick.labelsize": FONT,
    "legend.fontsize": FONT,
    "legend.frameon": False,
    "lines.linewidth": 1.4,
    "lines.markersize": 5.0,
    "hatch.color": INK,
    "hatch.linewidth": 0.7,
    "patch.linewidth": 0.8,
    "figure.facecolor": "white",
    "axes.facecolor": "white",
    "savefig.facecolor": "white",
    "path.simplify": True,
    "svg.fonttype": "none",
    "svg.hashsalt": "surfacecheck",
    "text.parse_math": False,
    "text.usetex": False,
}
_PNG_DOTS = 130
_SHADES = 32
P = ParamSpec("P")
R = TypeVar("R")


class Drawing(Figure):
    """A figure that says in words what it shows, and that a notebook shows as a PNG.

    Attributes
    ----------
    words : str
        What it shows, for those who cannot see it.
    top, bottom : float
        The part left free by the words above and below [in].
    """

    words: str = ""
    top: float = 0.0
    bottom: float = 0.0

    @property
    def tall(self) -> float:
        """Height [in]."""
        return float(self.get_figheight())

    def png(self) -> bytes:
        """Give the picture as PNG, the same bytes every time; a single hue needs few shades, a quarter of the size."""
        from PIL import Image  # comes with matplotlib; not needed for the page

        out, small = io.BytesIO(), io.BytesIO()
        with mpl.rc_context(STYLE), warnings.catch_warnings():
            warnings.filterwarnings("ignore", message="Glyph")
            self.savefig(out, format="png", dpi=_PNG_DOTS, metadata={"Software": None})
        shades = Image.open(out).convert("RGB").quantize(_SHADES, dither=Image.Dither.NONE)
        shades.save(small, format="png", optimize=True)
        return small.getvalue()

    def _repr_png_(self) -> tuple[bytes, dict[str, str]]:
        """Give a notebook the picture, and to keep beside it the same words as the page has."""
        return self.png(), {"alt": self.words}

    def _repr_html_(self) -> None:  # the PNG is wanted, and the question would load pyplot
        return None

    def __repr__(self) -> str:
        return f"<picture: {self.words}>"


def styled(make: Callable[P, R]) -> Callable[P, R]:
    """Draw with the look of this package, whatever the reader's own settings are."""

    @wraps(make)
    def in_style(*args: P.args, **more: P.kwargs) -> R:
        with mpl.rc_context(STYLE):
            return make(*args, **more)

    return in_style


def drawing(tall: float, title: str, view: Sequence[str] = (), foot: Sequence[str] = (), words: str = "") -> Drawing:
    """Make an empty picture with its words above and below.

    Parameters
    ----------
    tall : float
        Height of the part to draw in [in]; the words come on top of that.
    title : str
        What it shows.
    view : sequence of str
        Lines below the title: where it is seen from, which case.
    foot : sequence of str
        Lines at the bottom: where it comes from, and the caution.
    words : str
        For those who cannot see it; the title and the view where empty.

    Returns
    -------
    Drawing
        With ``top`` and ``bottom`` of the part to draw in [in].
    """
    above = [*broken(title), *(line for one in view for line in broken(one))]
    below = [line for one in foot for line in broken(one)]
    bottom = LINE * len(below) + (0.08 if below else 0.0)
    height = bottom + tall + LINE * len(above) + 0.06
    fig = Drawing(figsize=(WIDE, height), dpi=100)
    fig.words = words or " ".join([title, *view])
    fig.bottom, fig.top = bottom, bottom + tall
    heads = len(broken(title))
    for i, line in enumerate(above):
        weight = "bold" if i < heads else "normal"
        figure_text(fig, 0.02, height - LINE * (i + 0.8), line, weight=weight)
    for i, line in enumerate(below):
        figure_text(fig, 0.02, bottom - 0.06 - LINE * (i + 0.8), line, color=DEEP)
    return fig


def figure_text(fig: Drawing, x: float, y: float, text: str, **more: Any) -> None:
    """Write at a place given in inches from the lower left."""
    fig.text(x / WIDE, y / fig.tall, text, **more)


def axes_at(fig: Drawing, left: float, bottom: float, wide: float, tall: float) -> Axes:
    """Add axes at a place given in inches from the lower left."""
    return fig.add_axes((left / WIDE, bottom / fig.tall, wide / WIDE, tall / fig.tall))


def broken(text: str, letters: int = 49) -> list[str]:
    """Break a text into lines that fit a picture (wide letters taken into account only on average)."""
    lines: list[str] = []
    for word in text.split():
        if lines and len(lines[-1]) + 1 + len(word) <= letters:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


class Shown(Protocol):
    """Anything that was worked of a surface."""

    @property
    def surface(self) -> Surface:
        """The surface."""
        ...


def foot_of(assessment: Shown, alone: bool) -> tuple[str, ...]:
    """Give the lines at the foot of a picture that leaves the page: file, hash, state, caution.

    Parameters
    ----------
    assessment : Shown
        What it was drawn from: an assessment, or a force that was followed.
    alone : bool
        False on the page, which says all this itself.

    Returns
    -------
    tuple of str
        Empty on the page.
    """
    if not alone:
        return ()
    surface = assessment.surface
    name = surface.path.replace("\\", "/").rsplit("/", 1)[-1]
    parts = [
        part for part in (name, surface.title, f"sheet {surface.sha256[:4].upper()}" if surface.sha256 else "") if part
    ]
    return (", ".join(parts) + ".", CAUTION)
