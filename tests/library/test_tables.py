"""The shipped tables: every value with a source, sizes that fit each other, errors that help."""

from __future__ import annotations

import tomllib
from importlib.resources import files

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.library import material, materials, rivet_type, rivets
from surfacecheck.library._materials import _row
from surfacecheck.library._rivets import _type
from surfacecheck.provenance import Basis

MM = 1e-3
IN = 0.0254


def tables() -> list[dict]:
    place = files("surfacecheck.library")
    return [tomllib.loads((place / name).read_text(encoding="utf-8")) for name in ("materials.toml", "rivets.toml")]


@pytest.mark.parametrize("thing", [*materials().values(), *rivets().values()], ids=lambda thing: thing.name)
def test_every_value_has_a_source(thing) -> None:
    for key, value in thing.values.items():
        assert value.source.text, key
        assert value.key.endswith(key)
        if value.known:
            assert value.source.basis in {Basis.PUBLISHED, Basis.FROM_MEMORY, Basis.COMMON_PRACTICE}, key
            assert value.said
            assert value.si > 0
        else:
            assert value.source.basis == Basis.NOT_SAID
            assert value.said == "?"


def test_every_cell_of_the_files_names_a_listed_source() -> None:
    """Straight from the files, so that a new entry cannot slip past the readers."""
    for data in tables():
        used = set()
        for entry in data.get("material", []) + data.get("rivet", []):
            for key, cell in entry.items():
                if isinstance(cell, dict):
                    assert cell["from"] in data["source"], (entry["name"], key)
                    used.add(cell["from"])
            if "grips" in entry:
                used.add(entry["grips_from"])
        assert sorted(used) == sorted(data["source"])


def test_every_table_is_read_without_a_key_that_nobody_asks_for() -> None:
    """The readers refuse such a key, and read every entry here; what stands beside the entries is known as well."""
    found = tables()
    assert [set(data) for data in found] == [{"source", "material"}, {"source", "rivet"}]
    assert all(set(one) == {"basis", "text"} for data in found for one in data["source"].values())
    assert {row["name"] for row in found[0]["material"]} == set(materials())
    assert [row["name"] for row in found[1]["rivet"]] == list(rivets())


SOURCES = {"page": {"basis": "published", "text": "a table"}, "odd": {"basis": "heard", "text": "a table"}}
NAME = {"name": "AD 1/8 in"}
RIVET = NAME | {"set": "solid", "head_kind": "protruding", "alloy": "2117-T3"}


@pytest.mark.parametrize(("read", "row"), [(_type, RIVET), (_row, NAME)])
@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"sheer": {"lbf": 388, "from": "page"}}, r'1/8 in\.sheer: no key of this table\. Nearest: "shear"\. Keys: '),
        ({"shear": {"lbf": 388, "from": "pgae"}}, r'1/8 in\.shear: from = "pgae" is no \[source\].*Sources: page, odd'),
        ({"shear": {"lbf": 388}}, r"1/8 in\.shear: from is not given"),
        ({"shear": {"pounds": 388, "from": "page"}}, r"1/8 in\.shear: .*found: pounds\. Units: ksi, "),
        ({"shear": {"from": "page"}}, r"1/8 in\.shear: .*found: nothing"),
        ({"shear": {"lbf": 388, "from": "odd"}}, r"source\.odd: .*one of: published, "),
    ],
)
def test_a_slip_in_a_table_is_named(read, row, more, words: str) -> None:
    with pytest.raises(SurfaceError, match=words):
        read(row | more, SOURCES)


def test_published_handbook_values_say_that_they_are_quoted() -> None:
    for data in tables():
        for name, source in data["source"].items():
            if source["basis"] == "published" and "MIL-HDBK" in source["text"]:
                assert "as quoted in secondary text" in source["text"], name


def test_pulled_rivets_say_which_strengths_are_remembered() -> None:
    strengths = [s for r in rivets().values() if r.set == "pulled" for s in (r.shear.source, r.pull.source)]
    remembered = [one for one in strengths if one.basis == Basis.FROM_MEMORY]
    assert all(one.doubtful for one in remembered)
    assert len(remembered) >= 50, "shear and pull of 25 kinds are from memory: has one of them found its page?"


def test_6061_t6_in_si() -> None:
    """42, 27, 88 ksi are 289.6, 186.2, 606.7 MPa; 0.098 lb/in3 is 2712.6 kg/m3."""
    m = material("6061-T6", 0.8 * MM)
    got = [v.si / 1e6 for v in (m.tension, m.shear, m.bearing_20)]
    assert got == pytest.approx([289.6, 186.2, 606.7], abs=0.06)
    assert m.density.si == pytest.approx(2712.6, abs=0.05)
    assert m.remark == ""
    assert m.thickness_range == pytest.approx((0.010 * IN, 0.249 * IN))


def test_shear_modulus_is_tabled_by_itself() -> None:
    """6061: 3.8 against E/(2(1 + nu)) = 3.72 Msi, 2.1 % apart; no error."""
    m = material("6061-T6")
    worked = m.modulus.si / (2 * (1 + m.poisson.si))
    assert m.shear_modulus.si / worked == pytest.approx(1.021, abs=1e-3)


