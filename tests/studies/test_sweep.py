"""A sweep gives every variant what it has alone, whoever works it; what cannot be says why; what is stopped is kept."""

from __future__ import annotations

import os
import signal
from concurrent.futures import Future, ThreadPoolExecutor

import numpy as np
import pytest

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.interrupts import undisturbed
from surfacecheck.stacks import one_of
from surfacecheck.studies import combinations, processes, read_sweep, sweep, swept, with_numbers, write_sweep

MANY, CHUNK = 24, 5
FLOATS = ("lowest", "pins", "mass", "tail_heavy")


@pytest.fixture(scope="module")
def surface():
    return surfacecheck.read("data/rudder.toml")


@pytest.fixture(scope="module")
def numbers():
    rng = np.random.default_rng(5)
    made = {
        "sheet.spar.thickness": rng.uniform(0.7e-3, 1.0e-3, MANY),
        "sheet.left_skin.thickness": rng.uniform(0.4e-3, 0.6e-3, MANY),
        "hinge.middle.up": rng.choice([0.55, 0.57], MANY),  # below and above the rib: another order of places
        "sheet.bottom_doubler.to": rng.uniform(0.19, 0.21, MANY),
        "rivet.large.hole": rng.uniform(4.05e-3, 4.3e-3, MANY),
        "row.trailing_edge.pitch": rng.uniform(0.02, 0.03, MANY),
    }
    made["sheet.spar.thickness"][4] = 0.0
    made["hinge.middle.up"][20] = 1.02
    made["rivet.large.hole"][19] = np.nan
    return made


@pytest.fixture(scope="module")
def study(surface, numbers):
    return sweep(surface, numbers)


@pytest.fixture(scope="module")
def found(study):
    return swept(study)


def same(one, other):
    """Tell whether two results agree to the last bit."""
    assert one.done.tolist() == other.done.tolist()
    assert one.why == other.why
    assert one.governs.tolist() == other.governs.tolist()
    assert one.case.tolist() == other.case.tolist()
    for name in FLOATS:
        assert np.array_equal(getattr(one, name), getattr(other, name), equal_nan=True), name
    assert one.margins.keys() == other.margins.keys()
    for name, values in one.margins.items():
        assert np.array_equal(values, other.margins[name], equal_nan=True), name


@pytest.mark.parametrize("variant", [0, 3, 17, MANY - 1])
def test_every_variant_has_the_numbers_it_has_alone(surface, numbers, found, variant):
    alone = surfacecheck.assess(one_of(with_numbers(surface, numbers), variant))
    lowest = alone.margins[0]
    assert found.lowest[variant] == lowest.margin
    assert (found.governs[variant], found.case[variant]) == (lowest.name, lowest.case)
    assert {name: values[variant] for name, values in found.margins.items()} == {
        f.check.place: f.margin for f in alone.lowest_by_part
    }
    for pin, loads in zip(alone.pins, found.pins[variant], strict=True):
        assert loads.tolist() == [pin.sideways.value, pin.fore_aft.value, pin.along.value]
    assert found.mass[variant] == alone.masses.mass
    assert found.tail_heavy[variant] == alone.masses.moment


@pytest.mark.parametrize("chunk", [1, 5])
def test_the_size_of_a_chunk_changes_no_number(study, found, chunk):
    same(swept(study, chunk=chunk), found)


def test_threads_give_the_same_numbers(study, found):
    with ThreadPoolExecutor(2) as executor:
        same(swept(study, executor, chunk=CHUNK), found)


def test_processes_give_the_same_numbers_and_one_killed_in_the_middle_loses_nothing(study, found):
    with processes(1) as executor:
        parts = study.parts(executor, chunk=CHUNK)
        first = next(parts)
        assert np.array_equal(first.lowest, found.lowest[first.variants], equal_nan=True)
        (worker,) = executor._processes
        lost: list[str] = []
        whole = study.parts(executor, chunk=CHUNK, lost=lost)
        begun = next(whole)
        os.kill(worker, getattr(signal, "SIGKILL", signal.SIGTERM))
        rest = [begun, *whole]
    assert len(lost) == 1
    assert "broke off" in lost[0]
    got = np.concatenate([part.variants for part in rest])
    assert sorted(got) == list(range(MANY))
    assert np.array_equal(np.concatenate([part.lowest for part in rest]), found.lowest[got], equal_nan=True)


def test_a_cluster_gives_the_same_numbers_and_a_worker_killed_in_the_middle_loses_nothing(study, found):
    distributed = pytest.importorskip("distributed", reason="the extra `cluster` (distributed) is not installed")
    local = {"n_workers": 1, "threads_per_worker": 1, "dashboard_address": None, "host": "127.0.0.1"}
    with (
        distributed.LocalCluster(silence_logs=60, **local) as cluster,
        distributed.Client(cluster) as client,
    ):
        executor = client.get_executor(retries=3)
        parts = study.parts(executor, chunk=CHUNK)
        begun = next(parts)
        (worker,) = client.run(os.getpid).values()
        os.kill(worker, getattr(signal, "SIGKILL", signal.SIGTERM))
        rest = [begun, *parts]
    got = np.concatenate([part.variants for part in rest])
    assert sorted(got) == list(range(MANY))
    assert np.array_equal(np.concatenate([part.lowest for part in rest]), found.lowest[got], equal_nan=True)


