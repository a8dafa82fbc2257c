"""Every formula a check shows is held by one line here: an example with its numbers, or a function of ``strength``.

The functions are tested against their sources, so the published values that hold them hold the chain too. A formula
without a line fails, and the failure prints the line to fill in.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck import strength as s
from surfacecheck.checks import names_in
from surfacecheck.library import material, rivet_strength
from surfacecheck.working import evaluate

COSINE = 0.383
"""cos(40 degrees) / 2 as the formula shows it; the function takes the cosine itself, 0.38302."""


def shear_out(v, legs=1.0):
    """Exact cosine put back, so that nothing but the shown rounding is left out of the comparison."""
    shown = np.cos(np.radians(40.0)) / 2.0
    lost = 2.0 * v["F_su"] * v["t"] * (shown - COSINE) * v["D"]
    return legs * (s.shear_out(v["F_su"], v["e"], v["D"], v["t"]) + lost)


EXAMPLES = {
    # a formula that is whole in its text: letters in units that belong together, result, whose numbers
    "F_s * t": ({"F_s": 203.4, "t": 0.5}, 101.7, "by hand: N/mm of a sheet of 0.5 mm"),
}

AVAILABLE = {
    "F_bru * D * L": lambda v: s.pin_bearing(v["F_bru"], v["D"], v["L"]),
    "n * F_su * pi / 4 * D**2": lambda v: s.pin_shear(v["F_su"], v["D"], v["n"]),
    "n * F_bru * D * t": lambda v: v["n"] * s.bearing_load(v["F_bru"], v["D"], v["t"]),
    "n * F_tu * (w - D) * t": lambda v: v["n"] * s.lug_net(v["F_tu"], v["w"], v["D"], v["t"]),
    "2 * n * F_su * t * (e - 0.383 * D)": lambda v: shear_out(v, v["n"]),
    "2 * F_su * t * (e - 0.383 * D)": shear_out,
    "F_br * D * t": lambda v: s.bearing_load(v["F_br"], v["D"], v["t"]),
    "F_bru * D * t": lambda v: s.bearing_load(v["F_bru"], v["D"], v["t"]),
    "F_tu * (w - D) * t": lambda v: s.lug_net(v["F_tu"], v["w"], v["D"], v["t"]),
    "F_su * t * (p - D)": lambda v: s.net_section(v["F_su"], v["t"], s.net_width(v["p"], v["D"])),
    "F_tu * (b - d) / b": lambda v: s.net_section(v["F_tu"], 1.0, s.net_width(v["b"], v["d"])) / v["b"],
    "F_su * (h - n * D) / h": lambda v: s.net_section(v["F_su"], 1.0, s.net_width(v["h"], v["D"], v["n"])) / v["h"],
    "F_su * (h - D) / h": lambda v: s.net_section(v["F_su"], 1.0, s.net_width(v["h"], v["D"])) / v["h"],
    "0.5 * d_h * t * F_tu": lambda v: s.pull_over(v["F_tu"], v["d_h"], v["t"]),
    "c * pi**2 / 12 * E * (t / p)**2": lambda v: s.inter_rivet(v["c"], v["E"], v["t"], v["p"]),
    "min(F_cy, k * C * E * (t / b)**2)": lambda v: np.minimum(
        v["F_cy"], s.plate_critical(v["k"], v["E"], poisson(v["C"]), v["t"], v["b"])
    ),
}

REQUIRED = {
    "FS * 32 / (pi * D**3) * P / 2 * (t / 2 + t / 4 + g)": lambda v: (
        v["FS"]
        * s.pin_bending_stress(
            s.pin_bending_moment(v["P"], s.pin_arm_both_ends(v["t"], v["t"], v["g"]), both_ends=True), v["D"]
        )
    ),
    "FS * 32 / (pi * D**3) * P * (t / 2 + t / 2 + g)": lambda v: (
        v["FS"]
        * s.pin_bending_stress(
            s.pin_bending_moment(v["P"], s.pin_arm_one_end(v["t"], v["t"], v["g"]), both_ends=False), v["D"]
        )
    ),
    "FS * (F_x / (n*b*t) + 6*F_z*L / (n*t*b**2) + 6*F_y*L / (n*b*t**2))": lambda v: (
        v["FS"]
        * s.plate_stress(v["F_x"] / v["n"], v["F_y"] * v["L"] / v["n"], v["F_z"] * v["L"] / v["n"], v["b"], v["t"])
    ),
    "FS * (F_z / (b*t) + 6*F_x*L / (t*b**2) + 6*F_y*L / (b*t**2))": lambda v: (
        v["FS"] * s.plate_stress(v["F_z"], v["F_y"] * v["L"], v["F_x"] * v["L"], v["b"], v["t"])
    ),
    "FS * sqrt((S / P_s)**2 + (T / P_t)**2)": lambda v: (
        1.0 / (1.0 + s.interaction_margin(v["FS"] * v["S"] / v["P_s"], v["FS"] * v["T"] / v["P_t"]))
    ),
    "sqrt((q / q_cr)**2 + (f_b / F_b)**2)": lambda v: (
        1.0 / (1.0 + s.bending_shear_margin(v["f_b"] / v["F_b"], v["q"] / v["q_cr"]))
    ),
    "FS * S * w": lambda v: (
        v["FS"] * v["S"] * s.row_factor(s.diagonal_tension_factor(v["FS"] * v["q"] / v["q_cr"], 1.0))
    ),
    "FY * S * w": lambda v: (
        v["FY"] * v["S"] * s.row_factor(s.diagonal_tension_factor(v["FY"] * v["q"] / v["q_cr"], 1.0))
    ),
    "FY * 6 * M * t / (b * (t**3 + t_2**3))": lambda v: (
        v["FY"] * s.plate_flat_bending(v["M"] * v["t"] ** 3 / (v["t"] ** 3 + v["t_2"] ** 3), v["b"], v["t"])
    ),
}


def poisson(constant: float) -> float:
    """Poisson's ratio from pi^2 / (12 (1 - nu^2))."""
    return float(np.sqrt(1.0 - np.pi**2 / (12.0 * constant)))


