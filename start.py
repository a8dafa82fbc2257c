#!/usr/bin/env python3
# ruff: noqa: UP031, RUF005, B904, S603, S606  (an old Python must be able to parse this file, to be told what it lacks)
"""Start here: makes an environment beside this file, once, and hands over to the package in it.

    python3 start.py                  check the demo rudder, data/rudder.toml
    python3 start.py check my.toml    any command of the package, from the folder you stand in
    python3 start.py test             every test, notebooks included (more words go to pytest)
    python3 start.py lab              the notebooks in JupyterLab, without the net
    python3 start.py notebooks        work the stored notebooks out again
    python3 start.py bench            how fast it is

On some computers the command is "python" or "py". Needs Python 3.11 or later, and nothing else.

The package is not installed: a .pth file points the environment here, so that no build tool is fetched, an edit counts
at once and the folder can be moved. Nothing is activated: every command passes through here.
"""

import errno
import hashlib
import os
import re
import shutil
import subprocess
import sys

NEEDED = (3, 11)
THIS_PYTHON = "Python %d.%d" % sys.version_info[:2]  # an environment made by another one is made anew
COMPUTER = 3  # exit code for what is wrong with the computer; 0, 1 and 2 belong to the package
ROOT = os.path.dirname(os.path.abspath(__file__))
KINDS = {  # folder, extra of pyproject.toml, MB to fetch, MB on disk (Linux, Python 3.11, measured)
    "core": (".venv", None, 75, 280),
    "test": (".venv", "test", 190, 670),
    "browser": (".venv", "browser", 54, 170),
    "lab": (".venv-lab", "lab", 120, 460),
}
SCRIPTS = {"bench": ("bench", "run.py"), "notebooks": ("tools", "execute_notebooks.py")}  # below tests/
UNREACHABLE = re.compile(
    "(?i)new connection|name resolution|name or service|getaddrinfo|connect(ion)? ?timeout|timed out|connection refused"
    r"|connection reset|unreachable|proxyerror|sslerror|\(from versions: none\)"
)
FULL = re.compile("no space left|errno 28|disk quota|not enough space", re.IGNORECASE)
LOCKED = re.compile(r"errno (1|13|30)\b|permission denied|read-only file system", re.IGNORECASE)
FETCHED = re.compile(r"^\s*(?:Downloading|Using cached) (?:\S*/)?([^\s/]+?)(?<!\.metadata) \(([^)]+)\)")


class Stop(Exception):
    """Something about this computer, in one line that says what to do."""


class Unreachable(Stop):
    """The package registry did not answer."""


def main(words):
    """Do what the words ask and return the exit code."""
    if sys.version_info < NEEDED:
        return complain(old_python(sys.version_info))
    try:
        return start(words)
    except Stop as stop:
        return complain(str(stop))
    except OSError as error:
        return complain(explain(error))
    except KeyboardInterrupt:
        complain("stopped; starting again takes it up where that is needed")
        return 130


def complain(line):
    """Say in one line what is wrong."""
    sys.stderr.write(line + "\n")
    return COMPUTER


def start(words):
    """Sort out who is meant, make what that needs, hand over."""
    first, rest = (words[0], words[1:]) if words else ("", [])
    if first == "test":
        add_driver()
        return hand_over("test", ["-m", "pytest"] + rest, ROOT)
    if first in SCRIPTS:
        return hand_over("test", [os.path.join(ROOT, "tests", *SCRIPTS[first])] + rest)
    if first == "lab":
        # Ctrl-C ends it at once; the other extension manager would ask the net; what is added gives pictures their alt
        options = ["--ServerApp.answer_yes=True", "--LabApp.extension_manager=readonly"]
        options.append("--LabApp.extra_labextensions_path=" + os.path.join(ROOT, "surfacecheck", "report", "lab"))
        return hand_over("lab", ["-m", "jupyterlab"] + options + rest, os.path.join(ROOT, "notebooks"))
    if first in ("-h", "--help"):
        say(__doc__.split("\n\n")[1] + "\n")
    demo = os.path.join("" if os.path.realpath(".") == os.path.realpath(ROOT) else ROOT, "data", "rudder.toml")
    return hand_over("core", ["-m", "surfacecheck"] + (words or ["check", demo]))


