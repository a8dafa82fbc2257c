"""Pictures show the numbers of the assessment, in the units asked for, to scale."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath

from surfacecheck.checks import plan_row
from surfacecheck.errors import SurfaceError
from surfacecheck.report import (
    bracket_forces,
    bracket_map,
    compare_bars,
    diagrams,
    horn_forces,
    margin_bars,
    pitch_curve,
    running_load,
    section_flow,
    surface_map,
)
from surfacecheck.report._bracket_forces import _pull
from surfacecheck.report._diagrams import torque_about
from surfacecheck.report._places import placed_rows
from surfacecheck.report._running_load import load_shapes
from surfacecheck.report._telling import case_index, cases_read, group_case, station_at, telling_places
from surfacecheck.report._wall_paths import shown_flow, wall_path
from surfacecheck.sections import WallFlow, flow_peak

INCH, LBF = 0.0254, 0.45359237 * 9.80665


def drawn(fig, gid):
    """Every line, bar or patch of a picture with this name."""
    return [artist for ax in fig.axes for artist in ax.get_children() if artist.get_gid() == gid]


def words_of(fig):
    return [text.get_text() for text in (*fig.texts, *(t for ax in fig.axes for t in ax.texts)) if text.get_text()]


@pytest.mark.parametrize(("system", "force", "torque"), [("metric", 1.0, 1.0), ("inch", LBF, LBF * INCH)])
def test_diagrams_draw_the_internal_loads(demo, system, force, torque):
    fig = diagrams(demo, "wind at tie-down", system)
    case = case_index(demo, "wind at tie-down")
    expected = {
        "V_z": (demo.effects.V_z, force), "M_x": (demo.effects.M_x, torque), "V_x": (demo.effects.V_x, force),
        "M_z": (demo.effects.M_z, torque), "T": (torque_about(demo)[0], torque),
    }  # fmt: skip
    keep = cases_read(demo)
    for gid, (values, unit) in expected.items():
        (line,) = drawn(fig, gid)
        np.testing.assert_allclose(line.get_xdata(), demo.span.y)
        np.testing.assert_allclose(line.get_ydata() * unit, values[case], rtol=1e-12, atol=1e-9)
        (band,) = drawn(fig, f"{gid}-all")
        points = band.get_paths()[0].vertices[:, 1]
        assert points.max() * unit == pytest.approx(values[keep].max(), abs=1e-9)
        assert points.min() * unit == pytest.approx(values[keep].min(), abs=1e-9)


def test_every_hinge_puts_its_step_into_the_line(rudder):
    fig = diagrams(rudder, 1)
    (line,) = drawn(fig, "V_z")
    stations = rudder.span.stations
    for at, b in enumerate(rudder.span.hinges.values()):
        step = line.get_ydata()[stations.before(b)] - line.get_ydata()[stations.after(b)]
        assert step == pytest.approx(rudder.effects.reactions[0, at, 2], abs=1e-9)


def test_torque_drawn_is_what_the_walls_carry_about_the_shear_centre(demo):
    """The wall flows give the torque about the centroid; moved to the shear centre it is the one drawn."""
    fig = diagrams(demo, 1)
    (line,) = drawn(fig, "T")
    closed, effects = demo.effects.box.closed, demo.effects
    about_centroid = (effects.flow.mean[0] * closed.sweep).sum(axis=-1)
    moved = (closed.x_s - closed.x_c) * effects.V_z[0] - (closed.z_s - closed.z_c) * effects.V_x[0]
    largest = np.abs(line.get_ydata()).max()
    # what the open part of J carries has no mean flow: thin-wall theory neglects it in a cell
    np.testing.assert_allclose(about_centroid + moved, line.get_ydata(), atol=2e-3 * largest)


def test_running_load_draws_each_load_once(demo):
    fig = running_load(demo)
    shapes = load_shapes(demo)
    assert len(shapes) >= 2
    for i, (c, _) in enumerate(shapes):
        (line,) = drawn(fig, f"w-{i + 1}")
        np.testing.assert_allclose(line.get_ydata() * 1e3, np.abs(demo.beam.loads.z[c]), rtol=1e-12)
        (line,) = drawn(fig, f"t-{i + 1}")
        np.testing.assert_allclose(line.get_ydata(), np.abs(demo.beam.loads.torque[c]), rtol=1e-12)
    pairs = [(a, b) for a in range(len(shapes)) for b in range(a)]
    loads = demo.beam.loads
    assert not any(
        np.allclose(abs(loads.z[shapes[a][0]]), abs(loads.z[shapes[b][0]]))
        and np.allclose(abs(loads.torque[shapes[a][0]]), abs(loads.torque[shapes[b][0]]))
        for a, b in pairs
    )


def test_map_has_a_mark_for_every_rivet_that_can_be_seen(rudder):
    fig, rows = surface_map(rudder), placed_rows(rudder.surface)
    assert [row.row.name for row in rows] == list(rudder.surface.rows)
    for i, placed in enumerate(rows):
        (marks,) = drawn(fig, f"row-{chr(ord('A') + i)}")
        plan = plan_row(rudder.surface, placed.row)
        seen = {
            "spar": plan.count, "edge": plan.count, "doubler": plan.count, "rib-spar": len(plan.rib_count),
            "rib": int(plan.rib_count.sum()) if "nose_skin" not in placed.row.joins else int(plan.rib_count.sum() / 2),
        }  # fmt: skip
        assert len(marks.get_xdata()) == seen[placed.kind], placed.row.name
        if plan.start is not None:
            assert marks.get_ydata()[0] == pytest.approx(plan.start)
            assert marks.get_ydata()[-1] == pytest.approx(plan.end)
        assert any(placed.row.name.replace("_", " ") in text for text in words_of(fig))
    for name in rudder.surface.hinges:
        assert any(f"{name} hinge" in text.replace("\n", " ") for text in words_of(fig))


def test_map_is_to_scale(demo):
    for fig in (surface_map(demo), bracket_map(demo)):
        ax = fig.axes[0]
        box = ax.get_position()
        across = np.ptp(ax.get_xlim()) / (box.width * fig.get_figwidth())
        up = np.ptp(ax.get_ylim()) / (box.height * fig.get_figheight())
        assert across == pytest.approx(up, rel=1e-9)


def test_outline_of_the_map_is_the_one_measured(rudder):
    (line,) = drawn(surface_map(rudder), "outline")
    places = rudder.surface.outline.places
    assert max(line.get_xdata()) == pytest.approx(max(p.edge_behind.si for p in places))
    assert min(line.get_xdata()) == pytest.approx(-max(p.nose_ahead.si for p in places))
    assert max(line.get_ydata()) == pytest.approx(places[-1].up.si)


def test_bracket_rivet_1_is_lowest_left_seen_from_behind(rudder):
    numbers = {t.get_text(): t.get_position() for t in bracket_map(rudder).axes[0].texts if t.get_text().isdigit()}
    x, y = (np.array([numbers[f"{i + 1}"][k] for i in range(len(numbers))]) for k in (0, 1))
    assert numbers["1"] == pytest.approx((x.min(), y.min()))
    assert numbers["2"][1] > numbers["1"][1]
    assert numbers["2"][0] == pytest.approx(numbers["1"][0])
    assert numbers[f"{len(numbers)}"] == pytest.approx((x.max(), y.max()))


def test_bracket_arrows_point_where_the_force_does(rudder):
    fig = bracket_forces(rudder)
    for load in rudder.brackets:
        case = group_case(rudder, load.shear, load.tension, None)
        assert np.hypot(load.shear, load.tension)[case].max() == np.hypot(load.shear, load.tension).max()
        sizes = []
        for r in range(load.a.size):
            (arrow,) = drawn(fig, f"force-{load.hinge.name}-{r + 1}")
            start, end = (np.array(p) for p in arrow._posA_posB)
            along = end - start
            # from behind a rudder's left, +z, is to the left of the page, and +y is up
            force = np.array([-load.share[case, r, 2], load.share[case, r, 1]])
            assert along[0] * force[1] - along[1] * force[0] == pytest.approx(0.0, abs=1e-9 * np.hypot(*force))
            assert along @ force > 0.0
            sizes.append(np.hypot(*along) / np.hypot(*force))
        np.testing.assert_allclose(sizes, sizes[0], rtol=1e-9)


def test_a_pull_is_marked_as_a_pull(demo):
    for load in demo.brackets:
        for case in range(load.shear.shape[0]):
            pull = _pull(load, case)
            np.testing.assert_allclose(np.maximum(pull, 0.0), load.tension[case], atol=1e-6)
            np.testing.assert_allclose(np.abs(pull), np.abs(load.share[case, :, 0]))


def test_horn_arrows_are_the_pulls(rudder):
    fig = horn_forces(rudder, "control system")
    case = case_index(rudder, "control system")
    force = rudder.effects.horn_force[case]
    lengths = []
    for p in range(force.shape[0]):
        (arrow,) = drawn(fig, f"horn-{p + 1}")
        start, end = (np.array(x) for x in arrow._posA_posB)
        np.testing.assert_allclose(start, rudder.effects.horn_points[p])
        lengths.append(np.hypot(*(end - start)) / np.hypot(force[p, 0], force[p, 2]))
        assert (end - start) @ force[p, [0, 2]] > 0.0
    np.testing.assert_allclose(lengths, lengths[0])


def test_section_bands_are_as_wide_as_the_flow(rudder):
    at = telling_places(rudder)[1]
    fig = section_flow(rudder, at)
    s, c = station_at(rudder, at), case_index(rudder, None)
    box = rudder.effects.box
    flow = WallFlow(*(part[c, s] for part in rudder.effects.flow))
    widths = {}
    for wall in ("skin_plus", "skin_minus", "nose"):
        (band,) = drawn(fig, f"band-{wall}")
        points = band.get_xy()[:-1]
        half = len(points) // 2
        widths[wall] = np.hypot(*(points[:half] - points[half:][::-1]).T).max() / abs(shown_flow(flow, box, wall))
    first = widths["skin_plus"]
    assert all(width == pytest.approx(first, rel=1e-6) for width in widths.values())


def test_flow_arrow_runs_with_the_flow(rudder):
    at = telling_places(rudder)[1]
    s = station_at(rudder, at)
    box = rudder.effects.box
    for case in (1, 2):
        fig = section_flow(rudder, at, case)
        for wall in ("skin_plus", "skin_minus"):
            (arrow,) = drawn(fig, f"arrow-{wall}")
            start, end = (np.array(p) for p in arrow._posA_posB)
            x, _ = wall_path(box, wall, s)
            mean = rudder.effects.flow.mean[case - 1, s, box.wall(wall)]
            assert np.sign(end[0] - start[0]) == np.sign(mean * (x[-1] - x[0]))


def test_figure_at_a_wall_is_its_largest_flow(rudder):
    box, effects = rudder.effects.box, rudder.effects
    for s in (3, 20, 40):
        flow = WallFlow(*(part[0, s] for part in effects.flow))
        peaks = flow_peak(flow).value
        for wall in box.walls:
            if not wall.startswith("web"):  # a parabola may peak between: the ends and the middle are looked at
                assert abs(shown_flow(flow, box, wall)) == pytest.approx(abs(peaks[box.wall(wall)]), rel=0.02, abs=1e-6)


def test_nose_is_drawn_round_the_area_the_section_has(demo):
    box = demo.effects.box
    for s in range(0, demo.span.y.size, 7):
        x, z = wall_path(box, "nose", s)
        area = abs(np.trapezoid(box.web_x[s] - x, z))
        semi, ahead = 0.5 * box.height[s], float(box.web_x[s] - x.min())
        assert area == pytest.approx(0.5 * np.pi * semi * ahead, rel=0.02)  # 17 points on half an ellipse
        cells = np.abs(box.closed.cell_area[s]).sum()
        rear = 0.5 * box.height[s] * (box.edge_x[s] - box.web_x[s])
        assert cells == pytest.approx(rear + 0.5 * np.pi * semi * ahead, rel=1e-6)


def test_margin_bars_have_the_length_and_the_number_of_the_margin(demo):
    fig = margin_bars(demo, 6)
    lowest = demo.lowest_by_part[:6]
    lengths = []
    for i, finding in enumerate(lowest):
        (bar,) = drawn(fig, f"margin-{i + 1}")
        assert f"{finding.margin:+z.2f}" in words_of(fig)
        assert any(finding.gives.split()[0] in text for text in words_of(fig))
        if 0.0 < finding.margin < 2.0:
            lengths.append(bar.get_width() / finding.margin)
    np.testing.assert_allclose(lengths, lengths[0], rtol=1e-9)


def test_no_bar_touches_the_words_below_or_above(demo):
    """Tops of the letters themselves, from their outlines; 0.03 in (2 px of a phone) is our own least gap."""
    fig = margin_bars(demo, 6)
    fig.draw_without_rendering()
    bars = [drawn(fig, f"margin-{i + 1}")[0].get_window_extent() for i in range(6)]
    font = FontProperties(family="DejaVu Sans")
    gaps = []
    for text in (one for ax in fig.axes for one in ax.texts):
        box, size = text.get_window_extent(), text.get_fontsize()
        rise, sink = (TextPath((0, 0), words, size=size, prop=font).get_extents() for words in (text.get_text(), "lp"))
        top = box.y0 + (rise.y1 - sink.y0) * fig.dpi / 72
        near = [bar for bar in bars if box.x0 < bar.x1 and bar.x0 < box.x1]
        gaps += [max(bar.y0 - top, box.y0 - bar.y1) / fig.dpi for bar in near]
    assert len(gaps) > 20
    assert min(gaps) > 0.03


def test_less_than_required_is_hatched_and_on_the_other_side(rudder):
    from surfacecheck.report._margin_bars import _bar, _canvas
    from surfacecheck.report._style import drawing

    ax = _canvas(drawing(1.0, "t"), 1.0)
    _bar(ax, 0.5, -0.25, 0, "short")
    _bar(ax, 0.1, 0.25, 0, "enough")
    short, enough = (next(p for p in ax.patches if p.get_gid() == gid) for gid in ("short", "enough"))
    assert short.get_hatch()
    assert not enough.get_hatch()
    assert short.get_width() < 0.0 < enough.get_width()


def test_compare_bars_draw_each_assessment(rudder, elevator):
    fig = compare_bars([rudder, rudder], 3, ["one", "two"])
    for finding in rudder.lowest_by_part[:3]:
        widths = [drawn(fig, f"margin-{finding.check.place}-{i}")[0].get_width() for i in (1, 2)]
        assert widths[0] == widths[1]
    assert {"one", "two"} <= set(words_of(fig))


def test_pitch_curve_draws_the_margins_and_the_lowest():
    pitch = np.linspace(0.015, 0.040, 9)
    margins = {"rivet shears": 0.05 / pitch - 1.0, "sheet buckles": 0.0006 / pitch**2 - 1.0}
    fig = pitch_curve(pitch, margins, [(0.015, 0.018, "a text")], system="inch")
    for i, values in enumerate(margins.values()):
        (line,) = drawn(fig, f"line-{i + 1}")
        np.testing.assert_allclose(line.get_xdata() * INCH, pitch)
        np.testing.assert_allclose(line.get_ydata(), values)
    (line,) = drawn(fig, "lowest")
    np.testing.assert_allclose(line.get_ydata(), np.minimum(*margins.values()))
    with pytest.raises(SurfaceError, match="rising pitches"):
        pitch_curve([0.02, 0.01], {"a": [1.0, 2.0]})


def test_what_is_not_known_is_refused_with_what_is_missing(bare):
    for make in (section_flow, bracket_map, bracket_forces, horn_forces, margin_bars):
        with pytest.raises(SurfaceError, match=r"known|described|give"):
            make(bare)


@pytest.mark.parametrize("make", [diagrams, section_flow, bracket_forces, horn_forces])
def test_a_case_that_is_not_there_is_named(rudder, make):
    with pytest.raises(SurfaceError, match='no load case is called "hail"'):
        make(rudder, case="hail")


def test_a_row_that_cannot_be_placed_is_left_out(no_sheet):
    fig = surface_map(no_sheet)
    assert placed_rows(no_sheet.surface)
    assert len([a for ax in fig.axes for a in ax.lines if str(a.get_gid()).startswith("row-")]) == len(
        placed_rows(no_sheet.surface)
    )
