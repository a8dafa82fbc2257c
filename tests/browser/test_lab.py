"""A notebook in JupyterLab, as ``start.py lab`` starts it: opens without the net, runs through, ends with Ctrl-C.

It is started at a terminal of its own, since JupyterLab takes Ctrl-C for an order to end only there: elsewhere the
signal breaks in wherever the server happens to be, and may be lost.

On three screens: a laptop, a projector, and a window as narrow as a phone, where the list of files is folded away by
its own button first, as a person does. Every picture says what it shows, as stored and after it is drawn anew.
"""

from __future__ import annotations

import contextlib
import functools
import json
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path
from types import SimpleNamespace
from urllib.parse import urlsplit

import pytest

pty, fcntl, termios = (
    pytest.importorskip(name, reason="no such terminals here", exc_type=ImportError)
    for name in ("pty", "fcntl", "termios")
)

ROOT = Path(__file__).parents[2]
NOTEBOOK = "01_follow_a_load_to_the_pin.ipynb"
READY = "text=Python 3 (ipykernel) | Idle"
PATIENCE = 60
FINISHED = """() => {
  const prompts = [...document.querySelectorAll(".jp-CodeCell .jp-InputPrompt")].map((one) => one.innerText.trim());
  return prompts.some(Boolean) && prompts.filter(Boolean).every((one) => /\\d/.test(one));
}"""
"""Every cell that is drawn has its number (those scrolled away are not drawn)."""
CUT = """() => {
  const boxes = document.querySelectorAll(".jp-Notebook, .jp-Cell .cm-scroller, .jp-Cell .jp-RenderedMarkdown");
  const cut = [...boxes].filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1);
  return cut.map((one) => `cut: ${one.className} ${one.textContent.trim().slice(0, 40)}`);
}"""
"""Text that somebody would have to move sideways; wide tables of numbers move by themselves."""
SILENT = """least => [...document.querySelectorAll(".jp-OutputArea img")].filter((one) => one.alt.trim().length < least)
  .map((one) => `silent: ${one.naturalWidth} x ${one.naturalHeight} ${one.alt}`)"""
"""Pictures that do not say what they show."""
SAID = """() => [...document.querySelectorAll(".jp-OutputArea img")].map((one) => one.alt)"""
DUMB = """(window._JUPYTERLAB ??= {})["surfacecheck-alt"] = {
  init() {}, get: async () => () => ({ __esModule: true, default: [] }),
};"""
"""In place of what gives pictures their words: gives none."""
FURTHER = """() => {
  const panel = document.querySelector(".jp-WindowedPanel-outer");
  const next = panel.scrollTop + 0.8 * panel.clientHeight;
  return [next, panel.scrollTop + panel.clientHeight < panel.scrollHeight - 1];
}"""
LAB_SCREENS = ["phone", "projector", "laptop"]
NARROW = 600
LEAST = 12.0
LEAST_WORDS = 20
SHOWN = """
from base64 import b64encode
from IPython.display import display
from surfacecheck import report
png = b64encode(report.guess_line(1, 2).png()).decode()
svg = "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><rect width='9' height='9'/></svg>"
def show(kind, data, said, **kept):
    ground = {"needs_background": "light"} if kept else {}
    display({kind: data, "text/plain": said}, metadata={kind: kept, **ground}, raw=True)
show("image/png", png, "<picture: other words>", alt="Words kept beside it", width=70)
show("image/png", png, "<picture: Words it <prints>>")
show("image/png", png, "<Figure size 640x480 with 1 Axes>")
show("image/png", png, "")
show("image/svg+xml", svg, "<svg>", alt="A square")
report.guess_line(1, 3, "N", "Pull of the cable")
"""
"""A cell that shows pictures as anything in a notebook may: with and without words."""
CTRL_C = b"\x03"
DEAD = "http://127.0.0.1:9"
"""Nobody answers there: a server that asks the net hears at once that there is none."""


