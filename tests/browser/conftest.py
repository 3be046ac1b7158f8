"""The real server on the real table, and a headless Chromium to drive it."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

CHROMIUM = next(
    (path for name in ("chromium", "chromium-browser", "google-chrome") if (path := shutil.which(name))), None
)
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def address(database: Path) -> Iterator[str]:
    """The address of a server started as ``stockcheck browse`` starts it, on a free port."""
    command = [sys.executable, "-m", "stockcheck", "browse", "--port", "0", "--database", str(database)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout is not None
        said = server.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:\d+", said)
        assert found, f"the server said {said!r}"
        yield found.group()
        server.terminate()


# Not for the whole session: while it runs no other test can start an event loop of its own.
@pytest.fixture(scope="module")
def chromium() -> Iterator[object]:
    """A running Chromium; without one the browser tests are skipped, except where they must run."""
    if CHROMIUM is None:
        if os.environ.get("CI"):
            pytest.fail("Chromium is missing; install Debian's package chromium")
        pytest.skip("Chromium is missing: the browser tests need Debian's package chromium")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()
