"""On which line each key of a TOML text stands; the standard reader does not tell.

The text has been read by ``tomllib`` before, so it is known to be sound; this scanner only keeps its place.
"""

from __future__ import annotations

import re
from bisect import bisect_right

__all__ = ["Path", "lines_of"]

Path = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'', re.DOTALL
)  # fmt: skip
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_BARE_VALUE = re.compile(r"[^,\]}\n#]+")


class _Scanner:
    """Walks over a TOML text and notes the line of each key and list entry."""

    def __init__(self, text: str) -> None:
        self.text, self.at = text, 0
        self.ends = [found.start() for found in re.finditer("\n", text)]
        self.lines: dict[Path, int] = {}
        self.last: dict[Path, int] = {}

    def run(self) -> dict[Path, int]:
        here: Path = ()
        while self._skip() < len(self.text):
            if self.text.startswith("[", self.at):
                here = self._header()
            else:
                self._pair(here)
        return self.lines

    def _skip(self) -> int:
        found = _BLANK.match(self.text, self.at)
        self.at = found.end() if found else self.at
        return self.at

    def _mark(self, path: Path) -> None:
        self.lines.setdefault(path, bisect_right(self.ends, self.at - 1) + 1)

    def _key(self) -> Path:
        parts: list[str] = []
        while True:
            self._skip()
            found = _STRING.match(self.text, self.at) or _BARE_KEY.match(self.text, self.at)
            if found is None:
                return tuple(parts)
            word = found[0]
            parts.append(word[1:-1] if word[0] in "\"'" else word)
            self.at = found.end()
            self._skip()
            if not self.text.startswith(".", self.at):
                return tuple(parts)
            self.at += 1

    def _header(self) -> Path:
        several = self.text.startswith("[[", self.at)
        start = self.at
        self.at += 2 if several else 1
        key = self._key()
        self.at, end = start, self.at
        path: Path = ()
        for count, part in enumerate(key):
            path = (*path, part)
            is_end = count == len(key) - 1
            if is_end and several:
                self.last[path] = self.last.get(path, -1) + 1
            self._mark(path)
            if path in self.last:
                path = (*path, self.last[path])
                self._mark(path)
        self.at = end + (2 if several else 1)
        return path

    def _pair(self, here: Path) -> None:
        start = self.at
        key = self._key()
        after, self.at = self.at, start
        for count in range(1, len(key) + 1):
            self._mark((*here, *key[:count]))
        self.at = max(after, start + 1) if not key else after
        self._skip()
        if self.text.startswith("=", self.at):
            self.at += 1
            self._value((*here, *key))

    def _value(self, path: Path) -> None:
        self._skip()
        if self.text.startswith("[", self.at):
            self._entries(path)
        elif self.text.startswith("{", self.at):
            self._inline(path)
        else:
            found = _STRING.match(self.text, self.at) or _BARE_VALUE.match(self.text, self.at)
            self.at = found.end() if found else self.at + 1

    def _entries(self, path: Path) -> None:
        self.at += 1
        count = 0
        while self._skip() < len(self.text) and self.text[self.at] != "]":
            if self.text[self.at] == ",":
                self.at += 1
                continue
            self._mark((*path, count))
            self._value((*path, count))
            count += 1
        self.at += 1

    def _inline(self, path: Path) -> None:
        self.at += 1
        while self._skip() < len(self.text) and self.text[self.at] != "}":
            if self.text[self.at] == ",":
                self.at += 1
            else:
                self._pair(path)
        self.at += 1


def lines_of(text: str) -> dict[Path, int]:
    r"""Find the line of every key.

    Parameters
    ----------
    text : str
        A TOML text that ``tomllib`` has read.

    Returns
    -------
    dict of tuple to int
        Path (keys, and numbers of list entries from 0) to line, counted from 1.

    Examples
    --------
    >>> found = lines_of('a = 1\n[b]\nc = [ { d = 2 },\n  { d = 3 } ]\n')
    >>> found[("a",)], found[("b", "c", 1, "d")]
    (1, 4)
    """
    return _Scanner(text).run()