class Losing(ThreadPoolExecutor):
    """An executor that loses every second task without breaking."""

    asked = 0

    def submit(self, work, /, *words, **more):
        self.asked += 1
        if self.asked % 2:
            return super().submit(work, *words, **more)
        lost: Future = Future()
        lost.set_exception(ConnectionError("worker gone"))
        return lost


def test_a_chunk_that_an_executor_loses_is_done_again_here(study, found):
    with Losing(1) as executor:
        again = swept(study, executor, chunk=CHUNK)
    same(again, found)
    assert again.lost
    assert all("ConnectionError: worker gone" in line for line in again.lost)


def test_a_fault_of_the_work_itself_is_not_hidden(surface):
    study = sweep(surface, {"sheet.spar.thickness": [0.8e-3]})
    object.__setattr__(study, "columns", ("no column",))
    with ThreadPoolExecutor(1) as executor, pytest.raises(AttributeError):
        swept(study, executor)


class Stopped(Future):
    """A result that is waited for when the keyboard interrupts."""

    def result(self, timeout=None):
        raise KeyboardInterrupt


class Interrupted(ThreadPoolExecutor):
    """An executor whose fourth result is interrupted."""

    asked = 0

    def submit(self, work, /, *words, **more):
        self.asked += 1
        return Stopped() if self.asked == 4 else super().submit(work, *words, **more)


@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_what_was_finished_before_a_stop_is_in_the_file_and_the_rest_is_counted(study, found, tmp_path, ending):
    if ending == ".parquet":
        pytest.importorskip("pyarrow", reason="the extra `sweep` (pyarrow) is not installed")
    with Interrupted(1) as executor:
        written = write_sweep(study, tmp_path / f"some{ending}", executor, chunk=CHUNK)
    assert written.stopped
    assert 0 < written.rows < MANY
    assert f"stopped; {written.rows} of {MANY} variants are written" in str(written)
    some = read_sweep(written.path)
    at = some["variant"].astype(int)
    assert len(at) == len(set(at)) == written.rows
    assert np.array_equal(some["lowest"], found.lowest[at], equal_nan=True)
    assert some["governs"] == found.governs[at].tolist()


def test_an_interrupt_waits_until_a_chunk_is_put_away_whole():
    done = []

    def put_away():
        with undisturbed():
            done.append("begun")
            signal.raise_signal(signal.SIGINT)
            done.append("whole")
        done.append("not reached")

    with pytest.raises(KeyboardInterrupt):
        put_away()
    assert done == ["begun", "whole"]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_a_sweep_that_is_stopped_says_which_variants_are_done(study, found):
    with Interrupted(1) as executor:
        some = swept(study, executor, chunk=CHUNK)
    assert some.stopped
    assert 0 < some.done.sum() < MANY
    assert np.array_equal(some.lowest[some.done], found.lowest[some.done], equal_nan=True)
    assert np.isnan(some.lowest[~some.done]).all()


@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_files_hold_every_number_to_the_last_bit(study, found, numbers, tmp_path, ending):
    if ending == ".parquet":
        pytest.importorskip("pyarrow", reason="the extra `sweep` (pyarrow) is not installed")
    written = write_sweep(study, tmp_path / f"every{ending}", chunk=CHUNK)
    assert (written.rows, written.refused, written.stopped) == (MANY, 3, False)
    read = read_sweep(written.path)
    at = read["variant"].astype(int)
    assert sorted(at) == list(range(MANY))
    expected = numbers | {"lowest": found.lowest, "mass": found.mass, "tail_heavy": found.tail_heavy}
    expected |= {f"margin.{name}": values for name, values in found.margins.items()}
    expected |= {f"pin.{h}.{way}": found.pins[:, i, w] for i, h in enumerate(study.hinges)
                 for w, way in enumerate(("sideways", "fore_aft", "along"))}  # fmt: skip
    for name, values in expected.items():
        assert np.array_equal(read[name], values[at], equal_nan=True), name
    assert read["governs"] == found.governs[at].tolist()
    assert read["case"] == found.case[at].tolist()
    assert read["why"] == [found.why.get(v, "") for v in at]
    assert set(read) == {*expected, "variant", "governs", "case", "why"}


def test_a_file_carries_the_caution_and_the_units(study, tmp_path):
    head = write_sweep(study, tmp_path / "every.csv").path.read_text(encoding="utf-8").splitlines()[0]
    assert "no approval" in head
    assert "SI units" in head


