"""Start the browser's side: datasette on the built table, read-only, on this machine alone."""

from __future__ import annotations

import asyncio
import socket
import threading
import webbrowser
from pathlib import Path
from typing import Any

#: SQL stays open: the table is open data, read-only, and a query has a second.
SETTINGS = {
    "default_page_size": 50,
    "max_returned_rows": 2000,
    "sql_time_limit_ms": 1000,
    "facet_time_limit_ms": 500,
    "default_facet_size": 12,
    "suggest_facets": False,
    "allow_download": True,
}


def datasette_for(database: Path) -> Any:
    """A datasette that serves the table and our pages; the file is opened as one that never changes."""
    from datasette.app import Datasette
    from datasette.plugins import pm

    from stockcheck.web import plugin

    # an installed package has registered itself by its entry point; a bare checkout has not
    if not pm.is_registered(plugin):
        pm.register(plugin, "stockcheck")
    return Datasette([], immutables=[str(database)], settings=SETTINGS)


def serve(database: Path, host: str = "127.0.0.1", port: int = 8001, open_browser: bool = False) -> None:
    """Serve until interrupted.

    Parameters
    ----------
    database : Path
        The built table.
    host : str
        Address to listen on; the default can be reached from this machine only.
    port : int
        0 takes any free port; the address is printed.
    open_browser : bool
        Show the front page in the reader's own browser once the server listens.

    Raises
    ------
    OSError
        When the port is taken.
    """
    import uvicorn

    listening = socket.create_server((host, port))
    address = f"http://{host}:{listening.getsockname()[1]}/"
    datasette = datasette_for(database)
    asyncio.run(datasette.invoke_startup())
    print(f"stockcheck is at {address} (stop it with Ctrl-C)", flush=True)
    if open_browser:
        threading.Timer(0.5, webbrowser.open, [address]).start()
    config = uvicorn.Config(datasette.app(), log_level="warning", lifespan="on")
    uvicorn.Server(config).run(sockets=[listening])
