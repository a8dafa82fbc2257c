"""The unit border, held against pint, and the texts people type."""

import os
import subprocess
import sys

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import (
    as_quantity,
    number_of,
    parse,
    quantity_names,
    show,
    show_number,
    split,
    system_of,
    to_unit,
    unit_of,
    without_unit,
    working_unit,
)
from surfacecheck.quantities._pint import registry
from surfacecheck.quantities._table import DIMENSIONS, QUANTITIES, UNITS

UREG = pint.UnitRegistry()

#: How pint spells what the table spells otherwise.
SPELT = {
    '"': "inch", "°": "degree", "sq ft": "ft**2", "KPa": "kPa", "Kg": "kg", "lbs": "lb", "Nm": "N*m", "Nmm": "N*mm",
    "Nm2": "N*m**2", "psf": "lbf/ft**2", "knots": "knot", "": "dimensionless", "1/m": "m**-1", "1/mm": "mm**-1",
    "1/in": "in**-1", "mph": "mile/hour", "in": "inch",
}  # fmt: skip


def pint_text(unit: str) -> str:
    if unit in SPELT:
        return SPELT[unit]
    for power in "234":
        unit = unit.replace(power, f"**{power}")
    return unit.replace(" ", "*")


@pytest.mark.parametrize("unit", sorted(UNITS), ids=lambda unit: unit or "bare")
def test_every_unit_of_the_table_is_pints(unit: str) -> None:
    measures, factor = UNITS[unit]
    base = UREG.Quantity(1.0, pint_text(unit)).to_base_units()
    powers = {str(name): power for name, power in base._units.items()}
    expected = dict(zip(("kilogram", "meter", "second", "radian"), DIMENSIONS[measures], strict=True))
    assert powers == {name: power for name, power in expected.items() if power}
    assert factor == pytest.approx(base.magnitude, rel=1e-12)


@given(
    number=st.floats(min_value=1e-6, max_value=1e6, allow_nan=False).map(lambda x: f"{x:.6g}"),
    quantity=st.sampled_from(sorted(set(quantity_names()) - {"number"})),
    data=st.data(),
)
def test_text_reads_as_pint_says(number: str, quantity: str, data: st.DataObject) -> None:
    units = [unit for unit, (measures, _) in UNITS.items() if measures == QUANTITIES[quantity].measures]
    unit = data.draw(st.sampled_from([one for one in units if not one.startswith("1/")] or [units[0]]))
    if unit.startswith("1/"):
        return
    si, typed = parse(f"{number} {unit}", quantity)
    assert typed == unit
    expected = UREG.Quantity(float(number), pint_text(unit)).to_base_units().magnitude
    assert si == pytest.approx(expected, rel=1e-12)


@given(
    si=st.floats(min_value=1e-9, max_value=1e9, allow_nan=False),
    quantity=st.sampled_from(quantity_names()),
    system=st.sampled_from(["metric", "inch"]),
)
def test_shown_and_working_units_come_back(si: float, quantity: str, system: str) -> None:
    unit, size = working_unit(quantity, system)
    assert to_unit(si, unit) == pytest.approx(si / size, rel=1e-12)
    back = to_unit(si, unit_of(quantity, system)) * UNITS[unit_of(quantity, system)][1]
    assert back == pytest.approx(si, rel=1e-12)
    assert as_quantity(si, quantity, system).to_base_units().magnitude == pytest.approx(si, rel=1e-9)


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize(
    ("result", "factors"),
    [
        ("stress", {"force": 1, "section_area": -1}),
        ("line_load", {"stress": 1, "length": 1}),
        ("torque", {"force": 1, "length": 1}),
        ("force", {"line_load": 1, "length": 1}),
        ("line_torque", {"torque": 1, "length": -1}),
        ("bending_stiffness", {"stress": 1, "second_moment": 1}),
        ("section_modulus", {"torque": 1, "stress": -1}),
        ("compliance", {"length": 1, "force": -1}),
        ("stiffness", {"force": 1, "length": -1}),
        ("curvature", {"torque": 1, "bending_stiffness": -1}),
        ("twist", {"angle": 1, "length": -1}),
        ("mass", {"density": 1, "volume": 1}),
        ("area_mass", {"density": 1, "length": 1}),
        ("line_mass", {"density": 1, "section_area": 1}),
        ("mass_moment", {"mass": 1, "length": 1}),
        ("force", {"mass": 1, "acceleration": 1}),
        ("pressure", {"air_density": 1, "speed": 2}),
        ("pressure", {"force": 1, "area": -1}),
        ("speed", {"length": 1, "time": -1}),
    ],
    ids=lambda one: one if isinstance(one, str) else "*".join(one),
)
def test_working_units_belong_together(result: str, factors: dict[str, int], system: str) -> None:
    product = np.prod([working_unit(name, system)[1] ** power for name, power in factors.items()])
    assert working_unit(result, system)[1] == pytest.approx(product, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "quantity", "message"),
    [
        ("0,5 mm", "length", '"0,5 mm" has a comma. Write "0.5 mm".'),
        ("1,200 N", "force", 'Write "1.200 N" or "1200 N".'),
        ("1 1/8 in", "length", '"1 1/8 in" is two numbers. Write "1.125 in" or "9/8 in".'),
        ("1-1/8 in", "length", 'Write "1.125 in" or "9/8 in".'),
        ("#30", "length", '"#30" is a drill, not a length: #30 is "3.26 mm" or "0.1285 in".'),
        ("#99", "length", '"#99" is a drill, not a length.'),
        ("20 gauge", "length", "gauge number"),
        ("150 lb", "force", '"150 lb" is a mass; a force is asked. Write "150 lbf" (or "667 N").'),
        ("15 kg", "force", 'Write "147 N".'),
        ("20 lb/ft2", "pressure", 'Write "20 psf".'),
        ("10 Mm", "length", 'Did you mean "10 mm"?'),
        ("5 G", "acceleration", '"G" is no unit known here.'),
        ("24 g", "acceleration", '"24 g" is a mass; an acceleration is asked.'),
        ("24 g", "number", 'Write "24".'),
        ("40 mil", "length", "two ways"),
        ("−3 mm", "length", "has a minus"),
        ("3-4 mm", "length", "two numbers"),
        ("0.5", "length", '0.5 has no unit. Write "0.5 mm" or "0.020 in", with quotes.'),
        ("1/8", "length", '1/8 has no unit. Write "1/8 in", with quotes.'),
        ("65 knots (rule", "speed", 'a bracket is opened and not closed: "65 knots (rule".'),
        ("nan m", "length", "does not begin with one plain number"),
        ("inf mm", "length", 'does not begin with one plain number. Write it like "0.63 mm".'),
        ("about 900", "force", 'does not begin with one plain number. Write it like "12 N".'),
        ("about 4", "number", 'does not begin with one plain number. Write it like "12".'),
        ("1e400 m", "length", "too large"),
        ("1e308 m", "bending_stiffness", "bending stiffness is asked"),
        ("1/0 in", "length", "divides by zero"),
        ("0.032 '' ", "length", "no unit known"),
        ("5 __import__('os')", "length", "no unit known"),
        ("12 degC", "angle", "no unit known"),
        ("5 furlongs per week", "speed", "no unit known"),
        ("9" * 200 + " mm", "length", "plain number"),
        ("", "length", "plain number"),
    ],
)
def test_what_is_refused_says_what_to_write(text: str, quantity: str, message: str) -> None:
    with pytest.raises(SurfaceError) as caught:
        parse(text, quantity)
    assert message in str(caught.value)


