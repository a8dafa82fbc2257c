"""Check, Term, Item and find: the worst spot, unknown strengths, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.checks import Check, Outcome, Term, find, names_in
from surfacecheck.checks._item import Item
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value, in_a_row, numbers, plain
from surfacecheck.working import evaluate

SOURCE = Source(Basis.INVENTED)
LOADS = np.array([[10.0, 40.0, 20.0], [30.0, 5.0, 40.0]])


def item(**more):
    settings = {"place": "row.seam", "part": "seam", "cases": ("gust", "flight"), "spots": ("a", "b c", "d")} | more
    return Item(**settings)


def check(strength=100.0, load=LOADS, **more):
    of = item(**{k: more.pop(k) for k in ("cases", "spots", "spot_cases", "notes") if k in more})
    terms = {
        "P_s": Term(strength, "force", "strength", SOURCE, "rivet.small.shear"),
        "FS": Term(1.5, "", "factor"),
        "S": Term(load, "force", "shear at limit"),
    }
    return of.check("rivet-shear", "rivet shears", "P_s", "FS * S", terms, "S", SOURCE, **more)


def test_the_worst_spot_with_its_own_companions():
    """40 N stands in both cases; the first of equal ones is named."""
    found = find(check())
    assert (found.name, found.part, found.case, found.spot) == ("row.seam.b-c:rivet-shear", "seam, b c", "gust", "b c")
    assert found.margin == pytest.approx(100.0 / 60.0 - 1.0, rel=1e-15)
    assert (found.required, found.available, found.outcome) == (60.0, 100.0, Outcome.CARRIES)
    assert found.value("S") == 40.0
    assert found.value("FS") == 1.5


def test_margins_over_all_cases_and_spots():
    np.testing.assert_allclose(check().margins(), 100.0 / (1.5 * LOADS) - 1.0, rtol=1e-15)


@pytest.mark.parametrize(
    "strength",
    [np.array([100.0, 60.0, 100.0]), np.array([[100.0, 60.0, 100.0]]), np.array([[100.0], [10.0]])],
    ids=["of each spot", "of each spot, one case", "of each case"],
)
def test_strength_may_differ_from_spot_to_spot_or_case_to_case(strength):
    found, margins = find(check(strength)), check(strength).margins()
    assert found.margin == margins.min()
    assert margins[found.index] == margins.min()
    assert found.available == np.broadcast_to(strength, LOADS.shape)[found.index]


def test_a_margin_below_zero_is_less_than_required():
    assert find(check(50.0)).outcome == Outcome.LESS


def test_exactly_enough_carries():
    found = find(check(60.0))
    assert (found.margin, found.outcome) == (0.0, Outcome.CARRIES)


def test_an_unknown_strength_is_turned_round():
    """The spot that must carry most is shown, the key that hides the margin is named, and nothing else."""
    found = find(check(None))
    assert (found.margin, found.available, found.outcome) == (None, None, Outcome.NOT_GIVEN)
    assert (found.required, found.spot, found.case) == (60.0, "b c", "gust")
    assert found.missing == ("rivet.small.shear",)
    assert check(None).margins() is None
    assert found.working.result_name == "must carry"
    assert evaluate(found.working.formula, {s.name: s.si for s in found.working.symbols}) == 60.0


def test_an_unknown_load_leaves_nothing_to_say():
    found = find(check(load=None))
    assert (found.margin, found.required, found.working) == (None, None, None)
    assert found.available == 100.0


def test_nothing_required_is_no_danger():
    """Infinite margin, whatever the strength; zero strength under no load too."""
    for strength in (100.0, 0.0):
        found = find(check(strength, np.zeros((2, 3))))
        assert found.margin == np.inf
        assert found.outcome == Outcome.CARRIES


def test_idle_spots_do_not_hide_the_loaded_one():
    found = find(check(load=np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 2.0]])))
    assert (found.spot, found.case) == ("d", "flight")


@pytest.mark.parametrize("bad", [np.nan, np.array([[1.0, np.nan, 1.0]])], ids=["one", "one of many"])
def test_not_a_number_is_refused(bad):
    for work in (find, Check.margins):
        with pytest.raises(SurfaceError, match=r"row\.seam, rivet shears: .* gives no number"):
            work(check(bad))


def test_outside_the_method_is_said_where_the_worst_spot_is():
    outside = np.zeros((2, 3), dtype=bool)
    outside[0, 1] = True
    assert find(check(outside=outside)).outcome == Outcome.OUTSIDE
    assert find(check(outside=~outside)).outcome == Outcome.CARRIES
    assert find(check(None, outside=True)).outcome == Outcome.OUTSIDE


def test_reduced_spots_keep_the_names_of_their_cases():
    """With one case on the axis, the case of each spot is named beside it."""
    found = find(check(load=LOADS[:1], cases=("",), spot_cases=("gust", "flight", "tie-down")))
    assert (found.spot, found.case) == ("b c", "flight")


def test_a_spot_without_a_name_leaves_the_place_alone():
    found = find(check(load=LOADS[:, :1], spots=("",)))
    assert (found.place, found.part, found.case) == ("row.seam", "seam", "flight")


def test_notes_of_the_part_come_first():
    assert check(notes=("of the part",)).notes == ("of the part",)
    of = item(notes=("of the part",))
    made = of.check("m", "gives", "1", "S", {"S": Term(1.0, "", "s")}, "S", SOURCE, notes=("of the check",))
    assert made.notes == ("of the part", "of the check")


def test_the_margin_of_a_load_multiplier_is_that_multiplier_less_one():
    terms = {"lam": Term(np.array([[2.0, 1.25, 3.0]]), "", "multiple"), "S": Term(4.0, "force", "shear")}
    made = item(cases=("gust",)).check("m", "gives", "10", "S", terms, "S", SOURCE, proof="lam * S / (lam * 4)")
    found = find(made)
    assert (found.margin, found.spot) == (0.25, "b c")
    assert found.working.steps[0].result == 1.0
    assert evaluate(found.working.formula, {s.name: s.si for s in found.working.symbols}) == 0.25


def test_every_shown_working_gives_its_result(demo):
    for finding in demo.findings:
        if finding.working is None or finding.margin == np.inf:
            continue
        for working in (finding.working, *finding.working.steps):
            given = {symbol.name: symbol.si for symbol in working.symbols}
            assert evaluate(working.formula, given) == pytest.approx(working.result, rel=1e-9, abs=1e-12), finding.name


def test_find_agrees_with_the_margins_of_every_check(demo):
    for finding in demo.findings:
        margins = finding.check.margins()
        if margins is None:
            assert finding.margin is None
        else:
            assert finding.margin == margins.min(), finding.name
            assert finding.index == tuple(np.unravel_index(np.argmin(margins), margins.shape)), finding.name


def test_names_in_keeps_the_order_of_the_text():
    assert names_in("F_bru * D * t / (FS * P) - 1") == ("F_bru", "D", "t", "FS", "P")


def test_a_term_takes_number_source_and_key_of_a_value():
    term = Term.of(Value(0.5e-3, "0.5 mm", SOURCE, "sheet.left_skin.thickness"), "length", "sheet")
    assert (term.values, term.source, term.key) == (0.5e-3, SOURCE, "sheet.left_skin.thickness")
    assert Term.of(UNKNOWN, "length", "sheet").values is None


def test_a_number_that_must_be_known():
    assert plain(Value(2.0)) == plain(Value(np.array(2.0))) == plain(Value(np.array([2.0]))) == 2.0
    assert numbers(Value(np.array([1.0, 2.0]))).tolist() == [1.0, 2.0]
    with pytest.raises(SurfaceError, match=r'rivet\.small\.pull is "\?": it is needed here'):
        plain(Value(None, "?", key="rivet.small.pull"))
    with pytest.raises(SurfaceError, match="hole is a stack of 2 variants"):
        plain(Value(np.array([1.0, 2.0]), key="hole"))


def test_values_in_a_row():
    assert in_a_row([1.0, np.array(2.0)]).tolist() == [1.0, 2.0]
    assert in_a_row([np.array([1.0, 3.0]), 2.0]).tolist() == [[1.0, 2.0], [3.0, 2.0]]
