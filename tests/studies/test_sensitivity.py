"""What to measure better: finite differences against closed forms, order, groups, limits."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.provenance import Basis, Source
from surfacecheck.reading import read, read_text
from surfacecheck.strength import wrinkled_row_margin
from surfacecheck.studies import decides
from surfacecheck.studies.asking._deciding import SHOWN
from surfacecheck.studies.asking._sensitivity import SHARE, STEPS, _from_memory

DATA = Path(__file__).parents[2] / "data"
RUDDER = (DATA / "rudder.toml").read_text(encoding="utf-8")


def guessed(*changes, text=RUDDER):
    """The demo rudder with some words of its file changed."""
    for before, after in changes:
        assert text.count(before) >= 1, before
        text = text.replace(before, after)
    return assess(read_text(text))


def of(decided, key):
    (found,) = [one for one in decided.deciding if one.key == key]
    return found


@pytest.fixture(scope="module")
def pin():
    """What the bush can take is a guess: margin = F D L / (6.67 P) - 1, so 1 % more adds 0.01 (margin + 1)."""
    return guessed(("250 N/mm2 (bush maker)", "250 N/mm2 (guess)"))


def test_a_strength_moves_its_margin_in_proportion(pin):
    found = of(decides(pin), "bracket.plate.pin.crushing_strength")
    before = pin.find("hinge.bottom.pin:bearing").margin
    (move,) = [one for one in found.moves if one.name == "hinge.bottom.pin:bearing"]
    assert found.named
    assert found.source.basis is Basis.GUESS
    assert move.before == before
    assert move.by == pytest.approx(SHARE * (1.0 + before), rel=1e-9)
    assert move.steps == pytest.approx(-before / (SHARE * (1.0 + before)), rel=1e-9)


def test_its_sentence_says_step_move_and_what_uses_it_up(pin):
    found = of(decides(pin), "bracket.plate.pin.crushing_strength")
    before = pin.find("hinge.bottom.pin:bearing").margin
    told = found.sentence()
    share = 100 * before / (1.0 + before)
    assert told.startswith("bracket.plate.pin.crushing_strength = 250 N/mm2 (guess): 1 % more moves bottom hinge, pin")
    assert f"by {SHARE * (1.0 + before):+.3f} from {before:+.2f}" in told
    assert told.endswith(f"about {share:.0f} % less would bring it to nought")


def test_what_it_says_comes_true(pin):
    """The chain worked again with as much less of it as the sentence says: nothing is left of the margin."""
    before = pin.find("hinge.bottom.pin:bearing").margin
    less = 250.0 / (1.0 + before)
    again = guessed(("250 N/mm2 (bush maker)", f"{less:.6f} N/mm2 (guess)"))
    assert again.find("hinge.bottom.pin:bearing").margin == pytest.approx(0.0, abs=1e-6)


def test_a_guess_behind_the_load_counts_too():
    """The pressure stands in no formula of a margin; with it the only large load, 1 % more of it takes 1 %."""
    alone = guessed(
        ('pressure = "1.20 kPa (designer\'s letter)"', 'pressure = "3.0 kPa (guess)"'),
        ('wind_at_tiedown = "65 knots (rule)"', 'wind_at_tiedown = "none"'),
    )
    found = of(decides(alone), "load.pressure")
    assert not found.named
    for move in found.moves:
        if abs(move.by) >= SHOWN:
            assert move.by < 0.0
            assert move.by >= -SHARE * (1.0 + move.before) * 1.01


def test_lines_with_the_same_words_are_changed_together():
    found = decides(guessed(("0.50 mm (micrometer)", "0.50 mm (guess)"), ("0.80 mm (micrometer)", "0.80 mm (guess)")))
    spar = of(found, "sheet.spar.thickness")
    assert spar.lines == 2  # and its doubler
    assert "on 2 lines" in spar.sentence()


def test_nought_has_a_stated_step():
    decided = decides(assess(read(DATA / "rudder.toml")))
    fin = of(decided, "hinge.middle.fin_bends")
    assert (fin.step, fin.quantity) == STEPS["fin_bends"]
    assert "1 mm more moves" in fin.sentence()
    assert "in more moves" in fin.sentence("inch")
    moved = guessed(('fin_bends = "none"', 'fin_bends = "0 mm left (guess)"'))
    assert decides(moved).deciding


def test_what_cannot_be_less_than_nought_is_not_told_so():
    for one in decides(assess(read(DATA / "rudder.toml"))).deciding:
        if one.quantity in {"compliance", "mass"}:
            assert " less " not in one.sentence()


def test_from_memory_is_found_in_the_shipped_tables():
    assessment = assess(read(DATA / "elevator.toml"))
    found = of(decides(assessment), "2024-T3 clad.modulus_compression")
    (move,) = found.moves
    assert found.source.basis is Basis.FROM_MEMORY
    check = assessment.find(move.name).check
    assert check.terms["E"].source == found.source
    assert move.by == pytest.approx(SHARE * (1.0 + move.before), rel=1e-6)  # buckling goes with E


def test_the_most_telling_stands_first_and_every_input_is_named():
    decided = decides(assess(read(DATA / "rudder.toml")), trials=3)
    near = [one.nearest for one in decided.deciding]
    assert near == sorted(near)
    doubtful = {"horn.leaves", "weighed.paint", "hinge.top.fin_bends"}
    named = {one.key for one in decided.deciding} | set(decided.still) | set(decided.untried)
    assert doubtful <= named


def test_the_number_of_trials_is_kept(monkeypatch):
    from surfacecheck.studies.asking import _sensitivity

    runs = []
    monkeypatch.setattr(_sensitivity, "assess", lambda surface: runs.append(surface) or assess(surface))
    decided = decides(assess(read(DATA / "rudder.toml")), trials=2)
    assert len(runs) == 2
    assert any(line.startswith("Doubtful too, not tried:") for line in decided.sentences())


def test_a_step_that_cannot_be_worked_is_made_the_other_way():
    """A rib at the tip cannot lie 1 % beyond it."""
    ribs = guessed(('"1100 mm (tape)"] # face', '"1100 mm (guess)"] # face'))
    decided = decides(ribs)
    named = {one.key: one for one in decided.deciding}
    key = "sheet.ribs.up[7]"
    assert key in decided.still or named[key].step < 0.0


def test_nothing_doubtful_is_said_in_one_line():
    surface = read(DATA / "elevator.toml")
    sure = Source(Basis.MEASURED, "tape")
    assessment = assess(surface)
    sound = []
    for finding in assessment.findings:
        terms = {name: term._replace(source=sure) for name, term in finding.check.terms.items()}
        sound.append(replace(finding, check=replace(finding.check, terms=terms)))
    hinges = {
        name: replace(h, gives_sideways=replace(h.gives_sideways, source=sure),
                      gives_fore_aft=replace(h.gives_fore_aft, source=sure),
                      fin_bends=replace(h.fin_bends, source=sure))
        for name, h in surface.hinges.items()
    }  # fmt: skip
    spar = replace(surface.sheet.spar, lip=replace(surface.sheet.spar.lip, source=sure))
    bare = replace(
        surface,
        hinges=hinges,
        weighed=replace(surface.weighed, paint=replace(surface.weighed.paint, source=sure)),
        balance_mass=type(surface.balance_mass)(),
        controls=replace(surface.controls, rigging_pull=replace(surface.controls.rigging_pull, source=sure)),
        horn=None,
        sheet=replace(surface.sheet, spar=spar),
    )
    (line,) = decides(replace(assessment, surface=bare, findings=tuple(sound))).sentences()
    assert line == "Nothing that is guessed, unsaid or from memory was found behind the 5 lowest margins."


def test_without_a_margin_there_is_nothing_to_say():
    bare = assess(read_text(RUDDER.replace('thickness = "0.80 mm (micrometer)"', 'thickness = "?"')))
    decided = decides(replace(bare, findings=()))
    assert decided.sentences() == []
    assert decided.lowest == ()


def test_no_number_is_left_out_of_the_sentences(pin):
    decided = decides(pin)
    text = " ".join(decided.sentences())
    for one in decided.deciding:
        assert one.key in text
        assert np.isfinite(one.moves[0].after)


def test_a_value_from_memory_is_tried_where_the_margin_is_a_multiple_of_the_load():
    """Bearing yield of the skin, 1 % more, of a row whose sheet wrinkles: as the solver of such rows gives it."""
    rudder = assess(read(DATA / "rudder.toml"))
    finding = rudder.find("row.left_skin_to_spar.at-90-mm:left_skin-crush-yield")
    assert finding.check.proof
    (found,) = _from_memory((finding,))
    assert found.key == "2024-T3 clad.bearing_yield_20"
    (move,) = found.moves
    sheared = finding.value("S") / (1.01 * finding.available)
    ratio = finding.value("q") / finding.value("q_cr")
    expected = wrinkled_row_margin(sheared, 0.0, ratio, finding.value("FY"))
    assert move.before == finding.margin
    assert move.after == pytest.approx(float(expected), rel=1e-9)
    assert move.by > SHOWN
