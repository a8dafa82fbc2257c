"""Debian's own Chromium without a window, the pages it opens, and the screens it opens them on."""

from __future__ import annotations

import contextlib
import re
import shutil
from pathlib import Path
from types import SimpleNamespace

import pytest

from surfacecheck.assessment import assess
from surfacecheck.cli import main
from surfacecheck.reading import read
from surfacecheck.report import write_page

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "data" / "rudder.toml"
MEASURES = (Path(__file__).parent / "measures.js").read_text(encoding="utf-8") + "\nwindow.measures = measures;"

BARE = """
form = 1
kind = "rudder"
half = "none"
name = "A rudder by outline, load and hinges"
[load]
pressure = "1.20 kPa (letter)"
over = "behind pins"
level = "limit"
begins_at = "pins"
fades_aft = ["straight to zero"]
[outline]
at = [
  { up = "0 mm", edge_behind = "420 mm" },
  { up = "1100 mm", edge_behind = "300 mm" },
]
[hinge.bottom]
up = "90 mm"
[hinge.top]
up = "1010 mm"
"""


def report_of(surface, system="metric"):
    """Return how the page of a surface file is written."""
    return lambda page: write_page(assess(read(surface)), page, system)


def written_from(text):
    """Return how the page of a surface given as text is written."""

    def write(page):
        surface = page.with_suffix(".toml")
        surface.write_text(text, encoding="utf-8")
        report_of(surface)(page)

    return write


def without_sheet():
    """Give the demo with the thickness of its spar not measured yet."""
    text, count = re.subn(r'(?s)(\[sheet\.spar\]\s*thickness = )"[^"]*"', r'\1"?"', DEMO.read_text(encoding="utf-8"))
    assert count == 1
    return text


def ordered(*words, page):
    """Return how a command writes a page: its words, and the page it leaves beside the surface file."""

    def write(path):
        folder = path.with_suffix("")
        folder.mkdir()
        for file in DEMO.parent.glob("*.toml"):
            shutil.copy(file, folder)
        with contextlib.chdir(folder):
            assert main(list(words)) == 0
        (written,) = folder.glob(page)
        shutil.copy(written, path)

    return write


PAGES = {
    "rudder-metric": report_of(DEMO),
    "rudder-inch": report_of(DEMO, "inch"),
    "without-sheet": written_from(without_sheet()),
    "outline-alone": written_from(BARE),
    "measuring-sheet": ordered("new", "my.toml", page="my_measuring.html"),
    "map": ordered("map", "rudder.toml", page="out/rudder_map.html"),
    "takeoff": ordered("takeoff", "rudder.toml", page="out/rudder_takeoff.html"),
    "follow": ordered(
        *("follow", "rudder.toml", "--from", "trailing edge, between rib 2 and 3", "--load", "100 N"),
        page="out/rudder_follow.html",
    ),
    "one-gone": ordered("gone", "rudder.toml", page="out/rudder_gone.html"),
    "mixed": ordered(
        *("mixed", "rudder.toml", "--row", "left_skin_to_spar", "--at", "11", "13", "--slack", "0.02 mm"),
        page="out/rudder_mixed.html",
    ),
    "rivets": ordered("rivets", "rudder_rivets.toml", page="out/rudder_rivets_rivets.html"),
    "weighing": ordered(
        *("weigh", "rudder.toml", "rudder_weighed.toml", "rudder_painted.toml"), page="out/rudder_weighing.html"
    ),
    "deviation": ordered(
        *("deviation", "rudder.toml", "happened_short_edge_rib.toml"),
        page="out/happened_short_edge_rib_deviation.html",
    ),
    "query": ordered("query", "rudder.toml", "rudder_oversize_hole.toml", page="out/*_query_*.html"),
    "query-chain": ordered("query", "rudder.toml", "happened_chain.toml", page="out/*_query_*.html"),
    "aftermath": ordered(
        *("aftermath", "rudder.toml", "--wind", "65 knots", "--lock", "let go", "--past-stop", "3 deg"),
        page="out/rudder_aftermath.html",
    ),
    "scatter": ordered(
        *("scatter", "rudder.toml", "--samples", "128", "--tolerance", "hinge.*.out_of_line_aft=0.3 mm"),
        page="out/rudder_scatter.html",
    ),
}
"""Every page the package writes; a new one is one more entry: its name, and what writes it to a path."""
SOUND = """<!DOCTYPE html><html lang="en"><head><title>x</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><style>
body { font: 16px sans-serif; margin: 1rem } figure { margin: 0; break-inside: avoid } h2 { break-after: avoid }
</style></head><body><h1>A page</h1><p>Some words.</p>
<figure><svg role="img" aria-label="A square of one colour" viewBox="0 0 100 100" width="100" height="100">
<rect width="100" height="100" fill="#eee"/><text x="5" y="50" font-size="14">words</text></svg></figure>
</body></html>"""
"""A page without fault, into which faults are planted."""
SCREENS = {
    "narrow": (320, 640),  # WCAG 2.2, success criterion 1.4.10 (reflow): the width that must do
    "phone": (390, 844),
    "projector": (1024, 768),
    "laptop": (1280, 800),
    "large": (1920, 1080),
}
"""Width and height in CSS pixels."""
SHEET = re.compile(rb"(\d+) 0 obj\s*<</Type /Page\b(?!s).*?/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", re.DOTALL)
GOAL = re.compile(rb"/((?:block|heading)-\d+-[ab]) \[(\d+) 0 R /XYZ")
"""In a PDF as Chromium writes it: each page with its size, and the page on which a place with a name lies."""
QUIET = ["--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"]
FLAGS = ["--no-sandbox", "--disable-dev-shm-usage", "--disable-gpu", *QUIET]