def free_port():
    """Return a port nobody listens on."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def answers(place):
    """Wait until a server answers."""
    direct = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    for _ in range(PATIENCE * 5):
        try:
            direct.open(f"{place}/api", timeout=5).close()
        except OSError:
            time.sleep(0.2)
        else:
            return True
    return False


@contextlib.contextmanager
def terminal():
    """Open a terminal; give where its keys are pressed, and what makes a new program the one that sits at it."""
    keys, screen = pty.openpty()
    try:
        mine = functools.partial(fcntl.ioctl, 0, termios.TIOCSCTTY, 0)
        yield keys, {"stdin": screen, "start_new_session": True, "preexec_fn": mine}
    finally:
        os.close(screen)
        os.close(keys)


@pytest.fixture(scope="module")
def lab(browser, tmp_path_factory):
    """JupyterLab on a copy of notebooks and data, with settings of its own: nothing here is changed by it."""
    if not (ROOT / ".venv-lab" / "made-for-lab.txt").exists():
        pytest.skip("JupyterLab is not installed here (python3 start.py lab does that; .ci/run, too)")
    folder = tmp_path_factory.mktemp("lab")
    for name in ("notebooks", "data"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns(".*", "out"))
    own = {f"JUPYTER_{kind}_DIR": str(folder / kind) for kind in ("CONFIG", "DATA", "RUNTIME")}
    off = {name: DEAD for name in ("HTTP_PROXY", "HTTPS_PROXY", "http_proxy", "https_proxy")}
    variables = {**os.environ, **own, **off, "IPYTHONDIR": str(folder / "ipython"), "NO_PROXY": "127.0.0.1"}
    place = f"http://127.0.0.1:{free_port()}"
    words = ["--no-browser", f"--ServerApp.port={urlsplit(place).port}", "--IdentityProvider.token=word"]
    words += [f"--ServerApp.root_dir={folder / 'notebooks'}"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        words.append("--allow-root")
    with (folder / "log").open("w") as log, terminal() as (keys, session):
        command = [sys.executable, str(ROOT / "start.py"), "lab", *words]
        server = subprocess.Popen(command, env=variables, stderr=log, **session)
        try:
            assert answers(place), (folder / "log").read_text()
            yield place, server, folder, keys
        finally:
            if server.poll() is None:
                server.kill()
            server.wait()


@pytest.fixture(params=LAB_SCREENS)
def desk(request, browser, lab, screens, measures):
    """One notebook on each screen, in a copy and a workspace of its own, with what it complained of and asked for."""
    place, _, folder, _ = lab
    name = f"{request.param}.ipynb"
    shutil.copy(folder / "notebooks" / NOTEBOOK, folder / "notebooks" / name)
    width, height = screens[request.param]
    page = browser.new_page(viewport={"width": width, "height": height})
    page.set_default_timeout(PATIENCE * 1000)
    noise, asked = [], []
    page.on("request", lambda one: asked.append(one.url))
    page.on("console", lambda said: noise.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: noise.append(str(error)))
    page.add_init_script(measures)
    page.goto(f"{place}/lab/workspaces/{request.param}/tree/{name}?token=word")
    page.wait_for_selector(READY)  # before that, running clears the cells and says nothing
    yield SimpleNamespace(page=page, path=folder / "notebooks" / name, width=width, noise=noise, asked=asked)
    page.close()


def code_cells(path):
    """Return the cells of a notebook that hold code."""
    return [one for one in json.loads(path.read_text(encoding="utf-8"))["cells"] if one["cell_type"] == "code"]


def passed_through(page):
    """Go down a notebook a screen at a time, since what is far away is not drawn; give what is wrong anywhere.

    Beside it what the pictures say.
    """
    wrong, said, at, more = set(), set(), 0, True
    while more:
        page.evaluate("at => new Promise((done) => { document.querySelector('.jp-WindowedPanel-outer').scrollTop = at;"
                      " requestAnimationFrame(() => setTimeout(done, 100)); })", at)  # fmt: skip
        wrong |= set(page.evaluate("least => measures.small(least)", LEAST)) | set(page.evaluate(CUT))
        wrong |= set(page.evaluate(SILENT, LEAST_WORDS))
        said |= set(page.evaluate(SAID))
        at, more = page.evaluate(FURTHER)
    return wrong, said


def order(page, menu, entry):
    """Choose an entry of a menu."""
    page.get_by_role("menuitem", name=menu, exact=True).click()
    page.get_by_text(entry, exact=True).click()


def test_a_notebook_opens_and_runs(desk, lab):
    page, before = desk.page, code_cells(desk.path)
    assert page.locator(".jp-Dialog, .Toastify__toast").count() == 0
    if desk.width < NARROW:
        page.get_by_role("tab", name="File Browser").click()  # folds the list of files away
    order(page, "View", "Expand All Outputs")
    said = {words for one in before for words in text_of(one)[2] if words}
    assert len(said) > 5
    assert passed_through(page) == (set(), said)
    order(page, "Run", "Run All Cells")
    page.wait_for_function(FINISHED)
    page.wait_for_selector(READY)
    page.keyboard.press("Control+s")
    page.wait_for_selector("text=Saving completed", state="attached")  # a narrow window hides it
    assert page.evaluate("document.documentElement.scrollWidth") <= desk.width
    assert page.evaluate("document.querySelector('.jp-Notebook').clientWidth") > 0.6 * desk.width
    assert passed_through(page) == (set(), said)

    cells = code_cells(desk.path)
    assert [one["execution_count"] for one in cells] == list(range(1, len(before) + 1))
    assert [text_of(one) for one in cells] == [text_of(one) for one in before]
    assert desk.noise == []
    places = {urlsplit(url).netloc for url in desk.asked if not url.startswith(("data:", "blob:"))}
    assert places == {urlsplit(lab[0]).netloc}


@pytest.mark.parametrize("desk", ["laptop"], indirect=True)
def test_what_is_cut_and_what_is_small_are_seen(desk):
    """The two measures above can fail: a line of code that is not wrapped, and a word of 11 px."""
    page = desk.page
    page.add_style_tag(content=".jp-Notebook .cm-line { width: 2000px } .jp-Notebook h1 { font-size: 11px !important }")
    wrong, _ = passed_through(page)
    assert any(one.startswith("11.00 px") for one in wrong)
    assert any(one.startswith("cut: ") for one in wrong)


@pytest.mark.parametrize("desk", ["laptop"], indirect=True)
def test_a_picture_without_words_is_seen(desk):
    """Without what this package adds, pictures are silent: so that is what the words come from."""
    page = desk.page
    answer = {"body": DUMB, "content_type": "text/javascript"}
    page.route("**/surfacecheck-alt/static/*.js", lambda asked: asked.fulfill(**answer))
    page.reload()
    page.wait_for_selector(READY)
    wrong, said = passed_through(page)
    assert said == {""}
    assert any(one.startswith("silent: ") for one in wrong)


@pytest.mark.parametrize("desk", ["laptop"], indirect=True)
def test_any_picture_says_something_and_is_drawn_as_before(desk):
    page = desk.page
    page.locator(".jp-CodeCell .cm-content").first.click()
    page.keyboard.press("Control+a")
    page.keyboard.insert_text(SHOWN)
    page.keyboard.press("Control+Enter")
    page.wait_for_function("() => document.querySelectorAll('.jp-CodeCell')[0].querySelectorAll('img').length === 6")
    found = page.evaluate("""() => [...document.querySelectorAll(".jp-CodeCell")[0].querySelectorAll("img")]
      .map((one) => [one.alt, one.getAttribute("width"), one.className])""")
    assert found == [
        ["Words kept beside it", "70", "jp-needs-light-background"],
        ["Words it <prints>", None, ""],
        ["Picture that is not described: Figure size 640x480 with 1 Axes", None, ""],
        ["Picture that is not described", None, ""],
        ["A square", None, ""],
        ["Pull of the cable: guess 1 N, result 3 N.", None, ""],
    ]
    assert desk.noise == []


def test_it_ends_cleanly(lab):
    _, server, folder, keys = lab
    os.write(keys, CTRL_C)
    assert server.wait(timeout=20) == 0
    log = (folder / "log").read_text()
    assert "Shutting down..." in log
    assert "Traceback" not in log[log.index("interrupted") :]  # before it, a page that is left may cut a socket off


def text_of(cell):
    """Return what a cell prints, the kinds of what else it shows, and what its pictures say."""
    printed = "".join("".join(one["text"]) for one in cell["outputs"] if one["output_type"] == "stream")
    others = [one for one in cell["outputs"] if one["output_type"] != "stream"]
    said = [one["metadata"].get("image/png", {}).get("alt") for one in others]
    return printed, [sorted(one.get("data", {})) for one in others], said