def add_driver():
    """Add what drives a browser where there is one; without, the tests that need it say why they are skipped."""
    if shutil.which("chromium"):
        try:
            environment("browser")
        except Stop as stop:
            say("%s; without it the tests in a browser are skipped" % stop)


def hand_over(kind, arguments, folder=None):
    """Become the environment's Python; its output and exit code are then this command's own."""
    command = [environment(kind)] + arguments
    os.chdir(folder or os.curdir)
    if os.name == "nt":  # there, exec returns to the shell before the child has begun
        return subprocess.call(command, env=surroundings())
    os.execve(command[0], command, surroundings())


def surroundings():
    """Return the variables a child gets."""
    kept = dict(os.environ)
    # without stored bytecode every start takes 5 s instead of 2; the other two lead to other environments' packages
    for name in ("PYTHONDONTWRITEBYTECODE", "PYTHONPATH", "PYTHONHOME"):
        kept.pop(name, None)
    # the matrices are small: threads cost more than they save, and results must not hang on the number of cores
    for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
        kept.setdefault(name, "1")
    return dict(kept, SURFACECHECK_CALLED_AS=called_as())


def called_as():
    """Return how this file was called, so that a printed hint can be typed as it stands."""
    python, script = os.path.basename(sys.executable).replace(".exe", ""), sys.argv[0] or "start.py"
    return "%s %s" % (python, '"%s"' % script if " " in script else script)


def environment(kind):
    """Return the path of the environment's Python, after making or completing it where that is needed."""
    name, extra, fetch, disk = KINDS[kind]
    folder = os.path.join(ROOT, name)
    python = os.path.join(folder, *(("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")))
    asked = requirements(extra)
    wanted = fingerprint(asked)
    first_kind = "core" if name == ".venv" else kind
    mark, first_mark = (os.path.join(folder, "made-for-%s.txt" % one) for one in (kind, first_kind))
    whole = os.path.exists(python) and read(first_mark).split("\n")[0] == THIS_PYTHON
    if whole and read(mark) == wanted:
        return python
    outdated = whole and mark == first_mark
    names = ", ".join(re.match("[A-Za-z0-9-]+", line).group() for line in asked)
    say("Into %s, once: %s and what they need, up to %d MB to fetch, %d MB on disk." % (name, names, fetch, disk))
    try:
        if not whole:  # a half-made one has no mark, and is made anew
            create(folder)
        install(folder, python, asked)
    except Unreachable as stop:
        if not outdated:
            raise Unreachable("%s%s" % (stop, "; what is installed still works" if whole else ""))
        say("%s; going on with what is installed" % stop)
        return python
    except (Stop, OSError):
        if outdated:  # half of it may be new
            write(mark, "")
        raise
    point_here(folder)
    if mark != first_mark:  # its packages hold the core's
        write(first_mark, fingerprint(requirements(None)))
    write(mark, wanted)
    return python


def requirements(extra):
    """Return what pyproject.toml asks for: the core, and one extra."""
    import tomllib

    with open(os.path.join(ROOT, "pyproject.toml"), "rb") as file:
        project = tomllib.load(file)["project"]
    return project["dependencies"] + (project["optional-dependencies"][extra] if extra else [])


def fingerprint(asked):
    """Return the text of a mark: the Python, then a hash of what is asked and of the exact versions."""
    pins = [line.strip() for line in read(os.path.join(ROOT, "constraints.txt")).split("\n")]
    text = "\n".join(asked + [line for line in pins if line and not line.startswith("#")])
    return THIS_PYTHON + "\n" + hashlib.sha256(text.encode("utf-8")).hexdigest()


def create(folder):
    """Make an empty environment; pip comes later, where it is needed."""
    try:
        import venv

        if not shutil.which("uv"):
            import ensurepip  # noqa: F401

        venv.create(folder, clear=True, symlinks=os.name != "nt", with_pip=False)
    except ImportError:
        raise Stop(no_venv())
    except ValueError as error:  # the folder's name holds what separates paths
        raise Stop("%s: rename that folder" % error)