@pytest.mark.parametrize("name", [n for n in materials() if n != "steel"])
def test_properties_stand_in_their_order(name: str) -> None:
    m = material(name)
    assert m.tension_yield.si < m.tension.si
    assert m.shear.si < m.tension.si < m.bearing_20.si
    assert m.bearing_yield_20.si < m.bearing_20.si
    if m.bearing_15.known:
        assert m.bearing_15.si < m.bearing_20.si
        assert m.bearing_yield_15.si < m.bearing_yield_20.si
    assert 0.55 < m.shear.si / m.tension.si < 0.70
    assert m.modulus.si > m.shear_modulus.si


def test_steel_of_a_pin_has_no_strength() -> None:
    m = material("steel")
    assert m.modulus.known
    assert m.density.known
    assert not any(v.known for k, v in m.values.items() if k not in {"modulus", "density"})


@pytest.mark.parametrize(("mm", "ksi"), [(0.5, 59), (1.574, 59), (1.6, 61), (2.0, 61)])
def test_clad_2024_by_thickness(mm: float, ksi: float) -> None:
    assert material("2024-T3 clad", mm * MM).tension.said == f"{ksi} ksi"


def test_without_a_thickness_the_lowest_holds() -> None:
    m = material("2024-T3 clad")
    assert m.tension.said == "59 ksi"
    assert "lowest" in m.remark
    assert material("4130 normalised").tension.said == "90 ksi"


@pytest.mark.parametrize(
    ("name", "mm", "word"), [("6061-T6", 0.2, "thinner"), ("6061-T6", 7.0, "thicker"), ("7075-T6", 0.25, "thinner")]
)
def test_outside_the_table_says_so(name: str, mm: float, word: str) -> None:
    assert material(name, mm * MM).remark.startswith(word)
    assert material(name, 1.0 * MM).remark == ""


def test_a_stack_of_thicknesses() -> None:
    thick = np.array([0.5, 1.6, 0.2]) * MM
    m = material("2024-T3 clad", thick)
    alone = [material("2024-T3 clad", t) for t in thick]
    assert m.tension.si.tolist() == [a.tension.si for a in alone]
    assert m.modulus.si == alone[0].modulus.si
    assert m.remark == alone[2].remark


def test_a_stack_in_one_row_is_that_row() -> None:
    m = material("2024-T3 clad", np.array([0.5, 0.6]) * MM)
    assert m.tension.si == material("2024-T3 clad", 0.5 * MM).tension.si


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: material("6061T6"), 'Nearest: "6061-T6"'),
        (lambda: material("2024 T3 clad"), 'Nearest: "2024-T3 clad"'),
        (lambda: material("oak"), "is not in the table"),
        (lambda: rivet_type("AD 1/8 inch"), 'Nearest: "AD 1/8 in"'),
        (lambda: rivet_type("ISO 15997 H 4 mm"), 'Nearest: "ISO 15977 H 4 mm"'),
        (lambda: material("6061-T6", 0.0), "must be above 0"),
        (lambda: material("6061-T6", np.nan), "must be above 0"),
    ],
)
def test_errors_help(call, words: str) -> None:
    with pytest.raises(SurfaceError, match=words):
        call()


def test_other_spellings() -> None:
    assert material("4130").name == material("4130 NORMALIZED").name == "4130 normalised"
    assert rivet_type("ad 1/8").name == "AD 1/8 in"
    assert rivet_type("ISO 15977 H 4.0 mm").name == rivet_type("iso 15977 h 4").name == "ISO 15977 H 4 mm"


@pytest.mark.parametrize("rivet", rivets().values(), ids=lambda r: r.name)
def test_a_rivet_fits_its_hole(rivet) -> None:
    """Listed hole within its range; at most 0.2 mm over the nominal diameter, as the ISO tables say."""
    assert rivet.diameter.si < rivet.hole_least.si <= rivet.hole.si <= rivet.hole_most.si
    assert rivet.hole_most.si - rivet.diameter.si < 0.2001 * MM
    assert rivet.head.si > 1.5 * rivet.diameter.si
    assert {"solid": rivet.shear_stress, "pulled": rivet.pull}[rivet.set].known
    for grip in rivet.grips:
        assert grip.least < grip.most < grip.length


def test_grip_of_iso_15981() -> None:
    """d 4.0, l 8: 3.0 to 5.0 mm; a stack of 2.0 mm takes l 6."""
    rivet = rivet_type("ISO 15981 4 mm")
    ranges = {round(g.length * 1e3): (g.least, g.most) for g in rivet.grips}
    assert ranges[8] == pytest.approx((3.0 * MM, 5.0 * MM))
    assert [length for length, (a, b) in ranges.items() if a <= 2.0 * MM <= b] == [6]
    assert rivet.grips_source is not None
    assert rivet.grips_source.basis == Basis.PUBLISHED
    assert rivet_type("ISO 15977 H 4 mm").grips == ()


def test_head_stays_within_2_1_diameters() -> None:
    """ISO tables: largest head 2.1 d; the least head is listed, since it holds the sheet."""
    for rivet in rivets().values():
        assert rivet.head.si <= 2.1 * rivet.diameter.si


def test_pulled_aluminium_carries_a_third_to_a_half_of_a_driven_rivet() -> None:
    """3.2 mm class L 500 N, class H 750 N (from memory), against 388 lbf of 1/8 in 2117."""
    driven = rivet_type("AD 1/8").shear.si
    low, high = (rivet_type(f"ISO 15977 {c} 3.2").shear.si / driven for c in "LH")
    assert 0.28 < low < high < 0.45