IMPOSSIBLE = {
    "sheet.spar.thickness": ([0.8e-3, 0.0], "sheet.spar.thickness is 0 mm; usual is 0.300 mm to 2.50 mm"),
    "sheet.ribs.thickness": ([0.5e-3, -0.5e-3], "sheet.ribs.thickness is -0.500 mm"),
    "rivet.large.hole": ([4.1e-3, np.inf], "rivet.large.hole is no number"),
    "row.trailing_edge.edge.left_skin": ([7e-3, 1.6e-3], "edge 1.60 mm is under half its hole, 1.65 mm"),
    "hinge.top.up": ([1.01, 1.2], "hinge.top.up is 1200 mm, the surface ends at 1100 mm"),
    "hinge.middle.up": ([0.56, 0.0902], "hinge.middle at 90.2 mm is not beyond hinge.bottom at 90.0 mm"),
    "sheet.ribs.up[4]": ([0.56, 0.30], "sheet.ribs.up[4]: 300 mm is not beyond the rib before, 325 mm"),
    "row.doubler_to_spar.to": ([0.19, 0.005], 'row.doubler_to_spar: "to" (5.00 mm) is not beyond "from" (10.0 mm)'),
    "outline.at[2].edge_behind": ([0.3, 0.020], "outline.at[2].edge_behind: 20.0 mm is not behind the web, 25.0 mm"),
    "bracket.plate.gap_sideways": ([0.02, 0.0], "bracket.plate.gap_sideways is 0 mm"),
}


@pytest.mark.parametrize("key", IMPOSSIBLE)
def test_a_variant_that_cannot_exist_is_a_row_that_says_why(surface, key):
    values, says = IMPOSSIBLE[key]
    found = swept(sweep(surface, {key: values}, "hinge.bottom.pin:bearing"))
    assert found.done.all()
    assert list(found.why) == [1]
    assert found.why[1].startswith(key.removesuffix(".to")) or "hinge" in key
    assert says in found.why[1]
    assert np.isnan(found.lowest[1])
    assert np.isfinite(found.lowest[0])


def test_a_variant_that_only_the_load_path_refuses_says_why_too(surface):
    """Its neighbours in the chunk are worked all the same."""
    nose = [0.035, 0.034, -0.03, 0.036]  # a nose point behind the web is found by the planform
    found = swept(sweep(surface, {"outline.at[1].nose_ahead": nose}, "hinge.bottom.pin"))
    alone = swept(sweep(surface, {"outline.at[1].nose_ahead": [0.036]}, "hinge.bottom.pin"))
    assert list(found.why) == [2]
    assert found.lowest[3] == alone.lowest[0]


def test_an_unknown_strength_can_be_swept(surface):
    found = swept(sweep(surface, {"rivet.small.shear": [500.0, 750.0]}, "row.ribs_to_spar:rivet-shear"))
    (margins,) = found.margins.values()
    assert (1.0 + margins[1]) / (1.0 + margins[0]) == pytest.approx(1.5)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda s: sweep(s, {"sheet.left_skin.thicknes": [1e-3]}), "Nearest: sheet.left_skin.thickness"),
        (lambda s: sweep(s, {"horn.leaves": [0.1]}), "no number of this surface has that name"),
        (lambda s: sweep(s, {"horn.arm": [0.1]}, "hinge.botom.pin"), "Nearest: hinge.bottom.pin"),
        (lambda s: sweep(s, {"horn.arm": [0.1], "horn.up": [0.0, 0.1]}), "1 of horn.arm, 2 of horn.up"),
        (lambda s: sweep(s, {"horn.arm": []}), "0 of horn.arm"),
        (lambda s: sweep(s, {}), "no key is varied"),
        (lambda s: sweep(s, {"horn.arm": [0.1] * 5}, most=4), "5 variants"),
        (lambda s: next(sweep(s, {"horn.arm": [0.1]}).parts(chunk=0)), "chunk is 0"),
        (lambda s: write_sweep(sweep(s, {"horn.arm": [0.1]}), "sweep.xls"), "must end with .csv or .parquet"),
        (lambda s: read_sweep("data/rudder.toml"), "must end with .csv or .parquet"),
    ],
)
def test_what_is_asked_wrongly_is_refused_in_one_line(surface, ask, says):
    with pytest.raises(SurfaceError) as error:
        ask(surface)
    assert says in str(error.value)
    assert "\n" not in str(error.value)


def test_a_thousand_million_combinations_are_refused_with_their_count():
    with pytest.raises(SurfaceError, match=r"1,000,000,000 variants \(10 of a x 10 of b x .* 1,000,000 allowed"):
        combinations({key: np.linspace(0.0, 1.0, 10) for key in "abcdefghi"})


def test_combinations_are_all_of_them_once():
    made = combinations({"a": [1.0, 2.0], "b": [3.0, 4.0, 5.0]})
    assert list(zip(*(values.tolist() for values in made.values()), strict=True)) == [
        (1.0, 3.0), (1.0, 4.0), (1.0, 5.0), (2.0, 3.0), (2.0, 4.0), (2.0, 5.0),
    ]  # fmt: skip
    with pytest.raises(SurfaceError, match="b: an empty list"):
        combinations({"a": [1.0], "b": []})
    with pytest.raises(SurfaceError, match="no key"):
        combinations({})