def install(folder, python, asked):
    """Fetch and install with uv where it is on the PATH (ten times faster), with pip where that does not work."""
    options = ["--only-binary", ":all:", "-c", os.path.join(ROOT, "constraints.txt")] + asked
    uv, code, output = shutil.which("uv"), 0, ""
    if uv and run([uv, "pip", "install", "--python", python] + options)[0] == 0:
        return
    if not os.path.isdir(os.path.join(packages(folder), "pip")):
        code, output = run([python, "-m", "ensurepip"])
    if code == 0:  # --no-compile: only what is used is compiled, at its first use
        code, output = run([python, "-m", "pip", "install", "--no-compile", "--retries", "2"] + options)
    if code:
        raise failure(output)


def run(command):
    """Run a command, show what it fetches and how large that is, return its code and what it said."""
    settings = dict(surroundings(), PIP_DISABLE_PIP_VERSION_CHECK="1")
    child = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, env=settings)
    said = ""
    for raw in child.stdout:
        line = raw.decode("utf-8", "replace")
        said += line
        for name, size in FETCHED.findall(line):  # of a wheel's name, the package and its version
            say("  %s  %s" % (" ".join(name.split("-")[:2]), size))
    return child.wait(), said


def packages(folder):
    """Return the folder of an environment's packages."""
    return os.path.join(folder, "Lib" if os.name == "nt" else "lib/python%d.%d" % sys.version_info[:2], "site-packages")


def point_here(folder):
    """Let the environment find the package, by the way from its packages' folder up to this one."""
    write(os.path.join(packages(folder), "surfacecheck-here.pth"), os.path.relpath(ROOT, packages(folder)) + "\n")
    if os.path.basename(folder) == ".venv-lab":  # no question about news: there may be no net; no line of code is cut
        news = '"@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": false}'
        code = '"@jupyterlab/notebook-extension:tracker": {"codeCellConfig": {"lineNumbers": false, "lineWrap": true}}'
        write(os.path.join(folder, "share", "jupyter", "lab", "settings", "overrides.json"), "{%s,%s}\n" % (news, code))


def old_python(found):
    """Return the line for a Python that is too old, naming a newer one where one is here and starts."""
    hint = "install one (python.org, or your system's packages)"
    which = getattr(shutil, "which", lambda name: None)
    with open(os.devnull, "w") as nowhere:
        for name in ["python3.%d" % minor for minor in range(11, 20)]:
            if which(name) and subprocess.call([name, "-c", ""], stdout=nowhere, stderr=nowhere) == 0:
                hint = "start with: %s start.py" % name
    return "Python %d.%d found, %d.%d needed; %s" % (tuple(found[:2]) + NEEDED + (hint,))


def no_venv():
    """Return the line for a Python without its venv and ensurepip modules."""
    hint = "this Python has no venv module; on Debian or Ubuntu: sudo apt install python3-venv (or python%d.%d-venv)"
    return hint % sys.version_info[:2]


def failure(output):
    """Return the error for what an installer said."""
    lines = [line.strip() for line in output.split("\n") if line.strip()]
    why = next((line for line in lines if line.lower().startswith("error")), lines[-1] if lines else "no word why")
    if FULL.search(output):
        return Stop("the disk is full: make room for %s (and for temporary files), then start again" % ROOT)
    if LOCKED.search(output):
        return Stop("cannot write here (%s): copy the folder to a place of your own and start there" % why)
    if "No module named ensurepip" in output:
        return Stop(no_venv())
    if UNREACHABLE.search(output):
        return Unreachable("no connection to the package registry: try again when there is one")
    return Stop("installing failed under Python %d.%d: %s" % (sys.version_info[0], sys.version_info[1], why))


def explain(error):
    """Return the line for an error of the operating system."""
    if error.errno == errno.ENOENT and os.path.basename(str(error.filename)) == "pyproject.toml":
        return "pyproject.toml is not beside start.py: unpack the whole archive and start again"
    said = "[Errno %s] %s: %s" % (error.errno, error.strerror, error.filename)
    return str(failure(said)) if FULL.search(said) or LOCKED.search(said) else "this computer says: %s" % error


def say(line):
    """Print at once."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def read(path):
    """Return a file's text, or nothing where there is none."""
    try:
        with open(path) as file:
            return file.read()
    except OSError:
        return ""


def write(path, text):
    """Write a file, and the folders it lies in."""
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "w") as file:
        file.write(text)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
