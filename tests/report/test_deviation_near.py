"""Words of the enlarged place stand where no edge of a sheet runs through them; dots do not hide dark rivets."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from surfacecheck.report import deviation_picture
from surfacecheck.studies import deviation

HOLE = 'smallest = "4.45 mm"'
PLACES = {
    "edge on the right": ("hinge bottom, bracket rivet 4", "hole too large", HOLE, -1),
    "edge on the left": ("hinge bottom, bracket rivet 1", "hole too large", HOLE, 1),
}


def drawn(told, name, *, brief):
    where, what, more, _ = PLACES[name]
    return deviation_picture(deviation(told(f'where = "{where}"\nwhat = "{what}"\n{more}')), brief=brief)


@pytest.mark.parametrize("brief", [False, True])
@pytest.mark.parametrize("name", PLACES)
def test_no_edge_runs_through_the_size_of_the_force(name, brief, told):
    """Beside an upright arrow the words go to the side that is away from the edge."""
    fig = drawn(told, name, brief=brief)
    renderer, right = FigureCanvasAgg(fig).get_renderer(), fig.axes[1]
    words = [text for text in right.texts if text.get_fontweight() == "bold"]
    assert len(words) == 2, "a force, and a pull"
    side = PLACES[name][3]
    for text in words:
        box = text.get_window_extent(renderer).transformed(right.transData.inverted())
        assert (box.x0 + box.x1) * side > 0.0
        for line in right.lines:
            x, y = (np.asarray(data, dtype=float) for data in line.get_data())
            upright = len(x) == 2 and np.ptp(x) == 0.0 and y.min() < box.y1 and y.max() > box.y0
            assert not (upright and box.x0 < x[0] < box.x1), text.get_text()


def test_the_size_of_a_level_force_stands_clear_of_the_hole(told):
    """In a rib row the force is level, and its words are longer than half its arrow: they go above the hole."""
    text = 'where = "bottom skin to ribs, rib 3, rivet 2"\nwhat = "rivet missing"'
    fig = deviation_picture(deviation(told(text, base="elevator.toml")), None, "inch", brief=True)
    renderer, right = FigureCanvasAgg(fig).get_renderer(), fig.axes[1]
    hole = next(patch for patch in right.patches if patch.get_gid() == "hole-now").get_path().get_extents()
    for text in (one for one in right.texts if one.get_fontweight() == "bold"):
        box = text.get_window_extent(renderer).transformed(right.transData.inverted())
        apart = box.y0 >= hole.y1 or box.y1 <= hole.y0 or box.x0 >= hole.x1 or box.x1 <= hole.x0
        assert apart, text.get_text()


def test_a_dot_does_not_hide_whether_its_rivet_is_dark(told):
    found = deviation(told('where = "left skin to ribs, rib 3, rivets 2 and 3"\nwhat = "rivets missing"'))
    left = deviation_picture(found).axes[0]
    points = 72.0 / left.figure.dpi * left.transData.get_matrix()[0, 0]
    heads = [patch.get_path().get_extents().width * points for patch in left.patches if patch.get_gid() is None]
    dots = [line for line in left.lines if (line.get_gid() or "").startswith("pulls-")]
    assert dots
    assert max(line.get_markersize() for line in dots) < 0.5 * min(h for h in heads if h > 0.5)
