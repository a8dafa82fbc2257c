"""How fast it is, beside what somebody would use instead, measured in one run.

    python3 start.py bench                 the table
    python3 start.py bench --quick         fewer rounds, rougher
    python3 start.py bench --json FILE     the same numbers in a file as well; nothing is written otherwise

README. On a shared computer a time says little and a ratio says more. Each row times two things in turn, round after
round, and shows the median of each and the median of the rounds' ratios, "this" over "other": below 1 is faster.
Differences under 30 % mean nothing. One BLAS thread (start.py sets it). What is compared:

- import: time inside a fresh Python, the package and its kernel against NumPy alone (stored bytecode, warm files);
- spar: one spar on four hinges, two cases, curves at 200 stations, warm, against scikit-fem and Pynite (spars.py; a
  test holds that all three agree with the theorem of three moments);
- whole check: data/rudder.toml assessed, and read and assessed, five times in a row, against Pynite solving one spar;
- from the shell: `check` in a fresh Python up to the first number on the screen, and up to the written page, and
  `rivets` with 200 alternatives of two rows up to its page, against a fresh Python that imports NumPy and matplotlib;
- stacks: 1,000 sections of two cells and twelve walls, and 10,000 different beams on four hinges in both planes,
  against the same functions called one by one (a sample, counted up). A stack gives bit for bit what single calls give;
- rivets: 100,000 alternatives of one row at the loads of the surface, with every check of the row, rules, number and
  mass, against Pynite solving one spar, and against whole checks one by one; and 1,000,000 ways of several rows, each
  with an alternative of its own, from the tables of the rows;
- sweeps: one variant of data/rudder.toml with every number different, all load cases, every check, and one beam of
  10,000, each against the spar alone by the faster of scikit-fem and Pynite, whichever that is in the same run.
- memory: of a fresh Python in which 100,000 such variants are laid out and the first 512 and 1,024 are worked and
  written; what the second half adds is what the rest would add for every 512, if anything.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import shlex
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).parents[2]
Timed = Callable[[], float]
RIVETS = (
    "--row left_skin_to_spar --row right_skin_to_spar --pitch 15 18 20 22 25 27 30 33 36 40 --edge 6 7 8 9"
    " --rivet small large 'AD 1/8' 'ISO 15977 H' 'ISO 15981'"
)


def clocked(work: Callable[[], object], times: int = 1) -> Timed:
    """Return a function that works so many times and returns the seconds of one."""

    def timed() -> float:
        begun = time.perf_counter()
        for _ in range(times):
            work()
        return (time.perf_counter() - begun) / times

    return timed


def row(name: str, this: Timed, other: Timed, goal: str, rounds: int) -> dict[str, object]:
    """Time two things in turn."""
    this(), other()  # files, caches, first calls
    pairs = [(this(), other()) for _ in range(rounds)]
    return {
        "what": name,
        "this_s": statistics.median(first for first, _ in pairs),
        "other_s": statistics.median(second for _, second in pairs),
        "ratio": statistics.median(first / second for first, second in pairs),
        "goal": goal,
    }


def fresh(code: str) -> Timed:
    """Return a function that runs code in a fresh Python and returns the seconds it took in there."""
    inside = f"import time; begun = time.perf_counter(); {code}; print(time.perf_counter() - begun)"

    def timed() -> float:
        return float(subprocess.run([sys.executable, "-c", inside], cwd=ROOT, capture_output=True, check=True).stdout)

    return timed


def imports(rounds: int) -> list[dict[str, object]]:
    """Time imports."""
    numpy = fresh("import numpy")
    kernel = ", ".join(f"surfacecheck.{part}" for part in ("loads", "statics", "sections", "strength"))
    return [
        row("import surfacecheck | numpy", fresh("import surfacecheck"), numpy, "1.3", rounds),
        row("import the kernel | numpy", fresh(f"import {kernel}"), numpy, "", rounds),
        row("import read, assess | numpy", fresh("from surfacecheck import assess, read"), numpy, "", rounds),
    ]


def beams(rounds: int) -> list[dict[str, object]]:
    """Time one spar."""
    import spars

    ours = clocked(spars.ours, 10)
    return [
        row("spar | scikit-fem", ours, clocked(spars.scikit_fem), "0.3", rounds),
        row("spar | Pynite", ours, clocked(spars.pynite), "0.1", rounds),
    ]


def whole(rounds: int) -> list[dict[str, object]]:
    """Time a whole check, warm."""
    import spars

    import surfacecheck

    path = ROOT / "data" / "rudder.toml"
    surface = surfacecheck.read(path)
    check = clocked(lambda: surfacecheck.assess(surface), 5)
    both = clocked(lambda: surfacecheck.assess(surfacecheck.read(path)), 5)
    return [
        row("whole check, warm | Pynite, spar alone", check, clocked(spars.pynite), "20 ms", rounds),
        row("file read, whole check | Pynite, spar alone", both, clocked(spars.pynite), "", rounds),
    ]


def shell(rounds: int) -> list[dict[str, object]]:
    """Time `check` as it is typed, on a copy, so that the project's folder stays as it was."""
    folder = Path(tempfile.mkdtemp())
    shutil.copytree(ROOT / "data", folder / "data", ignore=shutil.ignore_patterns("out"))
    command = [sys.executable, "-u", "-m", "surfacecheck", "check", str(folder / "data" / "rudder.toml")]
    number = re.compile(r"\d\s*(N|mm|kg|kN|g)\b|[+-]\d\.\d\d")

    def until(enough: Callable[[str], object]) -> Timed:
        def timed() -> float:
            begun = time.perf_counter()
            child = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True)
            for line in child.stdout:
                if enough(line):
                    break
            seconds = time.perf_counter() - begun
            child.communicate()
            if child.returncode:
                raise subprocess.CalledProcessError(child.returncode, command)
            return seconds

        return timed

    rivets = [*command[:4], "rivets", command[-1], *shlex.split(RIVETS)]

    def run(words: list[str]) -> None:
        subprocess.run(words, cwd=ROOT, stdout=subprocess.DEVNULL, check=True)

    drawing = [sys.executable, "-c", "import numpy, matplotlib.figure"]
    other = clocked(lambda: subprocess.run(drawing, cwd=ROOT, check=True))
    try:
        return [
            row("check, to the first number | numpy + matplotlib", until(number.search), other, "1 s", rounds),
            row("check, to the page | numpy + matplotlib", until(lambda line: False), other, "2.5 s", rounds),
            row("rivets, 200 alternatives, to the page | same", clocked(lambda: run(rivets)), other, "2.5 s", rounds),
        ]
    finally:
        shutil.rmtree(folder)