def values(finding):
    return {name: value for name in finding.check.terms if (value := finding.value(name)) is not None}


def is_plain(text: str) -> bool:
    """One letter, or a factor times one letter: nothing to compare."""
    return all(part.strip().isidentifier() or part.strip() == "1" for part in text.split(" * ")) and text.count("*") < 2


def line_for(finding, text: str) -> str:
    """Write the line that holds a formula, its result and whose numbers they are still to be filled in."""
    letters = ", ".join(f'"{symbol.name}": ...' for symbol in finding.symbols(text))
    return (
        f'{finding.name} is not held by an example yet. Add to EXAMPLES:\n    "{text}": ({{{letters}}}, ..., "source"),'
    )


@pytest.mark.parametrize("text", EXAMPLES)
def test_a_formula_gives_the_result_of_its_example(text):
    letters, result, source = EXAMPLES[text]
    assert source
    assert set(names_in(text)) == set(letters)
    assert evaluate(text, letters) == pytest.approx(result, rel=1e-9 if source.startswith("by hand") else 5e-3)


def test_a_formula_without_a_line_is_told_which_line(demo):
    finding = next(one for one in demo.findings if one.check.available == "F_br * D * t")
    assert line_for(finding, "F_br * D * t").endswith(
        '\n    "F_br * D * t": ({"D": ..., "t": ..., "F_br": ...}, ..., "source"),'
    )


def test_what_is_available(demo):
    seen = set()
    for finding in demo.findings:
        text = finding.check.available
        if finding.available is None or is_plain(text) or text in EXAMPLES:
            continue
        assert text in AVAILABLE, line_for(finding, text)
        assert finding.available == pytest.approx(float(AVAILABLE[text](values(finding))), rel=1e-12), finding.name
        seen.add(text)
    assert len(seen) >= 13


def test_what_is_required(demo):
    seen = set()
    for finding in demo.findings:
        text = finding.check.required
        if finding.required is None or is_plain(text) or text in EXAMPLES:
            continue
        assert text in REQUIRED, line_for(finding, text)
        assert finding.required == pytest.approx(float(REQUIRED[text](values(finding))), rel=1e-12), finding.name
        seen.add(text)
    assert len(seen) >= 5


def test_margins_of_wrinkled_rows(demo):
    """The multiplier is that of ``wrinkled_row_margin``, from the letters on the page."""
    found = [f for f in demo.findings if f.check.proof]
    assert found
    for finding in found:
        v = values(finding)
        factor = v.get("FS", v.get("FY"))
        if finding.check.mode == "rivet-both":
            expected = s.wrinkled_row_margin(v["S"] / v["P_s"], v["T"] / v["P_t"], v["q"] / v["q_cr"], factor)
        else:
            expected = s.wrinkled_row_margin(v["S"] / finding.available, 0.0, v["q"] / v["q_cr"], factor)
        assert finding.margin == pytest.approx(float(expected), rel=1e-12), finding.name


def test_bearing_stress_at_the_edge_it_has(demo):
    """F_br is that of the table, straight between 1.5 and 2 diameters; e over the rivet's nominal diameter."""
    surface = demo.surface
    for finding in demo.findings:
        mode, place = finding.check.mode, finding.check.place
        if not mode.endswith("-tear-out") or not place.startswith("row."):
            continue
        row = surface.rows[place.removeprefix("row.")]
        e_over_D = finding.value("e") / surface.rivets[row.rivet].diameter.si
        crush = next(f for f in demo.findings if f.check.place == place and f.check.mode == mode[:-8] + "crush")
        part = getattr(surface.sheet, mode.removesuffix("-tear-out"), None)
        if part is None or part.alloy in surface.alloys:
            continue
        metal = material(part.alloy, part.thickness.si)
        expected = s.bearing_stress(max(e_over_D, 1.5), metal.bearing_15.si, metal.bearing_20.si)
        assert crush.value("F_br") == pytest.approx(float(expected), rel=1e-12), finding.name


def test_a_solid_rivet_is_lowered_for_thin_sheet(demo):
    """P_s of a solid rivet in a row is its table value times 1 - 0.04 (D/t - 3), t the thinner sheet."""
    surface = demo.surface
    for finding in demo.findings:
        place = finding.check.place
        if finding.check.mode != "rivet-shear" or not place.startswith("row.") or finding.value("P_s") is None:
            continue
        row = surface.rows[place.removeprefix("row.")]
        rivet = surface.rivets[row.rivet]
        alone = float(rivet_strength(surface, rivet)[0].si)
        sheets = [surface.sheet.doublers.get(n) or getattr(surface.sheet, n) for n in row.joins]
        thin = min(p.thickness.si for p in sheets if p.thickness.known and not p.thickness.absent)
        solid = rivet.set is not None and rivet.set.value == "solid"
        expected = alone * float(s.thin_sheet_single(rivet.diameter.si, thin)) if solid else alone
        assert finding.value("P_s") == pytest.approx(expected, rel=1e-12), finding.name