@pytest.mark.parametrize(
    ("text", "quantity", "si"),
    [
        ("9/8 in", "length", 0.028575),
        ('0.032"', "length", 0.0008128),
        ("57 Nm", "torque", 57.0),
        ("57 N·m", "torque", 57.0),
        ("2 psf", "pressure", 95.76051796067168),
        ("12 m²", "area", 12.0),
        ("12 m^2", "area", 12.0),
        ("1.2 KPa", "pressure", 1200.0),
        ("3 Kg", "mass", 3.0),
        ("25°", "angle", 0.4363323129985824),
        ("25 degrees", "angle", 0.4363323129985824),
        (".5 mm", "length", 0.0005),
        ("5 furlong", "length", 1005.8416),
        ("1.0 mm/kN", "compliance", 1e-6),
        ("3.8", "number", 3.8),
        ("2e3 N", "force", 2000.0),
    ],
)
def test_what_is_read(text: str, quantity: str, si: float) -> None:
    assert parse(text, quantity)[0] == pytest.approx(si, rel=1e-6)


def test_shown_numbers_have_no_exponent_and_no_minus_zero() -> None:
    assert [show_number(one) for one in (123456.0, 0.000123, 9.996, -0.0)] == ["123456", "0.000123", "10.0", "0"]
    assert show(5.0, "number") == "5.00"
    assert show(1200.0, "pressure", "inch") == "25.1 psf"
    with pytest.raises(SurfaceError, match="cannot be shown"):
        show(float("nan"), "force")


def test_arrays_convert() -> None:
    np.testing.assert_allclose(to_unit(np.array([0.001, 0.0254]), "mm"), [1.0, 25.4], rtol=1e-15)


def test_unknown_quantity_and_unit_are_named() -> None:
    with pytest.raises(SurfaceError, match='"weight" is no quantity; the quantities are'):
        parse("5 N", "weight")
    with pytest.raises(SurfaceError, match='"zzz" is no unit known here'):
        to_unit(1.0, "zzz")
    assert unit_of("line load") == unit_of("line_load") == "N/mm"
    assert working_unit("stiffness_bending") == working_unit("bending_stiffness")


def test_the_system_is_seen_in_the_unit() -> None:
    assert [system_of(one) for one in ("in", "lbf in", "psf", '"', "mm", "N/mm", "knots", "min")] == [
        "inch", "inch", "inch", "inch", "metric", "metric", "metric", "metric",
    ]  # fmt: skip


def test_bare_numbers() -> None:
    assert split(" 0.5mm ") == ("0.5", "mm")
    assert number_of("9/8") == 1.125
    assert without_unit("3", "number") == '3 is a plain number: write it in quotes, "3".'


def test_importing_does_not_import_pint() -> None:
    code = "import sys, surfacecheck.quantities as q; q.parse('5 mm', 'length'); assert 'pint' not in sys.modules"
    subprocess.run(
        [sys.executable, "-c", code], check=True, env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    )


def test_a_cache_that_cannot_be_written_is_no_error(monkeypatch: pytest.MonkeyPatch) -> None:
    real = pint.UnitRegistry

    def refusing(*, cache_folder: str | None = None) -> pint.UnitRegistry:
        if cache_folder is not None:
            raise PermissionError(cache_folder)
        return real()

    registry.cache_clear()
    try:
        monkeypatch.setattr(pint, "UnitRegistry", refusing)
        assert registry().Quantity(1.0, "inch").to("mm").magnitude == pytest.approx(25.4)
    finally:
        registry.cache_clear()