def sections_one_by_one(rounds: int) -> list[dict[str, object]]:
    """Time 1,000 sections in a stack and one by one."""
    import numpy as np

    from surfacecheck.sections import Topology, section

    # web 0-1-2 upwards, skins over 3, 4 to the trailing edge 5 and back over 6, 7, nose from 2 over 8, 9, 10 to 0
    round_box = ((0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 6), (6, 7), (7, 0), (2, 8), (8, 9), (9, 10), (10, 0))
    topology = Topology(11, round_box)
    x = np.array([0, 0, 0, 0.1, 0.2, 0.3, 0.2, 0.1, -0.03, -0.045, -0.03])
    z = np.array([-0.03, 0, 0.03, 0.02, 0.01, 0, -0.01, -0.02, 0.02, 0, -0.02])
    rng = np.random.default_rng(1)
    scale = rng.uniform(0.8, 1.2, (1000, 1))
    t = rng.uniform(4e-4, 1e-3, (1000, len(round_box)))
    sample = 50
    stack = clocked(lambda: section(topology, x * scale, z * scale, t))
    single = clocked(lambda: [section(topology, x * scale[i], z * scale[i], t[i]) for i in range(sample)])
    return [row("1,000 sections | one by one", stack, lambda: single() * 1000 / sample, "", rounds)]


