"""A rivet, the sheets it joins, and its load at every spot."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.checks._item import Item
from surfacecheck.library import by_handbook
from surfacecheck.strength import Factors, fitting, joint_by_test

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks._check import Term
    from surfacecheck.checks._names import Names
    from surfacecheck.library import Material
    from surfacecheck.model import Rivet, Surface
    from surfacecheck.provenance import Value

    Array = NDArray[np.float64]


__all__ = ["Hole", "Joint", "Layer", "factors_of"]


class Hole(NamedTuple):
    """A hole that is not as its rivet's packet says.

    Attributes
    ----------
    bears, tears, between : Term
        Its width square to the load, along the load, and along the row.
    too_wide : bool
        Whether it is wider than the rivet is made for.
    """

    bears: Term
    tears: Term
    between: Term
    too_wide: bool


@dataclass(frozen=True, eq=False)
class Layer:
    """One sheet under a rivet.

    Attributes
    ----------
    name : str
        Key in the file, ``left_skin``, ``spar``, ``bracket`` ...
    words : str
        In words.
    thickness : Value
        Of the sheet.
    metal : Material
        Its metal.
    edge : Value
        Hole centre to edge.
    load : ndarray, shape (cases, spots)
        What this sheet hands to one rivet at limit [N].
    hole : Hole or None
        Its own hole, where that differs from the rivet's.
    edges : ndarray, shape (..., 1, spots), or None
        The edge at each spot, where it is not the same at all [m].
    """

    name: str
    words: str
    thickness: Value
    metal: Material
    edge: Value
    load: Array
    hole: Hole | None = None
    edges: Array | None = None


@dataclass(frozen=True, eq=False)
class Joint:
    """A rivet, its sheets, and its load at every spot.

    Attributes
    ----------
    place, part : str
        Path and words.
    rivet : Rivet
        From the file.
    layers : tuple of Layer
        From the head inwards.
    shear, tension : ndarray, shape (cases, spots)
        Load of one rivet at limit: worst shear plane, and along its axis [N].
    cases, spots : tuple of str
        Names.
    wrinkle : ndarray or None
        Shear at limit over shear at buckling of the sheet that ends here, (cases, spots) [-]; None for none.
    notes : tuple of str
        Assumptions.
    subject : str
        For the sentence.
    pitch : float, ndarray of shape (V, 1, 1), or None
        Real pitch of a row along the sheet's shear [m]; None for groups.
    abreast : int, or ndarray of what broadcasts to (..., cases, spots)
        Rivets side by side that share what one pitch of the row hands over [-].
    spot_cases : tuple of str
        As in :class:`Check`.
    wrinkles_at : ndarray or None
        Shear flow at which that sheet wrinkles, (cases, spots) [N/m]; a working shows it where it is given.
    """

    place: str
    part: str
    rivet: Rivet
    layers: tuple[Layer, ...]
    shear: Array
    tension: Array
    cases: tuple[str, ...]
    spots: Names
    wrinkle: Array | None = None
    notes: tuple[str, ...] = ()
    subject: str = "this rivet"
    pitch: Array | float | None = None
    spot_cases: Names = ()
    wrinkles_at: Array | None = None
    abreast: Array | int = 1

    @cached_property
    def pulled(self) -> bool:
        """Whether anything pulls along the rivet."""
        return bool((self.tension > 0.0).any())

    @property
    def pulled_in(self) -> NDArray[np.bool_] | None:
        """Variants of a stack in which anything pulls along the rivet, shape (V,); None where it is the same in all."""
        pulls = np.asarray((self.tension > 0.0).any(axis=(-2, -1)))
        return None if pulls.all() or not pulls.any() else pulls

    def item(self, factors: Factors) -> Item:
        """Give what all checks of the joint share.

        Parameters
        ----------
        factors : Factors
            From limit load.

        Returns
        -------
        Item
            Place, words, names along the axes.
        """
        return Item(
            self.place, self.part, self.cases, self.spots, self.spot_cases, factors.line, self.subject, self.notes
        )


def factors_of(surface: Surface, rivet: Rivet | None, *, hinge: bool = True) -> Factors:
    """Choose the factors of a riveted joint.

    Parameters
    ----------
    surface : Surface
        For the switches of part H.
    rivet : Rivet or None
        None for a fitting itself.
    hinge : bool
        Whether the fitting is one of a hinge; the rule for two hinges leaves the horn alone [-].

    Returns
    -------
    Factors
        Solid rivets whose strength is the handbook's go without the fitting factor, from part D or from the shipped
        table alike; not those of a typed or an unknown strength, pulled ones and fittings.
    """
    if rivet is not None and by_handbook(surface, rivet):
        return joint_by_test()
    at_yield = surface.method.fitting_factor_at_yield == "yes"
    two = surface.method.two_hinge_factor == "yes" and len(surface.hinges) == 2
    return fitting(at_yield=at_yield, two_hinges=two and rivet is None and hinge)