@pytest.fixture(scope="module")
def browser():
    """Chromium, started once a module; it ends before the next, since it keeps an event loop running."""
    driver = pytest.importorskip("playwright.sync_api", reason="playwright, which drives the browser, is not here")
    program = shutil.which("chromium")
    if program is None:
        pytest.skip("no chromium here (Debian: apt-get install chromium; .ci/run does that)")
    with driver.sync_playwright() as play:
        started = play.chromium.launch(executable_path=program, args=FLAGS)
        yield started
        started.close()


@pytest.fixture(scope="module")
def opened(browser):
    """Open a file on a screen: the page, its width, and what it complained of or asked for."""
    contexts = []

    def open_file(path, screen="laptop", **more):
        width, height = SCREENS[screen]
        touch = {"is_mobile": True, "has_touch": True} if width < 600 else {}
        context = browser.new_context(viewport={"width": width, "height": height}, **touch, **more)
        context.set_default_timeout(10_000)
        contexts.append(context)
        page, noise, own = context.new_page(), [], path.resolve().as_uri()
        page.on("console", lambda said: noise.append(f"console: {said.text}"))
        page.on("pageerror", lambda error: noise.append(f"error: {error}"))
        page.on("request", lambda asked: None if asked.url.split("#")[0] == own else noise.append(f"asks {asked.url}"))
        page.add_init_script(MEASURES)
        page.goto(own)
        return SimpleNamespace(page=page, width=width, noise=noise, ask=page.evaluate)

    yield open_file
    for context in contexts:
        context.close()


@pytest.fixture(scope="session")
def sound():
    """Give a page without fault as text."""
    return SOUND


@pytest.fixture
def show(opened, tmp_path):
    """Open a text as a page, on a phone unless it is said otherwise."""

    def opened_text(text, screen="phone"):
        path = tmp_path / "page.html"
        path.write_text(text, encoding="utf-8")
        return opened(path, screen)

    return opened_text


@pytest.fixture(scope="session")
def written(tmp_path_factory):
    """Write each page once, when it is first asked for."""
    folder, done = tmp_path_factory.mktemp("pages"), {}

    def path_of(name):
        if name not in done:
            PAGES[name](folder / f"{name}.html")
            done[name] = folder / f"{name}.html"
        return done[name]

    return path_of


@pytest.fixture(params=list(PAGES), scope="module")
def document(request, browser, written):
    """Give the path of each page."""
    return written(request.param)


@pytest.fixture(params=[name for name in PAGES if not name.endswith("-inch")], scope="module")
def look(request, browser, written):
    """Give the path of each page, in one system of units: the other looks alike."""
    return written(request.param)


@pytest.fixture(params=list(SCREENS), scope="module")
def seen(request, opened, document):
    """Open each page on each screen."""
    return opened(document, request.param)


@pytest.fixture(scope="session")
def screens():
    """Width and height of each screen [CSS px]."""
    return SCREENS


@pytest.fixture(scope="session")
def measures():
    """Give the script that puts what is asked of a page into it."""
    return MEASURES


@pytest.fixture(scope="session")
def paged():
    """Read a PDF: the width and height of each sheet [mm], and the number of the sheet each mark lies on."""

    def read_pdf(data):
        found = SHEET.findall(data)
        number = {name: i for i, (name, _, _) in enumerate(found)}
        sizes = [tuple(round(float(one) * 25.4 / 72) for one in size) for _, *size in found]
        return sizes, {name.decode(): number[sheet] for name, sheet in GOAL.findall(data)}

    return read_pdf