def beam_stacks(many: int, chunk: int, sample: int = 50) -> tuple[Timed, Timed]:
    """Return so many beams, everything different, in stacks; and a few of them one by one."""
    import numpy as np

    from surfacecheck.statics import Supports, beam_stiffness, grid, solve, unloaded

    rng = np.random.default_rng(2)
    places = np.array([0.0, 0.08, 0.56, 1.04, 1.52, 1.6]) * rng.uniform(0.9, 1.1, (many, 1))
    stiff = rng.uniform(5e3, 1.2e4, (2, many, 1))
    pressed = rng.uniform(-3e3, 3e3, (2, many, 1, 1))

    def some(which: slice | int) -> object:
        stations = grid(places[which], cells=1)
        loads = unloaded(stations, z=pressed[0, which], x=0.1 * pressed[1, which])
        bending = beam_stiffness(stiff[0, which], stiff[1, which])
        return solve(stations, loads, bending, Supports((1, 2, 3, 4)), coupled=False)

    stack = clocked(lambda: [some(slice(i, i + chunk)) for i in range(0, many, chunk)])
    return stack, clocked(lambda: [some(i) for i in range(sample)])


def beams_one_by_one(rounds: int) -> list[dict[str, object]]:
    """Time 10,000 beams in stacks of 500 and one by one."""
    many, sample = 10_000, 50
    stack, single = beam_stacks(many, 500, sample)
    return [row("10,000 beams, two planes | one by one", stack, lambda: single() * many / sample, "0.15 s", rounds)]


def rivet_alternatives(rounds: int) -> list[dict[str, object]]:
    """Time alternatives of rivets, loads unchanged; a table of one row each, and several rows from their tables."""
    import numpy as np
    import spars

    import surfacecheck
    from surfacecheck.studies import Alternatives, rivets

    assessment = surfacecheck.assess(surfacecheck.read(ROOT / "data" / "rudder.toml"))
    kinds = ("small", "large", "AD 1/8", "AD 5/32", *(f"ISO 15977 {one}" for one in ("H 3.2", "H 4", "L 3.2", "L 4")),
             "ISO 15983 3.2", "ISO 15983 4")  # fmt: skip
    many = Alternatives(pitch=np.linspace(0.012, 0.06, 100), rivet=kinds, edge=np.linspace(6e-3, 9e-3, 100))
    some = rivets(assessment, "left_skin_to_spar", many).surface_of(4242)
    one_row = clocked(lambda: rivets(assessment, "left_skin_to_spar", many).whole)
    single = clocked(lambda: surfacecheck.assess(some), 3)
    rows = [name for name, row in assessment.surface.rows.items() if row.pitch.known]
    tables = rivets(assessment, rows, Alternatives(pitch=np.linspace(0.015, 0.05, 8), rivet=kinds, edge=(7e-3, 8e-3)))
    ways = np.random.default_rng(3).integers(0, tables.size, (1_000_000, len(rows)))
    gathered = clocked(lambda: tables.together(ways))
    return [
        row("100,000 rivet alternatives | Pynite, spar alone", one_row, clocked(spars.pynite), "1 s", rounds),
        row("100,000 rivet alternatives | one by one", one_row, lambda: single() * 100_000, "", rounds),
        row(f"1,000,000 ways of {len(rows)} rows | Pynite, spar alone", gathered, clocked(spars.pynite), "2 s", rounds),
    ]


FASTEST = "the faster library, spar alone"


def fastest_library() -> Timed:
    """Return the spar of the faster of the two general libraries."""
    import spars

    tried = {spar: clocked(spar, 3) for spar in (spars.scikit_fem, spars.pynite)}
    for timed in tried.values():
        timed()
    return clocked(min(tried, key=lambda spar: tried[spar]()))


def every_number_different(surface: object, many: int) -> dict[str, object]:
    """Shake every number of a surface by up to 0.3 %; numbers that are the same stay the same."""
    import numpy as np

    from surfacecheck.studies import number_places

    rng = np.random.default_rng(3)
    places = number_places(surface).values()
    given = {place.key: place.value.si for place in places if place.value.si and not place.value.absent}
    shaken = {si: si * (1.0 + 3e-3 * rng.uniform(-1.0, 1.0, many)) for si in dict.fromkeys(given.values())}
    return {key: shaken[si] for key, si in given.items()}


