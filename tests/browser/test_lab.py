"""A notebook in JupyterLab, as ``start.py lab`` starts it: opens without the net, runs through, ends with Ctrl-C."""

from __future__ import annotations

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path
from urllib.parse import urlsplit

import pytest

ROOT = Path(__file__).parents[2]
NOTEBOOK = "01_follow_a_load_to_the_pin.ipynb"
READY = "text=Python 3 (ipykernel) | Idle"
PATIENCE = 60
FINISHED = """() => {
  const prompts = [...document.querySelectorAll(".jp-CodeCell .jp-InputPrompt")].map((one) => one.innerText.trim());
  return prompts.some(Boolean) && prompts.filter(Boolean).every((one) => /\\d/.test(one));
}"""
"""Every cell that is drawn has its number (those scrolled away are not drawn)."""
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


@pytest.fixture
def lab(browser, tmp_path):
    """JupyterLab on a copy of notebooks and data, with settings of its own: nothing here is changed by it."""
    if not (ROOT / ".venv-lab" / "made-for-lab.txt").exists():
        pytest.skip("JupyterLab is not installed here (python3 start.py lab does that; .ci/run, too)")
    for name in ("notebooks", "data"):
        shutil.copytree(ROOT / name, tmp_path / name, ignore=shutil.ignore_patterns(".*", "out"))
    own = {f"JUPYTER_{kind}_DIR": str(tmp_path / kind) for kind in ("CONFIG", "DATA", "RUNTIME")}
    off = {name: DEAD for name in ("HTTP_PROXY", "HTTPS_PROXY", "http_proxy", "https_proxy")}
    variables = {**os.environ, **own, **off, "IPYTHONDIR": str(tmp_path / "ipython"), "NO_PROXY": "127.0.0.1"}
    place = f"http://127.0.0.1:{free_port()}"
    words = ["--no-browser", f"--ServerApp.port={urlsplit(place).port}", "--IdentityProvider.token=word"]
    words += [f"--ServerApp.root_dir={tmp_path / 'notebooks'}"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        words.append("--allow-root")
    with (tmp_path / "log").open("w") as log:
        server = subprocess.Popen([sys.executable, str(ROOT / "start.py"), "lab", *words], env=variables, stderr=log)
        try:
            assert answers(place), (tmp_path / "log").read_text()
            yield place, server, tmp_path
        finally:
            if server.poll() is None:
                server.kill()
            server.wait()


@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C is another thing there")
def test_a_notebook_opens_runs_and_ends(browser, lab):
    place, server, folder = lab
    path = folder / "notebooks" / NOTEBOOK
    stored = json.loads(path.read_text(encoding="utf-8"))
    page = browser.new_page(viewport={"width": 1280, "height": 800})
    page.set_default_timeout(PATIENCE * 1000)
    asked, noise = [], []
    page.on("request", lambda one: asked.append(one.url))
    page.on("console", lambda said: noise.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: noise.append(str(error)))
    page.goto(f"{place}/lab/tree/{NOTEBOOK}?token=word")
    page.wait_for_selector(READY)  # before that, running clears the cells and says nothing
    assert page.locator(".jp-Dialog, .Toastify__toast").count() == 0
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_text("Run All Cells", exact=True).click()
    page.wait_for_function(FINISHED)
    page.wait_for_selector(READY)
    page.keyboard.press("Control+s")
    page.wait_for_selector("text=Saving completed")
    assert page.evaluate("document.documentElement.scrollWidth") <= 1280
    page.close()

    cells = [one for one in json.loads(path.read_text(encoding="utf-8"))["cells"] if one["cell_type"] == "code"]
    before = [one for one in stored["cells"] if one["cell_type"] == "code"]
    assert [one["execution_count"] for one in cells] == list(range(1, len(before) + 1))
    assert [text_of(one) for one in cells] == [text_of(one) for one in before]
    assert noise == []
    assert {urlsplit(url).netloc for url in asked if not url.startswith(("data:", "blob:"))} == {urlsplit(place).netloc}

    server.send_signal(signal.SIGINT)
    assert server.wait(timeout=20) == 0
    assert "Traceback" not in (folder / "log").read_text()


def text_of(cell):
    """Return what a cell prints, and the kinds of what else it shows."""
    printed = "".join("".join(one["text"]) for one in cell["outputs"] if one["output_type"] == "stream")
    return printed, [sorted(one.get("data", {})) for one in cell["outputs"] if one["output_type"] != "stream"]
