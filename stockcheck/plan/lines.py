"""On which line of a TOML text each key stands; tomllib does not say.

A scanner over lines, made for texts that tomllib has accepted: it follows table headers, keys, brackets
and multi-line strings, and counts the elements of lists of tables from 1, as the messages do.
"""

from __future__ import annotations

import re

_HEADER = re.compile(r"\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(
    r"""\s*((?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*')(?:\s*\.\s*(?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*'))*)\s*="""
)
_PART = re.compile(r"""[A-Za-z0-9_-]+|"[^"]*"|'[^']*'""")
# what changes the state inside a value: strings and comments hide brackets
_TOKEN = re.compile(r'"""|\'\'\'|"(?:[^"\\]|\\.)*"|\'[^\']*\'|#.*|[\[\]{}]')


def key_lines(text: str) -> dict[str, int]:
    """The line, from 1, of each key by its path: ``tank.length``, ``filter.media[1].volume``."""
    lines: dict[str, int] = {}
    counts: dict[str, int] = {}
    section = ""
    depth, quote = 0, ""
    for index, line in enumerate(text.splitlines(), 1):
        if depth == 0 and not quote:
            header = _HEADER.match(line)
            if header:
                section = _section_path(header[2], header[1] == "[[", counts)
                lines.setdefault(section, index)
                continue
            key = _KEY.match(line)
            if key:
                path = ".".join(filter(None, (section, _path(key[1]))))
                lines.setdefault(path, index)
                line = line[key.end() :]
        depth, quote = _after(line, depth, quote)
    return lines


def line_of(lines: dict[str, int], path: str) -> int | None:
    """The line of a key, or of the nearest thing that holds it."""
    while path:
        for place in (path, f"{path}[1]"):  # a list where a table belongs, too
            if place in lines:
                return lines[place]
        path = re.sub(r"(\[\d+\]|\.[^.\[]+|^[^.\[]+)$", "", path)
    return None


def _path(written: str) -> str:
    return ".".join(part.strip("\"'") for part in _PART.findall(written))


def _section_path(written: str, is_list: bool, counts: dict[str, int]) -> str:
    """The path of a header, with the current number of each list of tables on the way."""
    path = ""
    parts = [part.strip("\"'") for part in _PART.findall(written)]
    for position, part in enumerate(parts):
        path = f"{path}.{part}" if path else part
        if is_list and position == len(parts) - 1:
            counts[path] = counts.get(path, 0) + 1
        if path in counts:
            path = f"{path}[{counts[path]}]"
    return path


def _after(line: str, depth: int, quote: str) -> tuple[int, str]:
    """Bracket depth and open multi-line string at the end of a line."""
    position = 0
    while position < len(line):
        if quote:
            end = line.find(quote, position)
            if end < 0:
                return depth, quote
            position, quote = end + 3, ""
            continue
        token = _TOKEN.search(line, position)
        if not token:
            return depth, quote
        position = token.end()
        if token[0] in ('"""', "'''"):
            quote = token[0]
        elif token[0] in "[{":
            depth += 1
        elif token[0] in "]}":
            depth -= 1
    return depth, quote