def sweeps(rounds: int) -> list[dict[str, object]]:
    """Time whole surfaces in a sweep, and beams in a stack, one of each."""
    import surfacecheck
    from surfacecheck.studies import sweep

    many, beams_many = 512, 10_000
    surface = surfacecheck.read(ROOT / "data" / "rudder.toml")
    study = sweep(surface, every_number_different(surface, many))
    whole_surface = clocked(lambda: list(study.parts(progress=False)))
    beam = beam_stacks(beams_many, 500)[0]
    library = fastest_library()
    return [
        row(f"whole surface of {many} | {FASTEST}", lambda: whole_surface() / many, library, "0.1", rounds),
        row(f"beam, two planes, of 10,000 | {FASTEST}", lambda: beam() / beams_many, library, "0.005", rounds),
    ]


def memory(rounds: int) -> list[dict[str, object]]:
    """Take the peak memory of a sweep of 100,000 variants, streamed to a file; Windows does not tell it this way."""
    if sys.platform == "win32":
        return []
    code = (
        "import sys, resource, pathlib, tempfile; sys.path.insert(0, 'tests/bench'); import run, surfacecheck;"
        "from surfacecheck.studies import sweep;"
        "from surfacecheck.studies.sweeping._sweep_table import CsvFile, row_columns;"
        "surface = surfacecheck.read('data/rudder.toml');"
        "study = sweep(surface, run.every_number_different(surface, 100_000));"
        "out = CsvFile(pathlib.Path(tempfile.mkdtemp()) / 'all.csv'); done = 0;"
        "size = 1 if sys.platform == 'darwin' else 1024;"
        "peak = lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * size\n"
        "for part in study.parts(progress=False):\n"
        "    out.write(row_columns(study, part)); done += part.variants.size\n"
        "    if done >= 512: print(peak(), flush=True)\n"
        "    if done >= 1024: break\n"
    )
    said = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=True, text=True).stdout
    first, *_, last = (int(line) for line in said.split())
    what = "100,000 variants laid out: 1,024 | 512 of them worked, peak"
    return [{"what": what, "this_s": last, "other_s": first, "ratio": last / first, "goal": "1 GiB", "unit": "bytes"}]


def seconds(value: float) -> str:
    """Write a time with three digits."""
    unit, scale = ("s", 1.0) if value >= 1.0 else ("ms", 1e3) if value >= 1e-3 else ("us", 1e6)
    return f"{value * scale:.3g} {unit}"


def shown(line: dict[str, object], side: str) -> str:
    """Write a time, or a size."""
    return f"{line[side] / 1e6:.0f} MB" if line.get("unit") == "bytes" else seconds(line[side])


def main(words: list[str] | None = None) -> int:
    """Measure everything and print a table."""
    parser = argparse.ArgumentParser(
        prog="start.py bench", description="How fast it is, beside what it is compared with."
    )
    parser.add_argument("--quick", action="store_true", help="fewer rounds")
    parser.add_argument("--json", metavar="FILE", type=Path, help="write the numbers here too")
    asked = parser.parse_args(words)
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ.setdefault(name, "1")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # it makes every fresh Python compile everything
    sys.path[:0] = [str(Path(__file__).parent), str(ROOT)]
    rounds = 3 if asked.quick else 11
    print(f"{'this | other':60} {'this':>8} {'other':>8} {'ratio':>7}  goal, at most")
    measured = []
    everything = (
        imports,
        beams,
        whole,
        shell,
        sections_one_by_one,
        beams_one_by_one,
        rivet_alternatives,
        sweeps,
        memory,
    )
    for measure in everything:
        for line in measure(rounds):
            measured.append(line)
            times = f"{shown(line, 'this_s'):>8} {shown(line, 'other_s'):>8}"
            print(f"{line['what']:60} {times} {line['ratio']:7.3g}  {line['goal']}", flush=True)
    if asked.json:
        asked.json.write_text(json.dumps(measured, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
