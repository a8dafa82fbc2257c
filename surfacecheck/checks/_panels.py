"""Panels of skin and web: where they wrinkle, as a fraction of limit load."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._effects import Effects
from surfacecheck.checks._spar import node_stress
from surfacecheck.library import metal_of
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.sections.box import sides_of
from surfacecheck.strength import member, shear_coefficient

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["bay_edges", "panel_checks", "skin_wrinkle"]

TN_3781 = Source(
    Basis.WORKED_OUT, "plate buckling, k_s of a simply supported panel, NACA TN 3781 form; k by Ritz series"
)
WRINKLES = "a skin that wrinkles below limit has not failed; its rows carry more (the margins of the rows have it)"


def bay_edges(effects: Effects) -> tuple[Array, Array]:
    """Ribs on either side of every station.

    Parameters
    ----------
    effects : Effects
        For ribs and stations.

    Returns
    -------
    tuple of ndarray, each of shape (S,)
        Place of the rib below and above [m]; the ends of the surface where there is none.
    """
    span = effects.span
    marks = np.unique(np.concatenate([[span.breaks[span.root]], span.breaks[list(span.ribs)], [span.breaks[span.tip]]]))
    middle = 0.5 * (span.breaks[span.bay] + span.breaks[span.bay + 1])
    upper = np.clip(np.searchsorted(marks, middle), 1, len(marks) - 1)
    return marks[upper - 1], marks[upper]


def _critical(effects: Effects, width: Array, t: Array, modulus: float, poisson: float) -> Array:
    """Shear flow at which a panel from rib to rib wrinkles, simply supported, its mean width in the bay [N/m], (S,)."""
    low, high = bay_edges(effects)
    length = high - low
    mean = 0.5 * (np.interp(low, effects.span.y, width) + np.interp(high, effects.span.y, width))
    short, long_ = np.minimum(length, mean), np.maximum(length, mean)
    k, short = shear_coefficient(long_, short)
    plate = np.pi**2 / (12.0 * (1.0 - poisson**2))
    return np.asarray(k * plate * modulus * (t / short) ** 2 * t)


def _skin(effects: Effects, side: str) -> tuple[Array, Array, float, str]:
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101 - callers ask for flows only where there are sections
    skin = getattr(surface.sheet, sides_of(surface)[side])
    metal = metal_of(surface, skin.alloy, skin.thickness)
    width = np.hypot(box.edge_x - box.web_x, 0.5 * box.height)
    t = box.skin_t[side]
    modulus = float(metal.modulus.si)  # type: ignore[arg-type]
    return _critical(effects, width, t, modulus, _poisson(metal.poisson)), t, modulus, sides_of(surface)[side]


def _poisson(value: Value) -> float:
    return 0.33 if value.si is None else float(value.si)  # type: ignore[arg-type]


def skin_wrinkle(effects: Effects, side: str, flow: Array | None = None) -> Array:
    """Shear flow at limit over the flow at which the skin panel wrinkles.

    Parameters
    ----------
    effects : Effects
        With flows.
    side : str
        ``plus`` or ``minus``.
    flow : ndarray, shape (C, S), optional
        Flow to compare [N/m]; the skin's own where not given.

    Returns
    -------
    ndarray, shape (C, S)
        Ratio [-].
    """
    critical, _, _, _ = _skin(effects, side)
    return np.asarray(np.abs(effects.mean(f"skin_{side}") if flow is None else flow) / critical)


def panel_checks(effects: Effects) -> Iterator[Check]:
    """Statements on when skins and web wrinkle, and the shear strength of skins.

    Parameters
    ----------
    effects : Effects
        With flows.

    Yields
    ------
    Check
        ``statement`` for wrinkling, ``margin`` for skin shear.
    """
    box = effects.box
    if box is None:
        return
    only = effects.only(~effects.control)
    factors = member()
    for side in ("plus", "minus"):
        if not box.has(f"skin_{side}"):
            continue
        critical, t, _, name = _skin(effects, side)
        words = effects.surface.said(name).replace("_", " ")
        flow = np.abs(only.mean(f"skin_{side}"))
        q = Term(flow, "line_load", f"shear flow of the {words} at limit")
        yield Check(
            f"panel.{name}",
            "wrinkles",
            f"panels of the {words}",
            "wrinkles in shear",
            "q_cr",
            "q",
            {"q_cr": Term(critical, "line_load", "shear flow at which the panel wrinkles"), "q": q},
            "q",
            only.cases,
            only.places,
            TN_3781,
            kind="statement",
            notes=(WRINKLES,),
            subject="this panel",
        )
        skin = getattr(effects.surface.sheet, name)
        metal = metal_of(effects.surface, skin.alloy, skin.thickness)
        if metal.shear.known and metal.tension.known:
            allowed = np.minimum(metal.shear.si, 0.5 * np.asarray(metal.tension.si))  # type: ignore[arg-type]
        else:
            allowed = None
        source = Source(
            Basis.FROM_MEMORY, "lesser of F_su and half F_tu (full diagonal tension at 45 degrees), NACA TN 2661"
        )
        yield Check(
            f"panel.{name}",
            "shear",
            f"the {words}",
            "tears in shear",
            "F_s * t",
            "FS * q",
            {
                "F_s": Term(allowed, "stress", f"shear strength of wrinkled {metal.name}", source, metal.shear.key),
                "t": Term(t, "length", f"thickness of the {words}"),
                "q": q,
                "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
            },
            "q",
            only.cases,
            only.places,
            source,
            factors=factors.line,
            subject="this skin",
        )
    yield from _web(only)


def _web(effects: Effects) -> Iterator[Check]:
    """Web between ribs: shear with bending, R_b^2 + R_s^2 = 1."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101 - panel_checks has looked
    spar = surface.sheet.spar
    metal = metal_of(surface, spar.alloy, spar.thickness)
    if not (metal.modulus.known and spar.thickness.known):
        return
    modulus, nu = float(metal.modulus.si), _poisson(metal.poisson)  # type: ignore[arg-type]
    t = box.web_t + 0.0 * box.height
    critical = _critical(effects, box.height, t, modulus, nu)
    bending = 23.9 * np.pi**2 / (12.0 * (1.0 - nu**2)) * modulus * (t / box.height) ** 2
    stress = 0.5 * np.abs(node_stress(effects, "corner_plus") - node_stress(effects, "corner_minus"))
    shear = np.abs(effects.peak("web")) * t / (t + box.doubler_t)
    yield Check(
        "panel.web",
        "buckles",
        "web of the spar",
        "buckles in shear and bending",
        "1",
        "sqrt((q / q_cr)**2 + (f_b / F_b)**2)",
        {
            "q": Term(shear, "line_load", "shear flow of the web leaf at limit"),
            "q_cr": Term(critical, "line_load", "shear flow at which it buckles"),
            "f_b": Term(stress, "stress", "bending stress over the depth at limit"),
            "F_b": Term(bending, "stress", "bending stress at which it buckles, k = 23.9"),
        },
        "q",
        effects.cases,
        effects.places,
        TN_3781,
        kind="statement",
        subject="this web",
        notes=("each leaf of web and doubler is taken alone",),
    )
